#include "book_support.h"
#include "db/movement_store.h"

namespace mellowbin {
namespace {

struct Shelf {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    LotId lot = take_in_released(book, plant, "W1");
    MovementStore movements{book};

    Movement some(MovementKind kind, std::optional<PlaceId> from, std::optional<PlaceId> to,
                  Grams mass) const {
        Movement m;
        m.lot = lot;
        m.kind = kind;
        m.from = from;
        m.to = to;
        m.mass = mass;
        m.at = noon;
        m.who = "Ada Example";
        return m;
    }
    Result<MovementId> append(const Movement& m) {
        Change change(book, line("Flour was moved"));
        auto id = movements.append(change, m);
        if (id)
            change.commit();
        return id;
    }
};

} // namespace

TEST_CASE("Movements of every kind come back as they went in, and the stock adds up") {
    Shelf shelf;
    const auto run = add_run(shelf.book, good_run(shelf.plant, "R-1126-1"));
    const auto bay = shelf.plant.bay;
    const auto silo = shelf.plant.silo;
    std::vector<Movement> written = shelf.movements.all();
    REQUIRE(written.size() == 1);
    auto use = shelf.some(MovementKind::use, silo, {}, Grams{400'001});
    use.run = run;
    auto back = shelf.some(MovementKind::give_back, {}, silo, Grams{1'001});
    back.run = run;
    back.note = "two bowls, not three";
    for (auto m : {shelf.some(MovementKind::move, bay, silo, Grams{10'000'000}), use, back,
                   shelf.some(MovementKind::waste, bay, {}, Grams{25'000}),
                   shelf.some(MovementKind::count, {}, bay, Grams{7}),
                   shelf.some(MovementKind::count, silo, {}, Grams{3})}) {
        const auto id = shelf.append(m);
        REQUIRE(id);
        m.id = *id;
        written.push_back(m);
    }
    CHECK(shelf.movements.all() == written);
    CHECK(shelf.movements.of(shelf.lot) == written);
    CHECK(shelf.movements.of(LotId{99}).empty());
    const StockBook stock(shelf.movements.all());
    CHECK(stock.at(shelf.lot, bay) == Grams{14'975'007});
    CHECK(stock.at(shelf.lot, silo) == Grams{9'600'997});
}

TEST_CASE("More than lies there cannot be taken, whatever another station took meanwhile") {
    Shelf shelf;
    REQUIRE(shelf.append(shelf.some(MovementKind::use, shelf.plant.bay, {}, Grams{20'000'000})));
    const auto refused = shelf.append(shelf.some(MovementKind::use, shelf.plant.bay, {}, Grams{5'000'001}));
    REQUIRE_FALSE(refused);
    CHECK(refused.refusals()[0].field == "Weight");
    CHECK(count_of(shelf.book, "movement") == 2);
    CHECK(shelf.append(shelf.some(MovementKind::use, shelf.plant.bay, {}, Grams{5'000'000})));
}

TEST_CASE(
    "No more comes back from dough than went there, of the lot and of the run, whatever came back before") {
    Shelf shelf;
    const auto bay = shelf.plant.bay;
    const auto run = add_run(shelf.book, good_run(shelf.plant, "R-1126-1"));
    const auto other = add_run(shelf.book, good_run(shelf.plant, "R-1126-2"));
    auto use = shelf.some(MovementKind::use, bay, {}, Grams{100});
    use.run = run;
    use.id = *shelf.append(use);
    auto of_other = shelf.some(MovementKind::use, bay, {}, Grams{50});
    of_other.run = other;
    REQUIRE(shelf.append(of_other));
    const auto back = [&](Grams mass, std::optional<RunId> of) {
        auto m = shelf.some(MovementKind::give_back, {}, bay, mass);
        m.run = of;
        return shelf.append(m);
    };
    CHECK_FALSE(back(Grams{151}, {}));
    CHECK_FALSE(back(Grams{101}, run));
    REQUIRE(back(Grams{60}, run));
    const auto more = back(Grams{41}, run);
    REQUIRE_FALSE(more);
    CHECK_THAT(more.refusals()[0].what, Catch::Contains("only 0.040 kg of the lot is out for the run"));
    const auto countered = shelf.append(countering(use, "Bo Example", noon, "not mixed"));
    REQUIRE_FALSE(countered);
    CHECK_THAT(countered.refusals()[0].remedy, Catch::Contains("Take back first"));
    CHECK(back(Grams{40}, run));
    CHECK(StockBook(shelf.movements.all()).total(shelf.lot) == Grams{24'999'950});
}

TEST_CASE("A movement whose places do not fit its kind is refused, and by the book itself as well") {
    Shelf shelf;
    CHECK_FALSE(shelf.append(shelf.some(MovementKind::move, shelf.plant.bay, shelf.plant.bay, Grams{1})));
    CHECK_FALSE(shelf.append(shelf.some(MovementKind::receipt, {}, {}, Grams{1})));
    CHECK_FALSE(shelf.append(shelf.some(MovementKind::waste, shelf.plant.bay, {}, Grams{0})));
    for (const char* places : {"NULL, NULL", "1, 2"})
        CHECK(fault_of([&] {
                  shelf.book.execute(
                      "INSERT INTO movement (id, lot_id, kind, from_place_id, to_place_id, mass_g, "
                      "at, who, note) VALUES (9, 1, 'use', " +
                      std::string(places) + ", 5, '2026-01-01T00:00:00Z', 'x', '')");
              }).fault() == BookFault::rule_broken);
}

TEST_CASE("A mistake is countered once") {
    Shelf shelf;
    auto mistake = shelf.some(MovementKind::waste, shelf.plant.bay, {}, Grams{250'000});
    mistake.id = *shelf.append(mistake);
    const auto counter = countering(mistake, "Bo Example", noon, "wrong pallet");
    const auto id = shelf.append(counter);
    REQUIRE(id);
    CHECK(shelf.movements.all().back().counters == mistake.id);
    CHECK(StockBook(shelf.movements.all()).total(shelf.lot) == Grams{25'000'000});

    const auto again = shelf.append(counter);
    REQUIRE_FALSE(again);
    CHECK_THAT(again.refusals()[0].what, Catch::Contains("taken back before"));
    auto of_nothing = counter;
    of_nothing.counters = MovementId{77};
    CHECK_FALSE(shelf.append(of_nothing));
}

} // namespace mellowbin
