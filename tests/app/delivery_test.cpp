#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/settings.h"
#include "app/acts/supply.h"
#include "app/book/setup.h"
#include "app/models/deliveries.h"
#include "app/models/intake.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/settings.h"
#include "mixed_plant.h"
#include "small_plant.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

// Of GS1's own examples.
constexpr const char *one = "106141411234567897", *other = "376104250021234569",
                     *third = "123456789012345675";

const Day today = day_from_iso("2026-11-25");

struct Dock : SmallPlant {
    Dock() : SmallPlant(today, std::string(tests::mixed_plant)) {}
    /// A lot that came today with a note.
    LotDraft came(const std::string& code, const std::string& kg = "1000") {
        auto lot = draft(code);
        lot.delivered_on = "2026-11-25";
        lot.delivery_note = "4711";
        lot.mass_kg = kg;
        return lot;
    }
    LotDraft on_pallets(const std::string& code, std::vector<PalletDraft> pallets) {
        auto lot = came(code);
        lot.pallets = std::move(pallets);
        return lot;
    }
    void expect(const std::string& kg, const std::string& arrives, const std::string& order = "") {
        done(ExpectDelivery{"Mill", "Strong white", kg, arrives, "2026-06-01", {}, order});
    }
    std::vector<DeliveryRow> deliveries() { return app().deliveries("", 50); }
    std::string journal() {
        std::string words;
        for (const auto& row : app().settings().journal)
            words += row.words + "\n";
        return words;
    }
};

OfDelivery for_expected(const std::string& code) {
    OfDelivery of;
    of.said.expected = code;
    return of;
}

OfDelivery with_note(const std::string& weight, const std::string& reason = "") {
    OfDelivery of;
    of.said.on_note = weight;
    of.said.weight_reason = reason;
    return of;
}

} // namespace

TEST_CASE("Lots that come in together are one delivery in the book, with their pallets and weights") {
    Dock plant;
    auto of = with_note("3000");
    of.said.weighed = "2995";
    of.said.order = "PO-17";
    of.said.remark = "tarpaulin torn";
    plant.done(
        TakeIn{{plant.on_pallets("A-1", {{one, "500"}, {other, "500"}}), plant.came("A-2", "2000")}, {}, of});
    plant.open_again();
    REQUIRE(plant.deliveries().size() == 1);
    const auto row = plant.deliveries()[0];
    CHECK(row.mill == "Mill");
    CHECK(row.note == "4711");
    CHECK(row.order == "PO-17");
    CHECK(row.remark == "tarpaulin torn");
    CHECK(row.who == "Tomas");
    CHECK(row.delivered_on == today);
    CHECK(row.on_note_kg == 3000);
    CHECK(row.weighed_kg == 2995);
    CHECK(row.lots_kg == 3000);
    REQUIRE(row.lots.size() == 2);
    CHECK(row.lots[1].code == "A-2");
    REQUIRE(row.pallets.size() == 2);
    CHECK(row.pallets[0].sscc == one);
    CHECK(row.pallets[0].lot == "A-1");
    CHECK(row.pallets[0].kg == 500);
    CHECK(plant.app().delivery(row.id)->lots.size() == 2);
    CHECK(plant.app().deliveries("Weir Mill", 50).empty());
    plant.app().handle(OpenLot{plant.lot("A-1")});
    const auto& sheet = *plant.app().lots().opened;
    CHECK(sheet.came_words == "Came on Wed 25 Nov from Mill, note 4711, order PO-17");
    CHECK(sheet.pallets.size() == 2);
}

TEST_CASE(
    "Lots of two mills, notes or days are deliveries of their own, and what is said of a whole is of one") {
    Dock plant;
    auto elsewhere = plant.came("B-1");
    elsewhere.mill = "Weir Mill";
    auto yesterday = plant.came("A-2");
    yesterday.delivered_on = "2026-11-24";
    const auto lots = std::vector{plant.came("A-1"), elsewhere, yesterday};
    CHECK_THAT(plant.refused(TakeIn{lots, {}, with_note("3000")}),
               Contains("more than one mill, note or day"));
    plant.done(TakeIn{lots});
    CHECK(plant.deliveries().size() == 3);
}

TEST_CASE(
    "A pallet comes once into a plant: twice in a delivery, and again in another one, says where it is") {
    Dock plant;
    CHECK_THAT(plant.refused(TakeIn{{plant.on_pallets("A-1", {{one, ""}, {one, ""}})}}),
               Contains("Pallet 2: 1061 4141 1234 5678 97 stands twice"));
    CHECK_THAT(
        plant.refused(TakeIn{{plant.on_pallets("A-1", {{one, ""}}), plant.on_pallets("A-2", {{one, ""}})}}),
        Contains("Lot A-2: Pallet 1: 1061 4141 1234 5678 97 is with lot A-1, too"));
    CHECK_THAT(plant.refused(TakeIn{{plant.on_pallets("A-1", {{"106141411234567890", ""}})}}),
               Contains("Pallet 1: the check digit of \"106141411234567890\" is wrong: 7 is expected"));
    plant.done(TakeIn{{plant.on_pallets("A-1", {{one, ""}})}});
    auto late = plant.on_pallets("A-9", {{third, ""}, {"(00)" + std::string(one), ""}});
    late.delivery_note = "4712";
    CHECK_THAT(
        plant.refused(TakeIn{{late}}),
        Contains(
            "Pallet 2: 1061 4141 1234 5678 97 came before: on 2026-11-25 with lot A-1 of Mill, note 4711"));
    CHECK(plant.deliveries().size() == 1);
    plant.app().handle(ReadLabel{"(00)" + std::string(one) + "(10)A-9"});
    CHECK_THAT(plant.refusals(),
               Contains("Pallet: 1061 4141 1234 5678 97 came before: on 2026-11-25 with lot A-1"));
    CHECK(plant.app().intake().labels == 0);
}

TEST_CASE("A label says its pallet and its order; one without a lot number waits for the label that has it") {
    Dock plant;
    plant.app().handle(ReadLabel{"(00)" + std::string(one)});
    CHECK(plant.app().intake().labels == 0); // whose lot is on its other label
    CHECK(plant.app().intake().pallet.sscc == one);
    plant.app().handle(ReadLabel{"(00)" + std::string(one) + "(10)A-1(3102)050050(400)PO-17"});
    CHECK(plant.app().intake().label.pallets.at(0).sscc == one);
    CHECK(plant.app().intake().label.pallets.at(0).kg == "500.5");
    CHECK(plant.app().intake().pallet.order == "PO-17");
}

TEST_CASE("Undo takes a delivery back: its pallets may come again, and what was expected is expected again") {
    Dock plant;
    plant.expect("1000", "2026-11-26");
    plant.done(TakeIn{{plant.on_pallets("A-1", {{one, ""}})}, {}, for_expected("E-1")});
    CHECK_THAT(plant.said(), Contains("Delivery E-1 came as lot A-1"));
    CHECK(plant.app().intake().expected.empty());
    CHECK(plant.deliveries().at(0).expected == "E-1");
    CHECK(plant.deliveries().at(0).expected_kg == 1000);
    plant.undo();
    CHECK_THAT(plant.journal(),
               Contains("A-1 withdrawn: taken in by mistake; delivery E-1 is expected again"));
    REQUIRE(plant.app().intake().expected.size() == 1);
    CHECK(plant.app().intake().expected[0].code == "E-1");
    CHECK(plant.app().plan().expected.size() == 1);
    CHECK(plant.deliveries().empty());
    plant.done(TakeIn{{plant.on_pallets("A-2", {{one, ""}})}, {}, for_expected("E-1")});
    CHECK(plant.deliveries().size() == 1);
}

TEST_CASE("When a delivery came, what plans had from it goes to its lots, and back when that is undone") {
    Dock plant;
    plant.expect("500", "2026-11-26");
    const RunId early = plant.add_run("Pan bread", "2026-11-28", "3");
    const RunId late = plant.add_run("Pan bread", "2026-11-29", "2");
    plant.plan_week();
    REQUIRE(plant.app().plan().expected.at(0).promised == "500 kg in 2 runs");
    auto rye = plant.came("R-1", "900");
    rye.flour = "Rye";
    // 350 + 140 kg of the flour: the earlier run has its 300 first, 10 kg are missing in the later one.
    plant.app().handle(
        TakeIn{{plant.came("A-1", "350"), rye, plant.came("A-2", "140")}, {}, for_expected("E-1")});
    CHECK_THAT(plant.refusals(), Contains("Expected delivery: 490 kg here, 500 kg expected: 2.0 % less"));
    auto of = for_expected("E-1");
    of.said.weight_reason = "a short bag";
    plant.done(TakeIn{{plant.came("A-1", "350"), rye, plant.came("A-2", "140")}, {}, of});
    CHECK_THAT(plant.said(),
               Contains("Delivery E-1 came as lots A-1, A-2; it goes to the 2 runs that counted on it, "
                        "10 kg short: plan again"));
    CHECK_THAT(plant.said(), Contains("because: a short bag"));
    const auto kg_of = [&](RunId run, const std::string& code) {
        for (const auto& lot : plant.planned(run).lots)
            if (lot.code == code)
                return lot.kg;
        return 0.0;
    };
    CHECK(kg_of(early, "A-1") == Approx(300));
    CHECK(kg_of(late, "A-1") == Approx(50));
    CHECK(kg_of(late, "A-2") == Approx(140));
    CHECK(kg_of(late, "R-1") == 0);
    plant.undo();
    CHECK(plant.app().plan().expected.at(0).promised == "500 kg in 2 runs");
    CHECK(kg_of(early, "E-1") == Approx(300));
    CHECK(kg_of(early, "A-1") == 0);
}

TEST_CASE("An expected delivery is refused that is none, of another mill, or of a flour that is not here") {
    Dock plant;
    plant.expect("1000", "2026-11-26");
    const auto lot = plant.came("A-1");
    CHECK_THAT(plant.refused(TakeIn{{lot}, {}, for_expected("E-9")}),
               Contains("Expected delivery: \"E-9\" is not to come. Choose one of: E-1"));
    auto of_other = lot;
    of_other.mill = "Weir Mill";
    of_other.flour = "Rye";
    const auto words = plant.refused(TakeIn{{of_other}, {}, for_expected("E-1")});
    CHECK_THAT(words, Contains("E-1 is to come from Mill") &&
                          Contains("E-1 is to be Strong white, and no lot here is"));
    plant.done(TakeIn{{lot}, {}, for_expected("E-1")});
    CHECK_THAT(plant.refused(TakeIn{{plant.came("A-2")}, {}, for_expected("E-9")}),
               Contains("\"E-9\" is not to come"));
    CHECK(plant.deliveries().size() == 1);
}

TEST_CASE(
    "A weight outside the plant's tolerance needs a reason, which the journal keeps with both figures") {
    Dock plant;
    const auto lots = std::vector{plant.came("A-1", "5970")};
    plant.done(TakeIn{lots, {}, with_note("6000")}); // 0.5 %: inside
    auto late = plant.came("A-2", "5940");
    late.delivery_note = "4712";
    const auto why = plant.refused(TakeIn{{late}, {}, with_note("6000")});
    CHECK_THAT(why, Contains("Weight on the note: 5 940 kg of lots, 6 000 kg on the note: 1.0 % less"));
    CHECK_THAT(why, Contains("Why weights differ: is empty"));
    plant.done(ChangeSetting{"delivery_tolerance_pct", "1"});
    CHECK(plant.app().intake().weight_tolerance == 1);
    plant.done(TakeIn{{late}, {}, with_note("6000")});
    plant.done(ChangeSetting{"delivery_tolerance_pct", "0,2"});
    late = plant.came("A-3", "5970");
    late.delivery_note = "4713";
    plant.done(TakeIn{{late}, {}, with_note("6000", "the mill's bridge is being mended")});
    CHECK_THAT(plant.journal(),
               Contains("Weight let be: 5 970 kg of lots, 6 000 kg on the note: 0.50 % less; up to 0.2 % "
                        "is let be; because: the mill's bridge is being mended"));
    CHECK(plant.deliveries()[0].weight_reason == "the mill's bridge is being mended");
}

TEST_CASE("In a house of pounds the note is read in pounds, and the difference is told in them") {
    Dock plant;
    plant.done(ChangeSetting{"mass_unit", "lb"});
    // 5 000 kg are 11 023.1 lb.
    CHECK_THAT(plant.refused(TakeIn{{plant.came("A-1", "5000")}, {}, with_note("11100")}),
               Contains("11 023.1 lb of lots, 11 100 lb on the note: 0.69 % less"));
    plant.done(TakeIn{{plant.came("A-1", "5000")}, {}, with_note("11 023")});
    CHECK(plant.deliveries().at(0).on_note_kg == Approx(4999.948).margin(0.001));
}

TEST_CASE("What stays of a delivery joins it later, and only then the weight is held against the note") {
    Dock plant;
    plant.expect("3000", "2026-11-25");
    auto of = with_note("3000");
    of.said.expected = "E-1";
    of.rest = Rest::follows;
    plant.done(TakeIn{{plant.came("A-1")}, {}, of});
    CHECK(plant.app().intake().expected.size() == 1); // not all of it is here
    auto rest = for_expected("E-1");
    CHECK_THAT(plant.refused(TakeIn{{plant.came("A-2", "1500")}, {}, rest}),
               Contains("2 500 kg of lots, 3 000 kg on the note"));
    plant.done(TakeIn{{plant.came("A-2", "2000")}, {}, rest});
    CHECK_THAT(plant.said(), Contains("Delivery E-1 came as lots A-1, A-2"));
    REQUIRE(plant.deliveries().size() == 1);
    CHECK(plant.deliveries()[0].lots.size() == 2);
    CHECK(plant.app().intake().expected.empty());
    plant.undo(); // the second part alone
    CHECK(plant.deliveries()[0].lots.size() == 1);
    CHECK(plant.app().intake().expected.size() == 1);
}

TEST_CASE("Without a note the rest joins by the delivery that was taken in last") {
    Dock plant;
    auto first = plant.came("A-1"), second = plant.came("A-2");
    first.delivery_note = second.delivery_note = "";
    OfDelivery of;
    of.rest = Rest::follows;
    plant.done(TakeIn{{first}, {}, of});
    OfDelivery rest;
    rest.joins = plant.app().intake().came;
    plant.done(TakeIn{{second}, {}, rest});
    CHECK(plant.deliveries().size() == 1);
    auto third_lot = plant.came("A-3");
    third_lot.delivery_note = "";
    plant.done(TakeIn{{third_lot}});
    CHECK(plant.deliveries().size() == 2);
}

TEST_CASE("Everything against a delivery is said at once: lots, pallets and what is said of the whole") {
    Dock plant;
    auto bad = plant.on_pallets("A-1", {{"12", ""}});
    bad.mass_kg = "heavy";
    auto of = with_note("much");
    of.said.expected = "E-9";
    const auto why = plant.refused(TakeIn{{bad}, {}, of});
    CHECK_THAT(why, Contains("Weight: ") && Contains("Pallet 1: ") && Contains("Weight on the note: ") &&
                        Contains("Expected delivery: "));
}

TEST_CASE("Another station sees a delivery that is expected, and that it came") {
    Dock plant;
    App office({plant.book_path(), "Ines", Clock::standing_at(today)});
    plant.expect("1000", "2026-11-26", "PO-17");
    office.poll();
    REQUIRE(office.intake().expected.size() == 1);
    CHECK(office.intake().expected[0].order == "PO-17");
    plant.done(TakeIn{{plant.on_pallets("A-1", {{one, ""}})}, {}, for_expected("E-1")});
    office.poll();
    CHECK(office.intake().expected.empty());
    CHECK(office.deliveries("Mill", 5).size() == 1);
    // Decided anew on what the other one wrote: the pallet has come.
    auto late = plant.on_pallets("A-9", {{one, ""}});
    office.handle(TakeIn{{late}});
    CHECK(office.notice().kind == Notice::Kind::refused);
}

TEST_CASE("A pallet's number finds the lot that came on it, scanned or typed") {
    Dock plant;
    plant.done(TakeIn{{plant.on_pallets("A-1", {{one, ""}}), plant.came("A-2")}});
    for (const std::string words : {"(00)106141411234567897", "]C100106141411234567897", "106141411234567897",
                                    "1 0614141 123456789 7"}) {
        plant.done(OpenLot{plant.lot("A-2")});
        plant.done(Search{words});
        CHECK(plant.said() == "Lot A-1");
    }
    CHECK_THAT(plant.refused(Search{"(00)376104250021234569"}), Contains("no pallet of the book"));
    plant.done(Search{"(00)376104250021234569(10)A-2"}); // not known, but its lot is
    CHECK(plant.said() == "Lot A-2");
}

TEST_CASE("An order's number is typed with a delivery to come, and is one line") {
    Dock plant;
    plant.expect("1000", "2026-11-26", " PO-17 ");
    CHECK(plant.app().intake().expected.at(0).order == "PO-17");
    CHECK_THAT(plant.app().plan().expected.at(0).words, Contains("order PO-17"));
    CHECK_THAT(plant.refused(
                   ExpectDelivery{"Mill", "Strong white", "5", "2026-11-26", "", {}, std::string(90, '7')}),
               Contains("Order number: "));
    plant.open_again();
    CHECK(plant.app().intake().expected.at(0).order == "PO-17");
}
