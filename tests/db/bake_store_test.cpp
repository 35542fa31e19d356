#include "book_support.h"
#include "db/bake_store.h"

namespace mellowbin {
namespace {

struct Baked {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    LotId lot = take_in(book, plant, "W1");
    BakeStore bakes{book};

    Bake loaf() const {
        return {{},
                lot,
                Substance::ascorbic_acid,
                OxidantPpm{40},
                LoafMeasure::volume,
                2150,
                date::sys_days{2026_y / 11 / 25},
                "open grain",
                "Ada Example",
                noon,
                false,
                MaturityRange{Maturity{0.4}, Maturity{0.55}, Maturity{0.7}}};
    }
    KeepingRecord record() const {
        return {{},
                plant.product,
                {},
                KeepingKind::mould,
                date::sys_days{2026_y / 11 / 20},
                5,
                true,
                0,
                5.4,
                "on the crust",
                "Ada Example",
                noon,
                false};
    }
    template <class Act> auto done(Act act) {
        Change change(book, line("Something was done"));
        auto result = act(change);
        if (result)
            change.commit();
        return result;
    }
};

} // namespace

TEST_CASE("A loaf comes back as it was logged, and is withdrawn once by a second row") {
    Baked at;
    auto loaf = at.loaf();
    const auto id = at.done([&](Change& change) { return at.bakes.log(change, loaf); });
    REQUIRE(id);
    loaf.id = *id;
    CHECK(at.bakes.bakes() == std::vector{loaf});
    const auto withdraw = [&](Change& change) { return at.bakes.withdraw(change, *id, "another lot"); };
    REQUIRE(at.done(withdraw));
    loaf.is_withdrawn = true;
    CHECK(at.bakes.bakes() == std::vector{loaf});
    CHECK(count_of(at.book, "bake") == 2);
    CHECK_FALSE(at.done(withdraw));
    CHECK_FALSE(at.done([&](Change& change) { return at.bakes.withdraw(change, BakeId{9}, "x"); }));
}

TEST_CASE(
    "A loaf of flour of unknown maturity is kept without one, and what was kept of one is never edited") {
    Baked at;
    auto loaf = at.loaf();
    loaf.maturity.reset();
    REQUIRE(at.done([&](Change& change) { return at.bakes.log(change, loaf); }));
    CHECK_FALSE(at.bakes.bakes().front().maturity);
    CHECK(count_of(at.book, "bake_maturity") == 0);
    REQUIRE(at.done([&](Change& change) { return at.bakes.log(change, at.loaf()); }));
    CHECK(at.bakes.bakes().back().maturity->likely == Maturity{0.55});
    CHECK(fault_of([&] { at.book.execute("UPDATE bake_maturity SET likely = 0.6"); }).fault() ==
          BookFault::rule_broken);
    CHECK(fault_of([&] { at.book.execute("DELETE FROM bake_maturity"); }).fault() == BookFault::rule_broken);
}

TEST_CASE("A record of keeping comes back as it was logged, and is withdrawn once by a second row") {
    Baked at;
    auto record = at.record();
    const auto id = at.done([&](Change& change) { return at.bakes.log(change, record); });
    REQUIRE(id);
    record.id = *id;
    CHECK(at.bakes.records() == std::vector{record});
    const auto withdraw = [&](Change& change) { return at.bakes.withdraw(change, *id, "wrong day"); };
    REQUIRE(at.done(withdraw));
    record.is_withdrawn = true;
    CHECK(at.bakes.records() == std::vector{record});
    CHECK_FALSE(at.done(withdraw));
}

TEST_CASE("The book holds no loaf without size and no firmness that is also mould") {
    Baked at;
    auto flat = at.loaf();
    flat.size = 0;
    CHECK(fault_of([&] {
              (void)at.done([&](Change& change) { return at.bakes.log(change, flat); });
          }).fault() == BookFault::rule_broken);
    auto both = at.record();
    both.kind = KeepingKind::firmness;
    both.firmness_g = 300;
    CHECK(fault_of([&] {
              (void)at.done([&](Change& change) { return at.bakes.log(change, both); });
          }).fault() == BookFault::rule_broken);
}

TEST_CASE("Loaves and records can be neither edited nor deleted") {
    Baked at;
    REQUIRE(at.done([&](Change& change) { return at.bakes.log(change, at.loaf()); }));
    REQUIRE(at.done([&](Change& change) { return at.bakes.log(change, at.record()); }));
    for (const char* sql : {"UPDATE bake SET size = 1", "DELETE FROM bake",
                            "UPDATE keeping_record SET days = 1", "DELETE FROM keeping_record"}) {
        INFO(sql);
        CHECK(fault_of([&] { at.book.execute(sql); }).fault() == BookFault::rule_broken);
    }
}

} // namespace mellowbin
