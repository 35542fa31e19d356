#include "app/acts/batches.h"
#include "app/acts/give_lot.h"
#include "app/acts/intake.h"
#include "app/acts/lots.h"
#include "app/acts/silos.h"
#include "app/acts/stock.h"
#include "app/acts/trace.h"
#include "app/models/card.h"
#include "app/models/trace_page.h"
#include "db/dispatch_store.h"
#include "db/lot_store.h"
#include "db/sqlite_connection.h"
#include "small_plant.h"
#include "support/catch.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

constexpr const char* with_a_silo = R"({
  "plant": "With a silo", "mills": ["Mill"],
  "flours": [{"name": "Strong white", "class": "white"}],
  "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": 20},
             {"name": "Silo 1", "kind": "silo", "air": "moved_silo", "temperature_c": 20}],
  "lines": [{"name": "Line 1", "friction_factor_c": 24, "room_c": 22, "tap_water_c": 15, "water_step_kg": 0.1}],
  "products": [{"name": "Pan bread", "flour": "Strong white", "market": "Canada", "food": "bread",
                "maturity_target": 0.85, "most_lots": 3, "least_share": 0.1, "batch_flour_kg": 100}]})";

/// Two released lots of 1,000 kg in a silo that is one mixture, one in a bay; a run of three batches today.
struct Bakery : SmallPlant {
    RunId run;

    Bakery() : SmallPlant(day_from_iso("2026-11-25"), with_a_silo) {
        for (const char* code : {"A", "B"}) {
            auto lot = draft(code);
            lot.place = "Silo 1";
            released_lot(lot);
        }
        released_lot(draft("C"));
        run = add_run("Pan bread", "2026-11-25", "3");
        done(GiveLot{lot("C"), {}, run});
    }
    /// A batch of 100 kg of one lot.
    BatchId mixes(const char* code) {
        BatchDraft draft;
        draft.flour = {{lot("C"), "0", ""}}; // the one on the card
        if (code == std::string("C"))
            draft.flour.front().mass = "100";
        else
            draft.flour.push_back({lot(code), "100", ""});
        draft.water = "60";
        draft.answer = "for a trace";
        done(ConfirmBatch{run, draft, 0});
        return app().card_of(run).logged.front().id;
    }
    std::string code_of_run() {
        std::string code;
        SqliteConnection(book_path()).query("SELECT code FROM run WHERE id = $1", {run}, [&](const Row& row) {
            code = row.words(0);
        });
        return code;
    }
    DispatchDraft dispatch(const char* kg = "50") {
        DispatchDraft draft;
        draft.run = code_of_run();
        draft.customer = "K-17";
        draft.kg = kg;
        return draft;
    }
    const TraceModel& trace(TraceOf asks, const std::string& of, const std::string& day = "") {
        app().handle(ShowTrace{{asks, of, day}});
        INFO(said() << refusals());
        REQUIRE(app().trace().trace);
        return *app().trace().trace;
    }
    LotState state(const char* code) {
        SqliteConnection book(book_path());
        return LotStore(book).find(lot(code))->state;
    }
};

} // namespace

TEST_CASE("A lot traced forward tells its batch, which it may share with the lot beside it in the silo, and "
          "customers") {
    Bakery at;
    at.mixes("A");
    at.mixes("C");
    at.done(LogDispatch{at.dispatch()});
    const auto& a = at.trace(TraceOf::lot, "a");
    REQUIRE(a.batches.size() == 1);
    CHECK(a.batches[0].shares[0].booked == Grams{100'000});
    CHECK(a.batches[0].shares[0].likely_g == Approx(50000));
    CHECK(a.batches[0].shares[0].certainty == Certainty::may_contain);
    CHECK(a.lots.size() == 2); // B lies with it
    CHECK(a.dispatches.at(0).certainty == Certainty::may_contain);
    CHECK(at.trace(TraceOf::lot, "B").batches.size() == 1); // by the silo, under A's name
    const auto& c = at.trace(TraceOf::lot, "C");
    CHECK(c.batches.at(0).shares[0].certainty == Certainty::contains);
    CHECK(c.lots.size() == 1);
    CHECK_THAT(at.app().trace().summary,
               Contains("1 batch, 1 of them surely and 0 maybe; 1 dispatch to 1 customer"));
    CHECK(c.rows.size() == 3);
    CHECK(c.balances.at(0).in_stock == Grams{900'000});
    CHECK(c.balances.at(0).unexplained == Grams{0});
}

TEST_CASE("How a silo mixes is said by its name, and traces go by it at once") {
    Bakery at;
    at.mixes("A");
    CHECK(at.trace(TraceOf::lot, "B").batches.size() == 1);
    at.done(SetSiloZone{"Silo 1", "none"});
    CHECK(at.app().trace().trace->batches.empty()); // A lay below it
    CHECK(at.trace(TraceOf::lot, "A").batches.at(0).shares[0].certainty == Certainty::contains);
    CHECK(at.app().trace().silos.at(0).zone == "first in, first out");
    CHECK_THAT(at.refused(SetSiloZone{"Bay 1", "all"}), Contains("\"Bay 1\" is no silo"));
    CHECK_THAT(at.refused(SetSiloZone{"Silo 1", "some"}), Contains("Mixing zone: "));
}

TEST_CASE("A product of a day, its run and its customer lead back to lots, mills and delivery notes") {
    Bakery at;
    at.mixes("C");
    at.done(LogDispatch{at.dispatch()});
    for (const auto& [asks, of] :
         std::vector<std::pair<TraceOf, std::string>>{{TraceOf::product, "Pan bread"},
                                                      {TraceOf::run, at.code_of_run()},
                                                      {TraceOf::customer, "k-17"}}) {
        const auto& trace = at.trace(asks, of);
        INFO(trace.title);
        REQUIRE(trace.lots.size() == 1);
        CHECK(trace.lots[0].lot.code == "C");
        CHECK(trace.lots[0].lot.mill == "Mill");
        CHECK(trace.lots[0].share.certainty == Certainty::contains);
        CHECK(trace.dispatches.size() == 1);
    }
    CHECK(at.trace(TraceOf::product, "Pan bread", "2026-11-24").batches.empty());
    CHECK_THAT(at.refused(ShowTrace{{TraceOf::lot, "X", ""}}), Contains("Lot: \"X\" is not in the book"));
    CHECK_THAT(at.refused(ShowTrace{{TraceOf::run, "R-9", ""}}), Contains("Run: "));
    CHECK_THAT(at.refused(ShowTrace{{TraceOf::product, "Pan bread", "soon"}}), Contains("Day: "));
    CHECK(at.app().trace().trace); // what was shown stays
    at.app().handle(ShowTrace{});
    CHECK_FALSE(at.app().trace().trace);
}

TEST_CASE("A batch that is taken back is in no trace any more, and one put back is in the later one's") {
    Bakery at;
    at.mixes("C");
    const auto second = at.mixes("A");
    const auto code = at.code_of_run();
    at.done(LogRework{{code, "1", code, "2", "", "16", "end of dough"}});
    const auto& c = at.trace(TraceOf::lot, "C");
    REQUIRE(c.batches.size() == 2);
    CHECK(c.batches[1].shares[0].by_rework);
    CHECK(c.batches[1].shares[0].certainty == Certainty::may_contain);
    CHECK(c.batches[1].shares[0].likely_g == Approx(10000)); // 16 of 160 kg of dough
    at.undo();
    CHECK(at.app().trace().trace->batches.size() == 1);
    CHECK_THAT(at.refused(LogRework{{code, "2", code, "1", "", "16", ""}}), Contains("not mixed before"));
    CHECK_THAT(at.refused(LogRework{{code, "7", "R-0", "1", "", "0", ""}}),
               Contains("has no batch 7") && Contains("run \"R-0\"") && Contains("Weight: "));
    at.done(CounterBatch{second, "not so"});
    CHECK(at.trace(TraceOf::lot, "A").batches.empty());
}

TEST_CASE("Dispatches are refused with figures where they are more than was baked, and taken back by a "
          "second row") {
    Bakery at;
    CHECK_THAT(at.refused(LogDispatch{at.dispatch()}), Contains("nothing was baked of it"));
    at.mixes("C");
    auto more = at.dispatch("146");
    CHECK_THAT(at.refused(LogDispatch{more}), Contains("100.0 kg of flour give about 145.0 kg of bread"));
    more.reason = "weighed warm";
    at.done(LogDispatch{more});
    at.undo();
    CHECK(at.app()
              .dispatches(day_from_iso("2026-11-25"), day_from_iso("2026-11-25"), "", "")
              .at(0)
              .dispatch.is_countered);
    at.done(LogDispatch{at.dispatch("145")});
    auto by_product = at.dispatch("1");
    by_product.run = "";
    by_product.reason = "weighed warm";
    CHECK_THAT(at.refused(LogDispatch{by_product}), Contains("Run: is empty, and so is the product"));
    by_product.product = "Pan bread";
    at.done(LogDispatch{by_product}); // the only run of the day
    at.add_run("Pan bread", "2026-11-25", "1");
    CHECK_THAT(at.refused(LogDispatch{by_product}), Contains("has more than one"));
    auto early = at.dispatch("1");
    early.day = "2026-11-24";
    CHECK_THAT(at.refused(LogDispatch{early}), Contains("which is before its run, 2026-11-25"));
}

TEST_CASE("A file of dispatches is logged whole, or refused by its lines with nothing written") {
    Bakery at;
    at.mixes("C");
    const auto code = at.code_of_run();
    const auto count = [&] {
        return at.app().dispatches(day_from_iso("2026-11-01"), day_from_iso("2026-11-25"), "", "").size();
    };
    const auto words = at.refused(ReadDispatches{"van.csv", "Customer;Run;kg\nK-1;" + code + ";20\n;" + code +
                                                                ";x\nK-3;R-0;5\nK-4;" + code + ";140\n"});
    CHECK_THAT(words, Contains("Line 3: Customer") && Contains("Line 3: Weight") && Contains("Line 4: Run"));
    CHECK(count() == 0);
    CHECK_THAT(
        at.refused(ReadDispatches{"van.csv", "customer,run,kg\nK-1," + code + ",20\nK-4," + code + ",140\n"}),
        Contains("Line 3: Weight: 140.0 kg after 20.0 kg before"));
    CHECK(count() == 0);
    at.done(ReadDispatches{"van.csv",
                           "customer,run,kg,note\nK-1," + code + ",20,\"a, b\"\nK-4," + code + ",100,\n"});
    CHECK(count() == 2);
    CHECK_THAT(at.said(), Contains("2 dispatches logged from van.csv"));
    CHECK_THAT(at.refused(ReadDispatches{"van.csv", "customer,run,kg,colour\nK-1,R,1,red\n"}),
               Contains("the head \"colour\" is not known"));
    CHECK_THAT(at.refused(ReadDispatches{"van.csv", "customer,run,kg\n"}),
               Contains("has no line below its head"));
}

TEST_CASE("One press puts every lot that is concerned on hold, in one line of the journal, and names what it "
          "cannot reach") {
    Bakery at;
    at.mixes("A");
    at.done(LogDispatch{at.dispatch()});
    CHECK_THAT(at.refused(HoldConcerned{"metal"}), Contains("Trace: is not shown"));
    at.trace(TraceOf::lot, "A");
    CHECK_THAT(at.refused(HoldConcerned{" "}), Contains("Reason"));
    at.done(HoldConcerned{"metal"});
    CHECK(at.state("A") == LotState::held);
    CHECK(at.state("B") == LotState::held); // some of A lies under its name
    CHECK(at.state("C") == LotState::released);
    CHECK_THAT(at.said(), Contains("2 lots put on hold") &&
                              Contains("No hold reaches batches " + at.code_of_run() + "/1; dispatches ") &&
                              Contains("to K-17"));
    CHECK(at.app().trace().trace->to_hold().empty()); // the page follows
    CHECK_THAT(at.refused(HoldConcerned{"again"}), Contains("none has stock that can be put on hold"));
    at.trace(TraceOf::lot, "A");
    at.done(ReleaseLot{at.lot("A"), "sieved"});
    CHECK(at.state("A") == LotState::released);
}

TEST_CASE("A hold of all that is concerned is undone lot by lot") {
    Bakery at;
    at.trace(TraceOf::lot, "C");
    at.done(HoldConcerned{"metal"});
    CHECK(at.state("C") == LotState::held);
    at.undo();
    CHECK(at.state("C") == LotState::released);
}

TEST_CASE("A drill keeps its trace as it was, with the time it took, whatever is done later") {
    Bakery at;
    at.mixes("C");
    at.done(LogDispatch{at.dispatch()});
    at.done(BeginDrill{{TraceOf::lot, "C", ""}});
    const auto id = at.app().trace().running;
    REQUIRE(id.is_known());
    CHECK_FALSE(at.app().drill(id)->end);
    at.done(EndDrill{id, "by phone"});
    CHECK_FALSE(at.app().trace().running.is_known());
    CHECK_THAT(at.said(), Contains("Drill ended after ") && Contains("1 dispatch to 1 customer"));
    at.done(WasteLot{at.lot("C"), at.app().lots().places.front().first, "900", "done with"});
    const auto drill = at.app().drill(id);
    REQUIRE(drill->end);
    CHECK(drill->end->note == "by phone");
    REQUIRE(drill->end->report.size() == 3);
    const auto list = [&](const char* name) {
        return *std::find_if(drill->end->report.begin(), drill->end->report.end(),
                             [&](const Listing& one) { return one.name == name; });
    };
    CHECK(list("trace").rows.size() == 3);
    CHECK_THAT(list("trace").notes.at(6), Contains("178/2002"));
    CHECK(std::get<std::string>(list("balance").rows.at(0).at(4)) == "900.000");
    CHECK(list("persons").rows.size() >= 1);
    CHECK_THAT(at.refused(EndDrill{id, ""}), Contains("has ended"));
    CHECK_THAT(at.refused(BeginDrill{{TraceOf::lot, "X", ""}}), Contains("not in the book"));
    CHECK_THAT(at.refused(EndDrill{DrillId{9}, ""}), Contains("Drill: is not in the book"));
}
