#include "book_support.h"
#include "db/batch_store.h"
#include "db/dispatch_store.h"
#include "db/drill_store.h"
#include "db/movement_store.h"
#include "db/rework_store.h"
#include "db/silo_store.h"
#include "db/trace_store.h"

namespace mellowbin {
namespace {

using Catch::Matchers::Contains;

/// Two runs of one product; two batches of 100 kg flour and 60 kg of water of the first.
struct Baked2 {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    LotId lot = take_in_released(book, plant, "W1");
    RunId run = add_run(book, good_run(plant, "R-1")), other = add_run(book, good_run(plant, "R-2"));
    BatchId first = mixed(1), second = mixed(2);
    DispatchStore dispatches{book};
    ReworkStore rework{book};

    template <class Act> auto done(Act act) {
        Change change(book, line("Something was done"));
        auto result = act(change);
        if (result)
            change.commit();
        return result;
    }
    BatchId mixed(int number) {
        return done([&](Change& change) {
                   Movement use;
                   use.lot = lot;
                   use.kind = MovementKind::use;
                   use.from = plant.bay;
                   use.mass = Grams{100'000};
                   use.at = noon;
                   use.run = run;
                   const auto movement = MovementStore(book).append(change, use);
                   Batch batch;
                   batch.run = run;
                   batch.number = number;
                   batch.flour = {{lot, Grams{100'000}}};
                   batch.water = Kilograms{60};
                   const std::vector<MovementId> uses{*movement};
                   return BatchStore(book).log(change, batch, uses);
               })
            .value();
    }
    Result<DispatchId> sent(double kg, std::string reason = "") {
        Dispatch d;
        d.product = plant.product;
        d.run = run;
        d.customer = "K-17";
        d.mass = to_grams(Kilograms{kg});
        d.day = date::sys_days{2026_y / 11 / 25};
        d.reason = std::move(reason);
        return done([&](Change& change) { return dispatches.log(change, d); });
    }
    Result<ReworkId> put_back(BatchId from, BatchId into, double kg) {
        Rework r;
        r.from = from;
        r.into = into;
        r.mass = to_grams(Kilograms{kg});
        return done([&](Change& change) { return rework.log(change, r); });
    }
    Result<Done> countered(DispatchId id) {
        return done([&](Change& change) { return dispatches.counter(change, id, "stayed here"); });
    }
};

std::string joined(const Refusals& refusals) {
    std::string words;
    for (const auto& refusal : refusals)
        words += in_words(refusal) + "\n";
    return words;
}

} // namespace

TEST_CASE("What a run baked is the flour, water and ingredients of its batches that stand") {
    Baked2 at;
    const double beside = [&] {
        double percent = 0;
        const auto products = PlantStore(at.book).products();
        for (const auto& one : products.at(0).ingredients)
            percent += one.percent_of_flour;
        return percent;
    }();
    auto baked = at.dispatches.baked(at.run);
    CHECK(baked.batches == 2);
    CHECK(baked.flour == Grams{200'000});
    CHECK(baked.dough == to_grams(Kilograms{320 + 2 * beside}));
    CHECK(at.dispatches.baked(at.other).batches == 0);
    REQUIRE(
        at.done([&](Change& change) { return BatchStore(at.book).counter(change, at.second, "not so"); }));
    baked = at.dispatches.baked(at.run);
    CHECK(baked.batches == 1);
    CHECK(baked.flour == Grams{100'000});
}

TEST_CASE("A dispatch comes back as it was logged, and one taken back leaves its bread to be sent again") {
    Baked2 at;
    const auto id = at.sent(200);
    REQUIRE(id);
    const auto found = at.dispatches.find(*id);
    REQUIRE(found);
    CHECK(found->customer == "K-17");
    CHECK(found->mass == Grams{200'000});
    CHECK_FALSE(found->pieces);
    CHECK(at.dispatches.baked(at.run).dispatched == Grams{200'000});
    REQUIRE(at.countered(*id));
    CHECK(at.dispatches.find(*id)->is_countered);
    CHECK(at.dispatches.of_run(at.run).size() == 1);
    CHECK(at.dispatches.baked(at.run).dispatched == Grams{});
    CHECK_THAT(joined(at.countered(*id).refusals()), Contains("was taken back before"));
    CHECK_THAT(joined(at.countered(DispatchId{9}).refusals()), Contains("is not in the book"));
}

TEST_CASE("More than was baked is refused with the figures and nothing written, or taken with a reason") {
    Baked2 at;
    REQUIRE(at.sent(280)); // of 200 kg of flour come about 290 kg of bread
    CHECK_THAT(joined(at.sent(11).refusals()), Contains("11.0 kg after 280.0 kg before are 291.0 kg"));
    CHECK(at.dispatches.of_run(at.run).size() == 1);
    CHECK(at.sent(11, "weighed warm"));
    CHECK_FALSE(at.sent(500, "weighed warm"));
    at.run = at.other;
    CHECK_THAT(joined(at.sent(1, "all the same").refusals()), Contains("nothing was baked of it"));
}

TEST_CASE("Dispatches are asked for by days, product and customer") {
    Baked2 at;
    REQUIRE(at.sent(10));
    const Day day = date::sys_days{2026_y / 11 / 25};
    CHECK(at.dispatches.of({day, day, {}, ""}).size() == 1);
    CHECK(at.dispatches.of({day, day, at.plant.product, "k-17"}).size() == 1);
    CHECK(at.dispatches.of({day, day, {}, "K-1"}).empty());
    CHECK(at.dispatches.of({day + Days{1}, day + Days{9}, {}, ""}).empty());
}

TEST_CASE("Rework goes from an earlier batch to a later one alone, and never more than there was") {
    Baked2 at;
    CHECK_THAT(joined(at.put_back(at.second, at.first, 5).refusals()), Contains("not mixed before"));
    CHECK_THAT(joined(at.put_back(at.first, at.first, 5).refusals()), Contains("not mixed before"));
    CHECK_THAT(joined(at.put_back(BatchId{77}, at.second, 5).refusals()), Contains("is not in the book"));
    const auto id = at.put_back(at.first, at.second, 150);
    REQUIRE(id);
    CHECK_THAT(joined(at.put_back(at.first, at.second, 150).refusals()),
               Contains("150.0 kg of it was put back"));
    CHECK(TraceStore(at.book).rework_into(at.second).size() == 1);
    CHECK(TraceStore(at.book).rework_of(at.first).size() == 1);
    CHECK(TraceStore(at.book).rework_of_batches_with(at.lot).size() == 1);
    const auto counter = [&] {
        return at.done([&](Change& change) { return at.rework.counter(change, *id, "other batch"); });
    };
    REQUIRE(counter());
    CHECK_FALSE(counter());
    CHECK(at.rework.find(*id)->is_countered);
    CHECK(TraceStore(at.book).rework_into(at.second).empty());
    CHECK(at.put_back(at.first, at.second, 150));
    // The engine itself keeps it from going round.
    CHECK(fault_of([&] {
              at.book.execute(
                  "INSERT INTO rework VALUES (9, 2, 1, 'dough', 1, '', '2026-11-25T12:00:00Z', '', NULL)");
          }).fault() == BookFault::rule_broken);
}

TEST_CASE("Of a silo nothing was said of, all is one mixture; the newest word holds, and a bay takes none") {
    Baked2 at;
    const auto say = [&](PlaceId place, MixingZone zone) {
        return at.done([&](Change& change) { return SiloStore(at.book).set(change, place, zone); });
    };
    CHECK(SiloStore(at.book).zones() == std::map<PlaceId, MixingZone>{{at.plant.silo, {}}});
    REQUIRE(say(at.plant.silo, {Grams{0}}));
    REQUIRE(say(at.plant.silo, {Grams{500'000}}));
    CHECK(SiloStore(at.book).zones().at(at.plant.silo).mass == Grams{500'000});
    CHECK_FALSE(say(at.plant.bay, {Grams{0}}));
}

TEST_CASE("A drill is kept with its time and its report as it was, and ends once") {
    Baked2 at;
    DrillStore drills(at.book);
    DrillId id;
    REQUIRE(at.done([&](Change& change) -> Result<Done> {
        id = drills.begin(change,
                          {{}, TraceOf::product, "Pan bread", date::sys_days{2026_y / 11 / 25}, {}, "", {}});
        return Done{};
    }));
    CHECK_FALSE(drills.find(id)->end);
    DrillEnd end;
    end.seconds = 95;
    end.milliseconds = 4;
    end.note = "by phone";
    end.report = {{"lots",
                   "Lots",
                   {"two\tparts"},
                   {{"Lot", "", Listing::Holds::text, 0}, {"Weight", "kg", Listing::Holds::number, 1}},
                   {{std::string("W1\tx"), 12.34}, {std::monostate{}, std::monostate{}}}}};
    const auto ended = [&] { return at.done([&](Change& change) { return drills.end(change, id, end); }); };
    REQUIRE(ended());
    CHECK_THAT(joined(ended().refusals()), Contains("has ended: it took 95 s"));
    const auto drill = drills.find(id);
    REQUIRE(drill->end);
    CHECK(drill->asks == TraceOf::product);
    CHECK(drill->of == "Pan bread");
    CHECK(drill->end->seconds == 95);
    REQUIRE(drill->end->report.size() == 1);
    const auto& list = drill->end->report[0];
    CHECK(list.notes == std::vector<std::string>{"two parts"});
    CHECK(head_of(list.columns.at(1)) == "Weight kg");
    REQUIRE(list.rows.size() == 2);
    CHECK(std::get<std::string>(list.rows[0][0]) == "W1 x");
    CHECK(std::get<std::string>(list.rows[0][1]) == "12.3");
    CHECK(drills.newest(5).size() == 1);
}

TEST_CASE("Dispatches, rework, zones and drills are never edited or deleted") {
    Baked2 at;
    REQUIRE(at.sent(10));
    REQUIRE(at.put_back(at.first, at.second, 1));
    REQUIRE(at.done([&](Change& change) { return SiloStore(at.book).set(change, at.plant.silo, {}); }));
    for (const char* sql :
         {"UPDATE dispatch SET customer = 'x'", "DELETE FROM dispatch", "UPDATE rework SET note = 'x'",
          "DELETE FROM rework", "UPDATE silo_zone SET zone_g = 1", "DELETE FROM silo_zone"})
        CHECK(fault_of([&] { at.book.execute(sql); }).fault() == BookFault::rule_broken);
}

} // namespace mellowbin
