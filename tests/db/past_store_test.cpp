#include "book_support.h"
#include "db/past_store.h"

namespace mellowbin {
namespace {

struct PastPlant {
    PastPlant() : plant(add_small_plant(book)) {}
    /// Taken in and rejected.
    LotId past(const std::string& code) {
        const auto lot = take_in(book, plant, code);
        Change change(book, line("The lot was rejected"));
        REQUIRE(LotStore(book).set_state(change, lot, LotState::rejected, "wet"));
        change.commit();
        return lot;
    }
    [[nodiscard]] std::vector<std::string> codes(const PastLotQuery& query) {
        std::vector<std::string> codes;
        for (const auto& lot : PastStore(book).lots(query).lots)
            codes.push_back(lot.code);
        return codes;
    }

    SqliteConnection book{":memory:"};
    SmallPlant plant;
};

using Codes = std::vector<std::string>;

} // namespace

TEST_CASE("Lots of the past come a page at a time, sorted and counted") {
    PastPlant at;
    for (const char* code : {"W3", "W1", "W2"})
        at.past(code);
    take_in(at.book, at.plant, "W4");
    PastLotQuery query;
    query.order = PastOrder::code;
    query.is_descending = false;
    query.count = 2;
    CHECK(at.codes(query) == Codes{"W1", "W2"});
    CHECK(PastStore(at.book).lots(query).all == 3);
    query.from = 2;
    CHECK(at.codes(query) == Codes{"W3"});
    query.from = 0;
    query.is_descending = true;
    CHECK(at.codes(query) == Codes{"W3", "W2"});
}

TEST_CASE("Lots of the past are found by a part of their number or their mill, taken letter by letter") {
    PastPlant at;
    at.past("W24-1_1");
    at.past("W24-131");
    PastLotQuery query;
    query.words = "-1_";
    CHECK(at.codes(query) == Codes{"W24-1_1"});
    query.words = "%";
    CHECK(at.codes(query).empty());
    query.words = "UPPER";
    CHECK(at.codes(query).size() == 2);
    query.words = "no such";
    CHECK(PastStore(at.book).lots(query).all == 0);
}

TEST_CASE("Lots are found by a part of their number or their mill, those in use first, then the newest") {
    PastPlant at;
    const auto first = take_in(at.book, at.plant, "W24");
    const auto longer = take_in(at.book, at.plant, "W24-7");
    const auto rejected = at.past("W24-8");
    const LotStore lots(at.book);
    using Lots = std::vector<LotId>;
    CHECK(lots.with("w24", 9) == Lots{longer, first, rejected});
    CHECK(lots.with("w24", 2) == Lots{longer, first});
    CHECK(lots.with("4-7", 9) == Lots{longer});
    CHECK(lots.with("upper m", 9) == Lots{longer, first, rejected});
    CHECK(lots.with("%", 9).empty());
}

TEST_CASE("Lots are live while they are in stock or to be judged, and so long after as is asked for") {
    PastPlant at;
    const auto waiting = take_in(at.book, at.plant, "W1");
    const auto gone = at.past("W2");
    const LotStore lots(at.book);
    CHECK(lots.is_live(waiting, noon + Days{100}));
    CHECK(lots.is_live(gone, noon));
    CHECK(lots.is_live(gone, noon + Days{1})); // rejected, but still lying somewhere
    at.book.execute("INSERT INTO movement (id, lot_id, kind, from_place_id, mass_g, at, who, note) "
                    "VALUES (99, 2, 'waste', 1, 25000000, '2026-11-25T12:00:00Z', 'x', '')");
    CHECK_FALSE(lots.is_live(gone, noon + Days{1}));
    CHECK(lots.live(noon + Days{1}).size() == 1);
    CHECK(lots.live(noon).size() == 2);
}

} // namespace mellowbin
