// A lot that is not on the card went in: it is judged as any lot is, taken from stock and learned from.
#include "app/acts/batches.h"
#include "app/acts/intake.h"
#include "app/models/card.h"
#include "dough_plant.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

/// A run of plain loaf planned on one lot, and another lot in the store.
struct TwoLots {
    SmallPlant plant{day_from_iso("2026-11-25"), tests::dosing_plant};
    RunId run;
    explicit TwoLots(bool is_released = true) {
        plant.released_lot(plant.draft("W24-118"));
        run = plant.add_run("Plain loaf", "2026-11-25", "2");
        plant.plan_week();
        if (is_released)
            plant.released_lot(plant.draft("W24-200"));
        else
            plant.app().handle(TakeIn{{plant.draft("W24-200")}});
    }
    void confirm(std::vector<FlourGiven> flour, const std::string& answer = {}) {
        BatchDraft draft;
        draft.flour = std::move(flour);
        draft.answer = answer;
        plant.app().handle(ConfirmBatch{run, draft});
    }
    LotId planned() { return plant.lot("W24-118"); }
};

} // namespace

TEST_CASE("A released lot that is not on the card goes in by its number, and leaves the stock") {
    TwoLots at;
    at.confirm({{at.planned(), "60"}, {{}, "40", "W24-200"}});
    INFO(at.plant.refusals());
    REQUIRE(at.plant.was_done());
    CHECK(at.plant.row("W24-118").stock_kg == 940);
    CHECK(at.plant.row("W24-200").stock_kg == 960);
    const auto logged = at.plant.app().card_of(at.run).logged;
    REQUIRE(logged.size() == 1);
    CHECK_THAT(logged.front().words, Contains("W24-118") && Contains("W24-200"));
}

TEST_CASE("The beginning of a number is enough where it is one lot's alone; else those that match are told") {
    TwoLots at;
    at.confirm({{at.planned(), "60"}, {{}, "40", "W24-2"}});
    CHECK(at.plant.was_done());
    at.plant.released_lot(at.plant.draft("W24-201"));
    at.confirm({{at.planned(), "60"}, {{}, "40", "W24-20"}});
    CHECK(at.plant.was_refused());
    CHECK_THAT(at.plant.refusals(), Contains("Another lot") && Contains("W24-200, W24-201"));
    at.confirm({{at.planned(), "60"}, {{}, "40", "X"}});
    CHECK_THAT(at.plant.refusals(), Contains("\"X\" was read, which is no lot in stock"));
    at.confirm({{at.planned(), "60"}, {{}, "", "W24-201"}});
    CHECK_THAT(at.plant.refusals(), Contains("Its mass"));
    at.confirm({{at.planned(), "60"}, {{}, "20", "W24-201"}, {{}, "20", "W24-201"}});
    CHECK_THAT(at.plant.refusals(), Contains("lot W24-201 was named twice"));
    at.confirm({{at.planned(), "60"}, {{}, "40", "W24-118"}});
    CHECK_THAT(at.plant.refusals(), Contains("lot W24-118 is on this card"));
}

TEST_CASE("Its label's scan names a lot as it does at the bag's check") {
    TwoLots at;
    at.confirm({{at.planned(), "60"}, {{}, "40", "]C110W24-200"}});
    INFO(at.plant.refusals());
    CHECK(at.plant.was_done());
    CHECK(at.plant.row("W24-200").stock_kg == 960);
}

TEST_CASE("Whoever forgets to take off the lot that was replaced is asked, and may say that it was so") {
    TwoLots at;
    at.confirm({{{}, "40", "W24-200"}});
    CHECK(at.plant.was_refused());
    CHECK_THAT(at.plant.refusals(), Contains("Reason") &&
                                        Contains("140.0 kg of flour, the card says 100.0 kg") &&
                                        Contains("enter 0 at the lot that it replaced"));
    at.confirm({{at.planned(), "0"}, {{}, "100", "W24-200"}});
    INFO(at.plant.refusals());
    CHECK(at.plant.was_done());
    CHECK(at.plant.row("W24-118").stock_kg == 1000);
    at.confirm({{{}, "40", "W24-200"}}, "the bowl is the large one");
    CHECK(at.plant.was_done());
}

TEST_CASE("A lot that nobody released does not go in, whatever is said") {
    TwoLots at(false);
    at.confirm({{at.planned(), "60"}, {{}, "40", "W24-200"}}, "it was at hand");
    CHECK(at.plant.was_refused());
    CHECK_THAT(at.plant.refusals(),
               Contains("Do not mix") && Contains("W24-200") && Contains("not released"));
    CHECK(at.plant.row("W24-118").stock_kg == 1000);
}

TEST_CASE("What asks for an answer of any lot asks for it of that one, too") {
    TwoLots at(false);
    auto draft = at.plant.draft("W24-300");
    draft.milled_on = "2024-11-05"; // two years ago: past its best by the estimate
    draft.delivered_on = "2026-11-08";
    at.plant.released_lot(draft);
    at.confirm({{at.planned(), "60"}, {{}, "40", "W24-300"}});
    CHECK(at.plant.was_refused());
    CHECK_THAT(at.plant.refusals(), Contains("Reason") && Contains("W24-300"));
    at.confirm({{at.planned(), "60"}, {{}, "40", "W24-300"}}, "the only one at the bowl");
    INFO(at.plant.refusals());
    CHECK(at.plant.was_done());
}

TEST_CASE("More of it than is in stock is refused, and nothing leaves the stock") {
    TwoLots at;
    at.confirm({{at.planned(), "60"}, {{}, "1001", "W24-200"}});
    CHECK(at.plant.was_refused());
    CHECK(at.plant.row("W24-118").stock_kg == 1000);
    CHECK(at.plant.row("W24-200").stock_kg == 1000);
}
