#include "book_support.h"
#include "db/mill_return_store.h"
#include "db/movement_store.h"
#include "db/past_store.h"

namespace mellowbin {
namespace {

struct HeldLot {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    LotId lot = take_in(book, plant, "W1");

    [[nodiscard]] Movement away(Grams mass) const {
        Movement m;
        m.lot = lot;
        m.kind = MovementKind::to_mill;
        m.from = plant.bay;
        m.mass = mass;
        m.at = noon;
        m.who = "Ada Example";
        m.note = "wet (RN 12)";
        return m;
    }
    Result<MovementId> send(Grams mass) {
        Change change(book, line("Flour went back"));
        auto id = MillReturnStore(book).log(change, away(mass), "wet", "RN 12");
        if (id)
            change.commit();
        return id;
    }
    void reject() {
        Change change(book, line("The lot was rejected"));
        REQUIRE(LotStore(book).set_state(change, lot, LotState::rejected, "wet"));
        change.commit();
    }
    void take_back(MovementId id) {
        Change change(book, line("Flour came again"));
        auto sent = away(Grams{0});
        for (const auto& m : MovementStore(book).of(lot))
            if (m.id == id)
                sent = m;
        REQUIRE(MovementStore(book).append(change, countering(sent, "Bo Example", noon, "a mistake")));
        change.commit();
    }
};

} // namespace

TEST_CASE("What goes back to the mill leaves the stock, and is told from waste") {
    HeldLot at;
    const auto sent = at.send(Grams{5'000'000});
    REQUIRE(sent);
    auto expected = at.away(Grams{5'000'000});
    expected.id = *sent;
    const auto movements = MovementStore(at.book).of(at.lot);
    CHECK(movements.back() == expected);
    CHECK(StockBook(movements).total(at.lot) == Grams{20'000'000});
    CHECK(MillReturnStore(at.book).of(at.lot) ==
          std::vector{MillReturn{1, at.lot, *sent, "wet", "RN 12", noon, "Ada Example", false}});
    CHECK_FALSE(at.send(Grams{21'000'000})); // more than lies there
    CHECK(count_of(at.book, "mill_return") == 1);
    // For whoever reads the table of movements alone it is a movement of a kind that it knows.
    at.book.query("SELECT kind FROM movement ORDER BY id DESC LIMIT 1", {},
                  [](const Row& row) { CHECK(row.text(0) == "waste"); });
}

TEST_CASE("A return to the mill is countered like any movement, and its counter-entry is no waste either") {
    HeldLot at;
    const auto sent = at.send(Grams{25'000'000});
    REQUIRE(sent);
    at.take_back(*sent);
    const auto movements = MovementStore(at.book).of(at.lot);
    CHECK(movements.back().kind == MovementKind::to_mill);
    CHECK(movements.back().counters == *sent);
    CHECK(StockBook(movements).total(at.lot) == Grams{25'000'000});
    CHECK(MillReturnStore(at.book).of(at.lot).front().is_taken_back);
    CHECK_THROWS_AS(at.book.execute("DELETE FROM mill_return"), BookError);
    CHECK_THROWS_AS(at.book.execute("UPDATE mill_return SET reason = 'dry'"), BookError);
}

TEST_CASE("A row that says a movement went to the mill is of flour of that lot which left") {
    HeldLot at;
    const auto other = take_in(at.book, at.plant, "W2");
    const auto insert = [&](LotId lot, int movement) {
        at.book.execute("INSERT INTO mill_return VALUES (7, $1, $2, 'wet', '', $3, 'Ada Example')",
                        {lot, movement, noon});
    };
    CHECK_THROWS_AS(insert(at.lot, 1), BookError); // its receipt
    const auto sent = at.send(Grams{1000});
    CHECK_THROWS_AS(insert(other, static_cast<int>(sent.value().number())), BookError);
}

TEST_CASE("A rejected lot went back to the mill when the last of it did, as long as that stands") {
    HeldLot at;
    at.reject();
    const PastStore past(at.book);
    REQUIRE(at.send(Grams{24'000'000}));
    CHECK_FALSE(past.went_back(at.lot));
    const auto rest = at.send(Grams{1'000'000});
    CHECK(past.went_back(at.lot));
    CHECK(past.lots({}).lots.front().went_back);
    at.take_back(*rest);
    CHECK_FALSE(past.lots({}).lots.front().went_back);
}

} // namespace mellowbin
