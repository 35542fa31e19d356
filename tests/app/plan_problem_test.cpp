#include "app/acts/assignments.h"
#include "app/acts/doughs.h"
#include "app/acts/fermentation.h"
#include "app/acts/intake.h"
#include "app/acts/intent.h"
#include "app/acts/lots.h"
#include "app/acts/plan.h"
#include "app/acts/settings.h"
#include "app/acts/silos.h"
#include "app/acts/stock.h"
#include "app/acts/supply.h"
#include "app/book/book.h"
#include "app/book/estimates.h"
#include "app/models/plan.h"
#include "app/plan/expected.h"
#include "app/plan/freeze.h"
#include "app/plan/problem.h"
#include "app/plan/units.h"
#include "db/sqlite_connection.h"
#include "mixed_plant.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/iso.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

const Day today = day_from_iso("2026-11-25");

struct MixedPlant : SmallPlant {
    MixedPlant() : SmallPlant(today, std::string(tests::mixed_plant)) {}

    LotDraft rye(const std::string& code) const {
        auto rye = draft(code);
        rye.flour = "Rye";
        rye.figure(Property::falling_number) = {Property::falling_number, "180", "", "", ""};
        rye.figure(Property::ash) = {Property::ash, "1.6", "14 % moisture", "", ""};
        return rye;
    }
    PlanProblem problem(int days = 7) {
        SqliteConnection connection(book_path());
        book = Book::read(connection, today);
        estimates = {};
        estimates.follow(book, today);
        return plan_problem(book, estimates, {today, today, days});
    }
    Book book;
    Estimates estimates;
};

int index_of(const PlanProblem& p, const std::string& lot) {
    for (int l = 0; l < p.problem.lot_count(); ++l)
        if (p.problem.lots[static_cast<std::size_t>(l)].id == lot)
            return l;
    FAIL("no lot " << lot);
    return -1;
}

std::string why_not(const PlanProblem& p, const std::string& lot, int run) {
    const auto& cell = p.problem.at(index_of(p, lot), run);
    return p.problem.notes[static_cast<std::size_t>(cell.note)];
}

} // namespace

TEST_CASE("A formula with two kinds of flour gives two needs of one run, each with windows of its own") {
    MixedPlant plant;
    plant.released_lot(plant.draft("WHITE"));
    plant.released_lot(plant.rye("RYE"));
    const RunId first = plant.add_run("Mixed loaf", "2026-11-26", "4");
    const RunId plain = plant.add_run("Pan bread", "2026-11-26", "2");
    const RunId last = plant.add_run("Mixed loaf", "2026-11-26", "1");
    const auto p = plant.problem();
    REQUIRE(p.runs == std::vector{first, first, plain, last, last});
    CHECK(p.parts[1] == FlourPart::second);
    CHECK_THAT(p.problem.runs[0].id, Contains("(Strong white)"));
    CHECK_THAT(p.problem.runs[1].id, Contains("(Rye)"));
    CHECK(p.problem.runs[0].demand_t == Approx(0.3));
    CHECK(p.problem.runs[1].demand_t == Approx(0.1));
    CHECK(p.needs[0] + p.needs[1] == Grams{400'000});
    // The run before on the line, for each flour: the plain bread has no rye.
    CHECK(p.problem.runs[2].prev_on_line == 0);
    CHECK(p.problem.runs[3].prev_on_line == 2);
    CHECK(p.problem.runs[4].prev_on_line == 1);

    const int white = index_of(p, "WHITE"), rye = index_of(p, "RYE");
    CHECK(p.problem.usable(white, 0));
    CHECK(p.problem.at(white, 1).ban == planning::Ban::wrong_flour);
    CHECK(p.problem.usable(rye, 1));
    CHECK(p.problem.at(rye, 0).ban == planning::Ban::wrong_flour);
    CHECK(p.problem.product_of(0).maturity_target_points == Approx(85));
    CHECK(p.problem.product_of(1).maturity_target_points == 0); // of another class
    CHECK(p.problem.product_of(1).oxidant == planning::OxidantPolicy::forbidden);
    CHECK(planning::check(p.problem).empty());
}

TEST_CASE("Of two runs of one product the one that ferments longer asks less maturity of its flour") {
    MixedPlant plant;
    plant.released_lot(plant.draft("WHITE"));
    plant.done(ChangeDough{.product = "Pan bread", .most_fermentation = "120", .maturity_per_hour = "6"});
    const RunId longer = plant.add_run("Pan bread", "2026-11-26", "2");
    const RunId usual = plant.add_run("Pan bread", "2026-11-26", "2");
    plant.done(FermentLonger{longer, "50"});
    const auto p = plant.problem();
    REQUIRE(p.runs == std::vector{longer, usual});
    CHECK(p.problem.product_of(0).maturity_target_points == Approx(80)); // 85 less 50 min at 6 an hour
    CHECK(p.problem.product_of(1).maturity_target_points == Approx(85));
    CHECK(planning::check(p.problem).empty());
}

TEST_CASE("A product of one lot a batch tells the plan how much a batch takes") {
    MixedPlant plant;
    plant.add_run("Traced loaf", "2026-11-26", "4");
    plant.add_run("Pan bread", "2026-11-26", "4");
    const auto p = plant.problem();
    CHECK(p.problem.product_of(0).one_lot_a_batch);
    CHECK(p.problem.runs[0].batch_t == Approx(0.1));
    CHECK_FALSE(p.problem.product_of(1).one_lot_a_batch);
}

TEST_CASE("A delivery to come is flour from its arrival and release on, with the figures of such lots") {
    MixedPlant plant;
    auto lot = plant.draft("A");
    plant.released_lot(lot);
    lot = plant.draft("B");
    lot.figure(Property::protein).value = "13.1";
    plant.released_lot(lot);
    plant.done(ExpectDelivery{"Mill", "Strong white", "500", "2026-11-27", "2026-09-01"});
    plant.add_run("Pan bread", "2026-11-27", "2");
    plant.add_run("Pan bread", "2026-11-28", "2");
    const auto p = plant.problem();
    const int delivery = index_of(p, "E-1");
    CHECK(p.deliveries[static_cast<std::size_t>(delivery)] == ExpectedId{1});
    CHECK_FALSE(p.lots[static_cast<std::size_t>(delivery)].is_known());
    CHECK_FALSE(p.deliveries[static_cast<std::size_t>(index_of(p, "A"))].is_known());
    CHECK(p.problem.lots[static_cast<std::size_t>(delivery)].stock_t == Approx(0.5));
    CHECK(p.problem.lots[static_cast<std::size_t>(delivery)].values[0] == Approx(12.8)); // of 12.5 and 13.1
    CHECK(p.problem.at(delivery, 0).ban == planning::Ban::not_arrived);
    CHECK_THAT(why_not(p, "E-1", 0), Contains("still to come and can be used from Sat 28 Nov on"));
    CHECK(p.problem.usable(delivery, 1));
    CHECK(p.problem.at(delivery, 1).maturity_points > 50); // milled in September
    CHECK_THAT(plant.app().plan().expected.at(0).words, Contains("figures as the mean of its last 2 lots"));

    plant.done(ChangeSetting{"days_to_release", "3"});
    CHECK(plant.problem().problem.at(delivery, 1).ban == planning::Ban::not_arrived);
}

TEST_CASE(
    "Where no such lot came before, a delivery has the middle of its specification, and what nobody says "
    "is not known") {
    MixedPlant plant;
    plant.done(ExpectDelivery{"Weir Mill", "Strong white", "500", "2026-11-25", "2026-06-01"});
    plant.done(ExpectDelivery{"Weir Mill", "Rye", "500", "2026-11-25", "2026-06-01"});
    plant.add_run("Pan bread", "2026-11-27", "2");
    plant.add_run("Mixed loaf", "2026-11-28", "2");
    const auto p = plant.problem();
    CHECK(p.problem.lots[0].values[0] == Approx(12.75)); // of 11.5 to 14
    CHECK(p.problem.usable(0, 0));
    CHECK_THAT(plant.app().plan().expected.at(0).words,
               Contains("Protein as the middle of the specification"));
    // Nobody speaks of the rye's ash, which the product has a window for.
    CHECK(p.problem.at(1, 2).ban == planning::Ban::not_measured);
    CHECK_THAT(why_not(p, "E-2", 2), Contains("Ash"));
    plant.released_lot(plant.rye("RYE")); // of the other mill: says nothing of this one's
    CHECK_FALSE(plant.problem().problem.usable(index_of(plant.problem(), "E-2"), 2));
}

TEST_CASE("A delivery whose day has passed is late: the plan takes it for tomorrow's") {
    MixedPlant plant;
    plant.released_lot(plant.draft("A"));
    plant.done(ExpectDelivery{"Mill", "Strong white", "500", "2026-11-25", "2026-06-01"});
    CHECK_FALSE(plant.app().plan().expected.at(0).is_late);
    plant.add_run("Pan bread", "2026-11-28", "2");
    plant.add_run("Pan bread", "2026-11-30", "2");
    plant.open_again_on(day_from_iso("2026-11-28"));
    CHECK(plant.app().plan().expected.at(0).is_late);
    CHECK_THAT(plant.app().plan().expected.at(0).words, Contains("late: counted on from Mon 30 Nov"));
    SqliteConnection connection(plant.book_path());
    const Book book = Book::read(connection, day_from_iso("2026-11-28"));
    Estimates estimates;
    const Day later = day_from_iso("2026-11-28");
    estimates.follow(book, later);
    const auto p = plan_problem(book, estimates, {later, later, 7});
    CHECK(p.problem.at(1, 0).ban == planning::Ban::not_arrived);
    CHECK(p.problem.usable(1, 1));
}

TEST_CASE(
    "What is kept back is no stock, and a lot kept for a product is forbidden to others, with the reason") {
    MixedPlant plant;
    const LotId a = plant.released_lot(plant.draft("A"));
    const LotId b = plant.released_lot(plant.draft("B"));
    plant.add_run("Pan bread", "2026-11-27", "2");
    plant.add_run("Traced loaf", "2026-11-27", "2");
    plant.done(ReserveLot{a, "", "400", "for trials"});
    plant.done(ReserveLot{b, "Traced loaf", "", "asked for by a customer"});
    const auto p = plant.problem();
    CHECK(p.problem.lots[static_cast<std::size_t>(index_of(p, "A"))].stock_t == Approx(0.6));
    CHECK(p.problem.lots[static_cast<std::size_t>(index_of(p, "B"))].stock_t == Approx(1));
    CHECK(p.problem.at(index_of(p, "B"), 0).ban == planning::Ban::other);
    CHECK_THAT(why_not(p, "B", 0), Contains("kept for Traced loaf: asked for by a customer"));
    CHECK(p.problem.usable(index_of(p, "B"), 1));
}

TEST_CASE("Runs within the frozen days keep their lots, unless one may no longer be used") {
    MixedPlant plant;
    const LotId a = plant.released_lot(plant.draft("A"));
    const RunId today_run = plant.add_run("Pan bread", "2026-11-25", "4");
    plant.add_run("Pan bread", "2026-11-26", "4");
    plant.plan_week();
    auto p = plant.problem();
    CHECK(p.problem.runs[0].state == planning::RunState::frozen);
    CHECK(p.problem.runs[1].state == planning::RunState::open); // tomorrow's
    REQUIRE(p.problem.locks.size() == 1);
    CHECK(p.problem.locks[0].tonnes == Approx(0.4));
    CHECK(is_frozen(plant.book, *plant.book.run(today_run), today));

    plant.done(ChangeSetting{"freeze_days", "2"});
    CHECK(plant.problem().problem.runs[1].state == planning::RunState::frozen);
    plant.done(ChangeSetting{"freeze_days", "0"});
    CHECK(plant.problem().problem.runs[0].state == planning::RunState::open);

    plant.done(ChangeSetting{"freeze_days", "1"});
    plant.done(HoldLot{a, "smells musty"});
    CHECK(plant.problem().problem.runs[0].state == planning::RunState::open);
    plant.done(ReleaseLot{a, "aired"});
    CHECK(plant.problem().problem.runs[0].state == planning::RunState::frozen);
    plant.done(CountLot{a, PlaceId{1}, "300", "spilt"}); // less than the run has of it
    p = plant.problem();
    CHECK(p.problem.runs[0].state == planning::RunState::open);
    CHECK(planning::check(p.problem).empty());
}

TEST_CASE("A run that is short is not frozen: what it lacks must be found") {
    MixedPlant plant;
    auto small = plant.draft("A");
    small.mass_kg = "150";
    plant.released_lot(small);
    plant.add_run("Pan bread", "2026-11-25", "4");
    plant.plan_week();
    CHECK(plant.problem().problem.runs[0].state == planning::RunState::open);
}

TEST_CASE("A tonne short weighs more the sooner it is needed") {
    MixedPlant plant;
    plant.add_run("Pan bread", "2026-11-25", "1");
    plant.add_run("Pan bread", "2026-11-28", "1");
    plant.add_run("Pan bread", "2026-12-01", "1");
    const auto p = plant.problem();
    CHECK(p.problem.runs[0].urgency == Approx(1.1));
    CHECK(p.problem.runs[1].urgency == Approx(1.05));
    CHECK(p.problem.runs[2].urgency == Approx(1));
}

TEST_CASE("A lot above another in a silo waits until what lies below could have been drawn") {
    MixedPlant plant;
    auto lower = plant.draft("LOWER");
    lower.place = "Silo 2";
    lower.mass_kg = "500";
    const LotId below = plant.released_lot(lower);
    auto upper = plant.draft("UPPER");
    upper.place = "Silo 2";
    const LotId above = plant.released_lot(upper);
    plant.done(SetSiloZone{"Silo 2", "none"});
    plant.add_run("Pan bread", "2026-11-26", "3"); // 300 kg: not through the lower lot
    plant.add_run("Pan bread", "2026-11-27", "3"); // 600 kg until here
    auto p = plant.problem();
    CHECK(p.problem.at(index_of(p, "UPPER"), 0).ban == planning::Ban::other);
    CHECK_THAT(why_not(p, "UPPER", 0), Contains("lies above LOWER in Silo 2, which must be drawn first"));
    CHECK(p.problem.usable(index_of(p, "UPPER"), 1));
    CHECK(p.problem.usable(index_of(p, "LOWER"), 0));
    CHECK(p.problem.chains == std::vector<std::vector<int>>{{index_of(p, "LOWER"), index_of(p, "UPPER")}});

    plant.done(HoldLot{below, "smells musty"});
    p = plant.problem();
    CHECK_FALSE(p.problem.usable(index_of(p, "UPPER"), 1));
    CHECK_THAT(why_not(p, "UPPER", 1), Contains("and that one is on hold"));

    plant.done(MoveLot{above, PlaceId{2}, PlaceId{1}, "100"}); // some of it can be had from the bay
    p = plant.problem();
    CHECK(p.problem.usable(index_of(p, "UPPER"), 0));
    CHECK_FALSE(p.problem.usable(index_of(p, "UPPER in Silo 2"), 0));
    CHECK(p.problem.lots[static_cast<std::size_t>(index_of(p, "UPPER"))].stock_t == Approx(0.1));
}

TEST_CASE("Two mills may use one lot number, and the plan tells them apart") {
    MixedPlant plant;
    plant.released_lot(plant.draft("A"));
    auto twin = plant.draft("A");
    twin.mill = "Weir Mill";
    plant.done(TakeIn{{twin}});
    plant.add_run("Pan bread", "2026-11-26", "3");
    const auto p = plant.problem();
    CHECK(p.problem.lots[0].id == "Mill/A");
    CHECK(p.problem.lots[1].id == "Weir Mill/A");
    CHECK(planning::check(p.problem).empty());
}

TEST_CASE("A lock on flour that is gone is refused by name, never passed over") {
    MixedPlant plant;
    const LotId a = plant.released_lot(plant.draft("A"));
    const RunId run = plant.add_run("Pan bread", "2026-11-26", "3");
    plant.plan_week();
    plant.done(LockAssignment{run, a});
    plant.done(RejectLot{a, "mites"});
    plant.app().handle(PlanRuns{today, 7});
    CHECK_THAT(plant.refusals(), Contains("A is locked to this run but may not be used in it"));
}
