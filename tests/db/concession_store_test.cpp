#include "book_support.h"
#include "db/concession_store.h"
#include "db/movement_store.h"

namespace mellowbin {
namespace {

const Day last = date::sys_days{2026_y / 11 / 26}; // the day of good_run()

struct ReleasedLot {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    ProductId bun = add_product("Bun");
    LotId lot = take_in_released(book, plant, "W1");

    ProductId add_product(const std::string& name) {
        auto product = PlantStore(book).products().front();
        product.id = {};
        product.name = name;
        Change change(book, line("A product more"));
        const auto id = PlantStore(book).save(change, product);
        change.commit();
        return id.value();
    }
    void concede(const std::optional<Concession>& concession) {
        Change change(book, line("A concession"));
        ConcessionStore(book).set(change, lot, concession);
        change.commit();
    }
    [[nodiscard]] std::optional<Concession> conceded() const {
        return LotStore(const_cast<SqliteConnection&>(book)).find(lot)->concession;
    }
    RunId run_of(ProductId product, Day day = last) {
        auto run = good_run(plant, "R" + std::to_string(++runs));
        run.product = product;
        run.day = day;
        return add_run(book, run);
    }
    Movement use(std::optional<RunId> run, Instant at = noon) const {
        Movement m;
        m.lot = lot;
        m.kind = MovementKind::use;
        m.from = plant.bay;
        m.mass = Grams{1000};
        m.at = at;
        m.who = "Ada Example";
        m.run = run;
        return m;
    }
    /// Why the store refuses it; empty: it does not.
    std::string refused(const Movement& movement) {
        Change change(book, line("Flour was used"));
        const auto id = MovementStore(book).append(change, movement);
        if (id)
            change.commit();
        return id ? std::string() : in_words(id.refusals().front());
    }
    /// Past the store, as a station of another version writes.
    void use_by_hand(RunId run) {
        book.execute("INSERT INTO movement (id, lot_id, kind, from_place_id, mass_g, at, who, run_id, note) "
                     "VALUES (99, $1, 'use', $2, 1000, $3, 'Ada Example', $4, '')",
                     {lot, plant.bay, noon, run});
    }
    int runs = 0;
};

} // namespace

TEST_CASE("The newest concession of a lot holds, and what was before stays in the book") {
    ReleasedLot at;
    CHECK_FALSE(at.conceded());
    const Concession narrow{"protein 11.2 %", "Ines", last, {at.plant.product}};
    Concession wide = narrow;
    wide.products = {at.plant.product, at.bun};
    at.concede(narrow);
    CHECK(at.conceded() == narrow);
    at.concede(wide);
    CHECK(at.conceded() == wide);
    CHECK(ConcessionStore(at.book).of(at.lot) == wide);
    CHECK(LotStore(at.book).all().front().concession == wide);
    CHECK(LotStore(at.book).live(noon).front().concession == wide);
    at.concede({});
    CHECK_FALSE(at.conceded());
    CHECK(count_of(at.book, "lot_concession") == 3);
    CHECK_THROWS_AS(at.book.execute("UPDATE lot_concession SET until = '2027-01-01'"), BookError);
    CHECK_THROWS_AS(at.book.execute("DELETE FROM lot_concession_product"), BookError);
}

TEST_CASE("Each lot has its own concession, and one that came without has none") {
    ReleasedLot at;
    const auto other = take_in(at.book, at.plant, "W2");
    at.concede(Concession{"protein 11.2 %", "Ines", last, {}});
    CHECK_FALSE(LotStore(at.book).find(other)->concession);
    CHECK(at.conceded());
    auto conceded = good_lot(at.plant, "W3");
    conceded.state = LotState::released;
    conceded.concession = Concession{"ash 0.72 %", "Ines", last, {at.bun}};
    Change change(at.book, line("Taken in"));
    const auto id = LotStore(at.book).add(change, conceded);
    change.commit();
    CHECK(LotStore(at.book).find(id.value())->concession == conceded.concession);
}

TEST_CASE("A hold ends the concession in the book") {
    ReleasedLot at;
    at.concede(Concession{"protein 11.2 %", "Ines", last, {}});
    Change change(at.book, line("The lot was held"));
    REQUIRE(LotStore(at.book).set_state(change, at.lot, LotState::held, "retest"));
    change.commit();
    CHECK_FALSE(at.conceded());
    Change again(at.book, line("The lot was released"));
    REQUIRE(LotStore(at.book).set_state(again, at.lot, LotState::released, "sound"));
    again.commit();
    CHECK_FALSE(at.conceded());
}

TEST_CASE("The store lets flour into dough as its concession says, whatever the one who draws it knows") {
    ReleasedLot at;
    const auto bread = at.run_of(at.plant.product), buns = at.run_of(at.bun),
               late = at.run_of(at.plant.product, last + Days{1});
    at.concede(Concession{"protein 11.2 %", "Ines", last, {at.plant.product}});
    CHECK(at.refused(at.use(bread)).empty());
    CHECK(at.refused(at.use(buns)) ==
          "Lot W1: its concession is not for Bun: nothing of it goes into this dough. Put it back, and ask "
          "quality staff");
    CHECK(at.refused(at.use(late)).find("its concession ended on Thu 26 Nov") != std::string::npos);
    CHECK_FALSE(at.refused(at.use({})).empty());
    // A run of the last day that is mixed two days later, in whatever zone the plant lies.
    CHECK(at.refused(at.use(bread, Instant{last + Days{1}})).empty());
    CHECK_FALSE(at.refused(at.use(bread, Instant{last + Days{2}})).empty());

    at.concede(Concession{"protein 11.2 %", "Ines", last, {}});
    CHECK(at.refused(at.use(buns)).empty());
    CHECK(at.refused(at.use({})).empty());
    at.concede({});
    CHECK(at.refused(at.use(late)).empty());
}

TEST_CASE("The book itself refuses it, too, of a station that knows nothing of concessions") {
    ReleasedLot at;
    const auto bread = at.run_of(at.plant.product), buns = at.run_of(at.bun),
               late = at.run_of(at.plant.product, last + Days{1});
    at.concede(Concession{"protein 11.2 %", "Ines", last, {at.plant.product}});
    CHECK_THROWS_AS(at.use_by_hand(buns), BookError);
    CHECK_THROWS_AS(at.use_by_hand(late), BookError);
    CHECK_NOTHROW(at.use_by_hand(bread));
}

TEST_CASE("A product that a concession names is not taken off the plant") {
    ReleasedLot at;
    at.concede(Concession{"protein 11.2 %", "Ines", last, {at.bun}});
    Change change(at.book, line("A product less"));
    const auto removed = PlantStore(at.book).remove(change, {PlantKind::product, at.bun.number()});
    REQUIRE_FALSE(removed);
    CHECK(in_words(removed.refusals().front()).find("1 concessions") != std::string::npos);
}

} // namespace mellowbin
