// A run whose dough ferments longer for strength its flour lacks: what it changes, and that it stays with the
// run.

#include "app/acts/assignments.h"
#include "app/acts/batches.h"
#include "app/acts/doughs.h"
#include "app/acts/fermentation.h"
#include "app/acts/give_lot.h"
#include "app/acts/levers.h"
#include "app/acts/looking.h"
#include "app/acts/runs.h"
#include "app/book/setup.h"
#include "app/models/card.h"
#include "app/models/levers.h"
#include "app/models/mixer.h"
#include "app/models/plan.h"
#include "app/models/settings.h"
#include "dough_plant.h"

#include <algorithm>
#include <stdexcept>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

const Day today = day_from_iso("2026-11-25");

/// A run of two batches of young flour today, 60 min of bulk fermentation; without an oxidant, unless it is
/// pan bread. An hour more stands for 40 % of maturity, and the product may ferment 300 min.
struct Fermented {
    SmallPlant plant{today, tests::dosing_plant};
    std::string product;
    LotId young;
    RunId run;

    explicit Fermented(const char* of = "Plain loaf") : product(of) {
        calibrate("300", "40");
        young = plant.released_lot(tests::young_draft(plant, "YOUNG"));
        run = plant.add_run(product, "2026-11-25", "2");
        done(GiveLot{young, {}, run});
        done(UnlockAssignment{run, young}); // so that another lot may take its place
    }
    void calibrate(const char* longest, const char* an_hour) {
        done(ChangeDough{.product = product, .most_fermentation = longest, .maturity_per_hour = an_hour});
    }
    void done(const Intent& intent) { plant.done(intent); }
    std::string refused(const char* minutes) {
        plant.app().handle(FermentLonger{run, minutes});
        INFO(plant.said());
        REQUIRE(plant.was_refused());
        return plant.refusals();
    }
    void undo() { plant.undo(); }
    LeversModel levers() {
        plant.app().handle(ShowLevers{run});
        REQUIRE(plant.app().mixer().levers);
        return *plant.app().mixer().levers;
    }
    LeverRow remedy() {
        for (const auto& row : levers().levers)
            if (row.name == "Longer fermentation")
                return row;
        throw std::runtime_error("no longer fermentation");
    }
    CardModel card() { return plant.app().card_of(run); }
    PlannedRun planned() { return plant.planned(run); }
};

} // namespace

TEST_CASE("The minutes a remedy says make the run strong enough, and one minute less would not") {
    Fermented at;
    const auto remedy = at.remedy();
    REQUIRE(remedy.deed);
    const int minutes = remedy.deed->minutes;
    REQUIRE(minutes >= 1);
    CHECK_THAT(remedy.figures, Contains(fmt::format("{} min more than the 60 min of the product", minutes)));
    REQUIRE(at.planned().maturity < at.planned().maturity_target);
    at.done(FermentLonger{at.run, std::to_string(minutes)});
    const auto now = at.planned();
    CHECK(now.maturity_target == Approx(0.85 - 0.4 * minutes / 60));
    CHECK(now.maturity >= now.maturity_target - 1e-6);
    CHECK(now.maturity < 0.85 - 0.4 * (minutes - 1) / 60 + 1e-6);
    CHECK(now.longer_fermentation_minutes == minutes);
    CHECK(at.remedy().standing == LeverRow::Standing::not_needed);
    CHECK_FALSE(at.levers().is_short);
}

TEST_CASE("The card says how long the dough ferments and why, and the plan says it too") {
    Fermented at;
    CHECK(at.card().fermentation == "60 min");
    CHECK(at.card().fermentation_why.empty());
    CHECK(at.planned().fermentation_words.empty());
    at.done(FermentLonger{at.run, "25"});
    CHECK(at.card().fermentation == "85 min");
    CHECK(at.card().fermentation_why == "60 and 25 longer for strength");
    CHECK(at.card().fermentation_minutes == 85);
    CHECK(at.card().longer_fermentation_minutes == 25);
    CHECK(at.planned().fermentation_words == "85 min: 60 and 25 longer for strength");
    at.done(FermentLonger{at.run, "90"});
    CHECK(at.planned().fermentation_words == "2 h 30 min: 60 min and 90 min longer for strength");
}

TEST_CASE("A dough that ferments longer is dosed with so much less oxidant, on card and plan alike") {
    Fermented at("Pan bread");
    const double before = at.planned().oxidant_ppm;
    REQUIRE(before > 0);
    at.done(FermentLonger{at.run, "25"});
    CHECK(at.planned().oxidant_ppm < before - 0.3);
    REQUIRE(at.card().oxidant_ppm);
    CHECK(*at.card().oxidant_ppm == Approx(at.planned().oxidant_ppm));
    CHECK(*at.levers().oxidant_ppm == Approx(at.planned().oxidant_ppm));
}

TEST_CASE("What a run ferments longer is written as a sentence, and undone by an act that says so") {
    Fermented at;
    at.done(FermentLonger{at.run, "25"});
    CHECK_THAT(at.plant.said(), Contains("ferments 25 min longer, 85 min in all"));
    CHECK(at.plant.app().settings().journal.front().words == at.plant.said());
    CHECK(at.plant.app().settings().journal.front().act == "Run fermented longer");
    at.done(FermentLonger{at.run, "40"});
    at.undo();
    CHECK(at.card().longer_fermentation_minutes == 25);
    at.done(FermentLonger{at.run, ""});
    CHECK_THAT(at.plant.said(), Contains("ferments 60 min, no longer than its product"));
    CHECK(at.card().fermentation == "60 min");
    CHECK(at.planned().maturity_target == Approx(0.85));
    at.undo();
    CHECK(at.card().longer_fermentation_minutes == 25);
    const auto lines = at.plant.app().settings().journal.size();
    at.done(FermentLonger{at.run, "25"});
    CHECK_THAT(at.plant.said(), Contains("as before"));
    CHECK(at.plant.app().settings().journal.size() == lines);
}

TEST_CASE("What may not ferment longer is refused with every reason, and stays as it is") {
    Fermented at;
    for (const char* minutes : {"25,5", "soon", "-5"})
        CHECK_THAT(at.refused(minutes), Contains("Longer fermentation: "));
    CHECK_THAT(at.refused("25.5"), Contains("25.5 was read; whole minutes are expected"));
    CHECK_THAT(at.refused("241"),
               Contains("241 min was read; Plain loaf ferments 60 min and may ferment at most 300"));
    at.calibrate("60", "none");
    CHECK_THAT(at.refused("25"), Contains("not calibrated") && Contains("may ferment at most 60"));
    at.calibrate("300", "0");
    CHECK_THAT(at.refused("25"), Contains("do nothing"));
    at.calibrate("300", "40");
    at.done(ChangeDough{.product = "Plain loaf", .process = "no_time"});
    CHECK_THAT(at.refused("25"), Contains("no-time dough"));
    CHECK(at.card().longer_fermentation_minutes == 0);
    CHECK(at.planned().maturity_target == Approx(0.85));
}

TEST_CASE("A run that is past or mixed to the end ferments as it did") {
    Fermented at;
    at.done(ConfirmBatch{at.run, {}});
    at.done(FermentLonger{at.run, "25"}); // of the second batch
    at.done(ConfirmBatch{at.run, {}});
    CHECK_THAT(at.refused("30"), Contains("all batches of") && Contains("are mixed"));
    Fermented other;
    other.plant.open_again_on(today + Days{1});
    CHECK_THAT(other.refused("25"), Contains("which is past"));
}

TEST_CASE("Minutes that a run has already are counted before what is still missing, and leave so much less") {
    Fermented at;
    at.calibrate("90", "8");
    at.done(FermentLonger{at.run, "10"});
    const auto remedy = at.remedy();
    CHECK_THAT(remedy.figures, Contains("min more than the 70 min it ferments already"));
    CHECK(remedy.time == "at most 20 min more are allowed");
    REQUIRE(remedy.deed);
    CHECK(remedy.deed->minutes == 30); // of which the act takes all, not what is more
    CHECK(remedy.deed->minutes_more == 20);
    CHECK_THAT(at.levers().gap_spread, Contains("as it ferments 10 min longer"));
    at.done(FermentLonger{at.run, "30"});
    CHECK(at.remedy().standing == LeverRow::Standing::forbidden);
    CHECK_THAT(at.remedy().notes.front(), Contains("It ferments 90 min already"));
    CHECK_FALSE(at.remedy().deed);
}

TEST_CASE("Longer minutes of a product that is calibrated no more stand, and lower nothing") {
    Fermented at;
    at.done(FermentLonger{at.run, "25"});
    at.calibrate("300", "none");
    CHECK(at.card().fermentation == "85 min");
    CHECK(at.planned().maturity_target == Approx(0.85));
}

TEST_CASE("A run keeps its minutes when it is planned anew, moved, or dropped and added again") {
    Fermented at;
    at.plant.released_lot(at.plant.draft("MATURE"));
    at.done(FermentLonger{at.run, "25"});
    at.plant.plan_week();
    CHECK(at.planned().longer_fermentation_minutes == 25);
    CHECK(at.planned().maturity_target == Approx(0.85 - 0.4 * 25 / 60));
    at.done(ChangeRun{at.run, "", "2026-11-26", "", ""});
    CHECK(at.planned().longer_fermentation_minutes == 25);
    at.done(DropRun{at.run});
    at.undo();
    REQUIRE(at.plant.app().plan().runs.size() == 1);
    CHECK(at.plant.app().plan().runs[0].longer_fermentation_minutes == 25);
}

TEST_CASE("Remedies together whose parts are a lot and minutes are done and undone as one") {
    Fermented at;
    const auto mature = at.plant.released_lot(at.plant.draft("MATURE"));
    at.done(GiveLot{mature, {}, at.run, Grams{50'000}, "25"});
    CHECK_THAT(at.plant.said(), Contains("50 kg of lot MATURE") && Contains("ferments 25 min longer"));
    CHECK(at.card().longer_fermentation_minutes == 25);
    CHECK(at.planned().lots.size() == 2);
    at.undo();
    CHECK(at.card().longer_fermentation_minutes == 0);
    CHECK(at.planned().lots.size() == 1);
    at.plant.app().handle(GiveLot{mature, {}, at.run, Grams{50'000}, "241"});
    CHECK(at.plant.was_refused());
    CHECK(at.planned().lots.size() == 1); // neither of the two was done
}

TEST_CASE("A mix of a lot and minutes offers both, and with both done the run is strong enough") {
    Fermented at;
    at.plant.released_lot(at.plant.draft("MATURE"));
    const auto levers = at.levers();
    const auto mix = std::find_if(levers.mixes.begin(), levers.mixes.end(), [](const LeverMix& one) {
        return one.deed && one.deed->lot.is_known() && one.deed->minutes > 0;
    });
    REQUIRE(mix != levers.mixes.end());
    CHECK_THAT(mix->words, Contains("MATURE") && Contains("min more fermentation"));
    CHECK(mix->minutes == mix->deed->minutes);
    at.done(GiveLot{
        mix->deed->lot, {}, at.run, to_grams(Kilograms{mix->deed->kg}), std::to_string(mix->deed->minutes)});
    CHECK(at.planned().maturity >= at.planned().maturity_target - 0.005);
}

TEST_CASE("Another station sees at its next frame how long a run ferments") {
    Fermented at;
    App office({at.plant.book_path(), "Ines", Clock::standing_at(today)});
    office.handle(FermentLonger{at.run, "25"});
    REQUIRE(office.notice().kind == Notice::Kind::done);
    CHECK(at.card().longer_fermentation_minutes == 0); // not looked yet
    CHECK(at.plant.app().poll());
    CHECK(at.card().fermentation_why == "60 and 25 longer for strength");
    CHECK(at.planned().longer_fermentation_minutes == 25);
    CHECK_THAT(at.planned().changed, Contains("Ines"));
    at.plant.open_again();
    CHECK(at.card().longer_fermentation_minutes == 25);
}
