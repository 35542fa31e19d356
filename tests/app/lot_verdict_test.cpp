#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/retests.h"
#include "app/models/lots.h"
#include "app/models/readiness.h"
#include "small_plant.h"
#include "support/catch.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Follows = LotVerdict::Follows;
using Weight = Finding::Weight;
using tests::SmallPlant;

namespace {

struct Judged : SmallPlant {
    LotId taken_in(const std::string& protein) {
        auto typed = draft("W24-118");
        typed.figure(Property::protein).value = protein;
        app().handle(TakeIn{{typed}});
        return lot("W24-118");
    }
    void retest(LotId of, const char* protein) {
        RetestDraft typed;
        typed.figure(Property::protein) = {Property::protein, protein, "14 % moisture", "", ""};
        app().handle(LogRetest{of, typed});
        INFO(refusals());
        REQUIRE(was_done());
    }
    const LotVerdict& of(LotId lot) {
        app().handle(OpenLot{lot});
        REQUIRE(app().lots().opened);
        return app().lots().opened->verdict;
    }
};

} // namespace

TEST_CASE("A lot in quarantine that is inside its specification says so, and its release follows") {
    Judged plant;
    const auto& verdict = plant.of(plant.taken_in("12.4"));
    CHECK(verdict.words == "In quarantine since Wed 25 Nov");
    CHECK(verdict.reasons == "What was measured is inside the specification.");
    CHECK(verdict.weight == Weight::mind);
    CHECK(verdict.follows == Follows::release);
}

TEST_CASE("What fails is told with its figure, and the hold follows") {
    Judged plant;
    const auto& verdict = plant.of(plant.taken_in("11.2"));
    CHECK(verdict.reasons == "The mill's protein, 11.2 %, is under 11.5 %.");
    CHECK(verdict.follows == Follows::hold);
}

TEST_CASE("Protein and ash can be retested, and the plant's own figure decides what follows") {
    Judged plant;
    const auto& tests = plant.app().readiness().tests;
    for (const auto property : {Property::moisture, Property::protein, Property::ash,
                                Property::falling_number, Property::absorption})
        CHECK(std::count(tests.begin(), tests.end(), property) == 1);
    const LotId lot = plant.taken_in("11.2");
    plant.app().handle(HoldLot{lot, "protein low"});
    CHECK(plant.of(lot).words == "On hold since Wed 25 Nov");
    CHECK(plant.of(lot).follows == Follows::retest);
    plant.retest(lot, "11.9");
    const auto& verdict = plant.of(lot);
    CHECK(verdict.reasons == "Tomas: protein low. The mill's protein, 11.2 %, is under 11.5 %. "
                             "Our own of Wed 25 Nov, 11.9 %, is inside.");
    CHECK(verdict.follows == Follows::release);
}

TEST_CASE("A lot past its last day says so before all else, and what may be done about it") {
    Judged plant;
    auto typed = plant.draft("W24-118");
    typed.best_before = "2026-12-01";
    const LotId lot = plant.released_lot(typed);
    CHECK(plant.of(lot).words == "Released on Wed 25 Nov");
    CHECK(plant.of(lot).weight == Weight::well);
    plant.open_again_on(day_from_iso("2026-12-02"));
    CHECK(plant.of(lot).words == "Best before passed on Tue 01 Dec");
    CHECK(plant.of(lot).weight == Weight::against);
    CHECK(plant.of(lot).follows == Follows::extend);
}

TEST_CASE("A day of another year is told with its year") {
    Judged plant;
    const LotId lot = plant.taken_in("12.4");
    plant.app().handle(RejectLot{lot, "wet"});
    plant.open_again_on(day_from_iso("2027-01-05"));
    CHECK(plant.of(lot).words == "Rejected on Wed 25 Nov 2026");
    CHECK(plant.of(lot).follows == Follows::write_off);
}
