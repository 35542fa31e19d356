#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/acts/supply.h"
#include "app/models/plan.h"
#include "app/models/settings.h"
#include "mixed_plant.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/iso.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

const Day today = day_from_iso("2026-11-25");

struct Supplied : SmallPlant {
    Supplied() : SmallPlant(today, std::string(tests::mixed_plant)) {}
    void expect(const std::string& kg, const std::string& arrives) {
        done(ExpectDelivery{"Mill", "Strong white", kg, arrives, "2026-06-01"});
    }
    [[nodiscard]] const PlanModel& plan() { return app().plan(); }
    [[nodiscard]] std::size_t journal() { return app().settings().journal.size(); }
};

} // namespace

TEST_CASE("A delivery that is ordered is on the list in words, and off it when it was a mistake") {
    Supplied plant;
    const auto lines = plant.journal();
    plant.expect("24000", "2026-12-04");
    CHECK(plant.said() == "Delivery E-1 expected on Fri 04 Dec: 24000 kg Strong white from Mill");
    CHECK(plant.journal() == lines + 1);
    REQUIRE(plant.plan().expected.size() == 1);
    CHECK_THAT(plant.plan().expected[0].words, Contains("E-1: 24000 kg Strong white from Mill, Fri 04 Dec"));
    CHECK(plant.plan().expected[0].promised.empty());
    plant.undo();
    CHECK(plant.plan().expected.empty());
    plant.undo();
    CHECK(plant.plan().expected.size() == 1);
    plant.open_again();
    CHECK(plant.plan().expected.size() == 1);
}

TEST_CASE("A delivery is refused with every fault of its fields at once, and nothing is written") {
    Supplied plant;
    const auto lines = plant.journal();
    plant.refused(ExpectDelivery{"Nobody", "Cake flour", "1,5 t", "2026-11-24", "2026-11-31"});
    const auto words = plant.refusals();
    CHECK_THAT(words, Contains("Mill: \"Nobody\" is not known. Choose one of: Mill, Weir Mill"));
    CHECK_THAT(words, Contains("Flour: \"Cake flour\" is not known"));
    CHECK_THAT(words, Contains("Weight: "));
    CHECK_THAT(words, Contains("Arrives: 2026-11-24 was read, which is before today, 2026-11-25"));
    CHECK_THAT(words, Contains("Milled on: "));
    plant.refused(ExpectDelivery{"Mill", "Rye", "", "2026-11-26", "2026-11-27"});
    CHECK_THAT(plant.refusals(), Contains("Weight: ") &&
                                     Contains("2026-11-27 was read, which is after the arrival, 2026-11-26"));
    plant.refused(ExpectDelivery{"Mill", "Rye", "100", "", ""});
    CHECK_THAT(plant.refusals(), Contains("Arrives: is empty"));
    CHECK(plant.plan().expected.empty());
    CHECK(plant.journal() == lines);
}

TEST_CASE("A plan counts on a delivery, and when it came its flour goes to the runs that were promised it") {
    Supplied plant;
    plant.expect("500", "2026-11-26");
    const RunId early = plant.add_run("Pan bread", "2026-11-28", "3");
    const RunId late = plant.add_run("Pan bread", "2026-11-29", "2");
    plant.plan_week();
    CHECK(plant.planned(early).short_kg == 0);
    REQUIRE(plant.planned(early).lots.size() == 1);
    CHECK(plant.planned(early).lots[0].code == "E-1");
    CHECK(plant.planned(early).lots[0].delivery.is_known());
    CHECK(plant.plan().expected.at(0).promised == "500 kg in 2 runs");

    auto came = plant.draft("CAME");
    came.mass_kg = "400"; // less than was ordered: the earlier run has it first
    const LotId lot = plant.released_lot(came);
    plant.done(EndExpectation{plant.plan().expected.at(0).id, lot, ""});
    CHECK_THAT(plant.said(),
               Contains("Delivery E-1 came as lot CAME") && Contains("100 kg short: plan again"));
    CHECK(plant.plan().expected.empty());
    REQUIRE(plant.planned(early).lots.size() == 1);
    CHECK(plant.planned(early).lots[0].lot == lot);
    CHECK(plant.planned(early).lots[0].kg == Approx(300));
    CHECK(plant.planned(late).lots.at(0).kg == Approx(100));
    CHECK(plant.planned(late).short_kg == Approx(100));

    plant.undo();
    CHECK(plant.plan().expected.at(0).promised == "500 kg in 2 runs");
    CHECK(plant.planned(early).lots.at(0).code == "E-1");
}

TEST_CASE(
    "A delivery that is called off needs a reason, and its runs are short until they are planned again") {
    Supplied plant;
    plant.expect("500", "2026-11-26");
    const RunId run = plant.add_run("Pan bread", "2026-11-28", "3");
    plant.plan_week();
    const auto id = plant.plan().expected.at(0).id;
    plant.refused(EndExpectation{id, {}, ""});
    CHECK_THAT(plant.refusals(), Contains("Reason: is empty"));
    plant.done(EndExpectation{id, {}, "the mill is out of wheat"});
    CHECK_THAT(plant.said(), Contains("called off: the mill is out of wheat; 1 run counted on it"));
    CHECK(plant.planned(run).short_kg == Approx(300));
    plant.refused(EndExpectation{id, {}, "again"});
    plant.done(ExpectDelivery{"", "", "", "", "", id});
    plant.refused(EndExpectation{ExpectedId{99}, {}, "x"});
}

TEST_CASE("A delivery cannot have come as flour of another kind, or as a lot that is gone") {
    Supplied plant;
    plant.expect("500", "2026-11-26");
    const auto id = plant.plan().expected.at(0).id;
    auto rye = plant.draft("RYE");
    rye.flour = "Rye";
    plant.refused(EndExpectation{id, plant.released_lot(rye), ""});
    CHECK_THAT(plant.refusals(), Contains("RYE is Rye; E-1 was to be Strong white"));
    const LotId gone = plant.released_lot(plant.draft("GONE"));
    plant.done(RejectLot{gone, "mites"});
    plant.refused(EndExpectation{id, gone, ""});
    CHECK_THAT(plant.refusals(), Contains("GONE is"));
    CHECK(plant.plan().expected.size() == 1);
}

TEST_CASE("Flour that is spoken for is on a list, and free again when the reservation ends") {
    Supplied plant;
    const LotId a = plant.released_lot(plant.draft("A"));
    plant.done(ReserveLot{a, "", "400.5", "for trials"});
    CHECK(plant.said() == "400.5 kg of lot A kept back: for trials");
    plant.done(ReserveLot{a, "Pan bread", "", "a customer asked"});
    REQUIRE(plant.plan().reserved.size() == 2);
    CHECK_THAT(plant.plan().reserved[1].words, Contains("Lot A kept for Pan bread: a customer asked"));
    CHECK(plant.plan().reserved[1].lot == a);
    plant.undo();
    CHECK(plant.plan().reserved.size() == 1);
    plant.done(EndReservation{plant.plan().reserved[0].id, "trials are over"});
    CHECK(plant.plan().reserved.empty());
    plant.undo();
    REQUIRE(plant.plan().reserved.size() == 1);
    CHECK_THAT(plant.plan().reserved[0].words, Contains("for trials"));
    plant.refused(EndReservation{ReservationId{1}, ""}); // ended before
}

TEST_CASE("A reservation is refused with every fault at once") {
    Supplied plant;
    const LotId a = plant.released_lot(plant.draft("A"));
    plant.refused(ReserveLot{a, "", "1200", ""});
    CHECK_THAT(plant.refusals(),
               Contains("1200 kg was read, but only 1000 kg of lot A") && Contains("Reason: is empty"));
    plant.refused(ReserveLot{a, "Cake", "5", "x"});
    CHECK_THAT(plant.refusals(),
               Contains("Product: \"Cake\" is not known") && Contains("kept for a product as a whole"));
    auto rye = plant.draft("RYE");
    rye.flour = "Rye";
    plant.refused(ReserveLot{plant.released_lot(rye), "Pan bread", "", "x"});
    CHECK_THAT(plant.refusals(), Contains("Pan bread takes another flour than lot RYE"));
    plant.refused(ReserveLot{LotId{99}, "", "5", "x"});
    CHECK_THAT(plant.refusals(), Contains("Lot: is not in the book"));
}

TEST_CASE("A reservation says which runs of the plan it breaks, and the next plan goes round it") {
    Supplied plant;
    const LotId a = plant.released_lot(plant.draft("A"));
    const RunId run = plant.add_run("Pan bread", "2026-11-27", "2");
    plant.plan_week();
    REQUIRE(plant.planned(run).lots.at(0).code == "A");
    plant.done(ReserveLot{a, "Traced loaf", "", "a customer asked"});
    CHECK_THAT(plant.said(), Contains("1 run of other products has it in the plan: plan again"));
    plant.released_lot(plant.draft("B"));
    plant.plan_week();
    CHECK(plant.planned(run).lots.at(0).code == "B");
}
