#include "book_support.h"
#include "db/batch_store.h"
#include "db/movement_store.h"

#include <chrono>

namespace mellowbin {
namespace {

struct Mixed {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    LotId lot = take_in_released(book, plant, "W1");
    RunId run = add_run(book, good_run(plant, "R1"));
    BatchStore batches{book};

    Batch batch(int number = 1) const {
        Batch b;
        b.run = run;
        b.number = number;
        b.at = noon;
        b.who = "Ada Example";
        b.checked_by = "Grace Example";
        b.flour = {{lot, Grams{100'000}}};
        b.water = Kilograms{58.5};
        b.ice = Kilograms{4};
        b.water_temperature = Celsius{3};
        b.oxidant = Substance::ascorbic_acid;
        b.dose = OxidantPpm{12.5};
        b.answer = "the label of one bag was torn";
        b.farinograph = Absorption14{61.5};
        b.absorption = Absorption14{63.25};
        b.flour_temperature = Celsius{19};
        b.room_temperature = Celsius{22};
        return b;
    }
    template <class Act> auto done(Act act) {
        Change change(book, line("Something was done"));
        auto result = act(change);
        if (result)
            change.commit();
        return result;
    }
    Result<BatchId> log(const Batch& b, std::vector<MovementId> uses = {}) {
        return done([&](Change& change) { return batches.log(change, b, uses); });
    }
};

} // namespace

TEST_CASE("A batch comes back as it was logged") {
    Mixed at;
    auto batch = at.batch();
    const auto id = at.log(batch);
    REQUIRE(id);
    batch.id = *id;
    CHECK(at.batches.all() == std::vector{batch});
    CHECK(at.batches.of(at.run) == std::vector{batch});
    CHECK(at.batches.find(*id) == batch);
    CHECK(at.batches.of(RunId{99}).empty());
}

TEST_CASE("A batch that lacks what nobody measured comes back without it") {
    Mixed at;
    Batch batch;
    batch.run = at.run;
    batch.at = noon;
    batch.who = "Ada Example";
    batch.flour = {{at.lot, Grams{1}}};
    const auto id = at.log(batch);
    batch.id = *id;
    CHECK(at.batches.find(*id) == batch);
}

TEST_CASE("What came of a batch is what was said last, and the earlier word stays in the book") {
    Mixed at;
    const auto id = *at.log(at.batch());
    const BatchResult first{Celsius{26}, {}, Feel::stiff, 8.5, {}, ""};
    const BatchResult second{Celsius{27.5}, 5.4, Feel::right, 9, 75, "loose gluten"};
    REQUIRE(at.done([&](Change& change) { return at.batches.set_result(change, id, first); }));
    CHECK(at.batches.find(id)->result == first);
    REQUIRE(at.done([&](Change& change) { return at.batches.set_result(change, id, second); }));
    CHECK(at.batches.find(id)->result == second);
    CHECK(count_of(at.book, "batch_result") == 2);
}

TEST_CASE("A batch is countered once, by a second row; nothing more is said of it then") {
    Mixed at;
    const auto id = *at.log(at.batch());
    const auto counter = [&](Change& change) { return at.batches.counter(change, id, "not mixed"); };
    REQUIRE(at.done(counter));
    REQUIRE(at.batches.all().size() == 1);
    CHECK(at.batches.all()[0].is_countered);
    CHECK(count_of(at.book, "batch") == 2);
    CHECK_FALSE(at.done(counter));
    CHECK_FALSE(at.done([&](Change& change) { return at.batches.set_result(change, id, {}); }));
    CHECK(at.log(at.batch())); // the same number again, now that the first does not stand
}

TEST_CASE("A run has one batch of a number, and no batch without flour") {
    Mixed at;
    REQUIRE(at.log(at.batch(1)));
    const auto again = at.log(at.batch(1));
    REQUIRE_FALSE(again);
    CHECK(again.refusals().front().field == "Batch");
    auto empty = at.batch(2);
    empty.flour.clear();
    CHECK_FALSE(at.log(empty));
    CHECK(at.batches.all().size() == 1);
}

TEST_CASE("A batch knows the movements of its flour") {
    Mixed at;
    Movement use;
    use.lot = at.lot;
    use.kind = MovementKind::use;
    use.from = at.plant.bay;
    use.mass = Grams{100'000};
    use.at = noon;
    use.who = "Ada Example";
    use.run = at.run;
    const auto moved = at.done([&](Change& change) { return MovementStore(at.book).append(change, use); });
    REQUIRE(moved);
    const auto id = *at.log(at.batch(), {*moved});
    CHECK(at.batches.uses_of(id) == std::vector{*moved});
}

TEST_CASE("Batches and what came of them can be neither edited nor deleted") {
    Mixed at;
    const auto id = *at.log(at.batch());
    REQUIRE(at.done([&](Change& change) {
        return at.batches.set_result(change, id, {Celsius{26}, {}, {}, {}, {}, ""});
    }));
    for (const char* sql :
         {"UPDATE batch SET water_kg = 1", "DELETE FROM batch", "UPDATE batch_flour SET mass_g = 1",
          "DELETE FROM batch_flour", "UPDATE batch_result SET dough_c = 1", "DELETE FROM batch_result"}) {
        INFO(sql);
        CHECK(fault_of([&] { at.book.execute(sql); }).fault() == BookFault::rule_broken);
    }
}

TEST_CASE("A stock solution comes back as it was made, ends once, and can be kept again") {
    Mixed at;
    StockSolution made{
        {}, Substance::ascorbic_acid, 7.5, noon, noon + std::chrono::hours{24}, "Ada Example", false};
    const auto id = at.done([&](Change& change) { return at.batches.make(change, made); });
    REQUIRE(id);
    made.id = *id;
    CHECK(at.batches.solutions() == std::vector{made});
    const auto end = [&](Change& change) { return at.batches.end(change, *id); };
    const auto keep = [&](Change& change) { return at.batches.keep(change, *id); };
    CHECK_FALSE(at.done(keep));
    REQUIRE(at.done(end));
    CHECK(at.batches.solutions()[0].has_ended);
    CHECK_FALSE(at.done(end));
    REQUIRE(at.done(keep));
    CHECK_FALSE(at.batches.solutions()[0].has_ended);
    CHECK(fault_of([&] { at.book.execute("DELETE FROM stock_solution"); }).fault() == BookFault::rule_broken);
}

} // namespace mellowbin
