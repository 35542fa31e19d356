#include "app/acts/begun.h"
#include "app/acts/intake.h"
#include "support/catch.h"
#include "support/iso.h"
#include "ui/views/intake_typing.h"
#include "ui/views/kept.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using test::type_whole_lot;
using test::WholeWindow;
using views::Screen;

namespace {

// Of GS1's own examples.
constexpr const char *one = "106141411234567897", *other = "376104250021234569";

ExpectedDelivery expected(int id, const char* arrives, std::int64_t kg, const char* order = "") {
    ExpectedDelivery delivery;
    delivery.id = ExpectedId{id};
    delivery.code = "E-" + std::to_string(id);
    delivery.mill = MillId{1};   // Harrow Mill
    delivery.flour = FlourId{1}; // Strong white
    delivery.mass = Grams{kg * 1000};
    delivery.arrives = day_from_iso(arrives);
    delivery.milled = day_from_iso("2026-11-18");
    delivery.order = order;
    return delivery;
}

/// A dock at which two deliveries of Harrow Mill are to come, one of them under an order.
struct Dock : WholeWindow {
    Dock() : WholeWindow(Screen::intake) {
        intake.expected = {expected(1, "2026-11-20", 5'000), expected(2, "2026-11-27", 12'000, "PO-17")};
        screen.resize(1280, 1600);
    }
    void choose(std::string_view field, std::string_view word) {
        screen.click(field);
        screen.click(word);
    }
    /// The application read a label.
    void scan(const LotDraft& label, const std::string& order = "") {
        intake.label = label;
        intake.pallet.order = order;
        ++intake.labels;
        screen.settle();
    }
    LotDraft label(const std::string& lot, const std::string& sscc, const std::string& kg) {
        LotDraft draft;
        draft.code = lot;
        draft.mass_kg = kg;
        draft.pallets = {{sscc, kg}};
        return draft;
    }
    [[nodiscard]] const DeliveryDraft& said() const { return screens.intake.form.draft; }
};

} // namespace

TEST_CASE("Deliveries of the chosen mill are offered, the nearest day first, and none is chosen by itself") {
    Dock dock;
    auto& screen = dock.screen;
    CHECK_FALSE(screen.says("Expected "));
    dock.choose("Mill", "Harrow Mill");
    CHECK(screen.says("Expected Fri 27 Nov: 12 000 kg Strong white, 0 kg here"));
    CHECK(screen.says("Expected Fri 20 Nov: 5 000 kg Strong white"));
    CHECK(screen.find("It is E-2").rect.top < screen.find("It is E-1").rect.top);
    CHECK(dock.said().expected.empty());
    dock.choose("Mill", "Kestrel Mill");
    CHECK_FALSE(screen.says("Expected "));
    dock.choose("Mill", "Harrow Mill");
    dock.choose("1/Flour/Flour", "Hearth");
    CHECK_FALSE(screen.says("Expected "));
    dock.choose("1/Flour/Flour", "Strong white");
    screen.type("Delivered on", "2026-11-12");
    CHECK_FALSE(screen.says("Expected Fri 27 Nov"));
    dock.intake.match_days = 20;
    screen.settle();
    CHECK(screen.says("Expected Fri 20 Nov"));
    CHECK(screen.says("Expected Fri 27 Nov"));
}

TEST_CASE("One key or one press takes it, and what it says fills empty fields only") {
    Dock dock;
    auto& screen = dock.screen;
    screen.type("Lot number", "W26-150");
    dock.choose("Mill", "Harrow Mill");
    screen.type("Milled on", "2026-11-19");
    screen.press(ui::Key::f8);
    CHECK(dock.said().expected == "E-2");
    CHECK(screen.says("E-2: Expected Fri 27 Nov: 12 000 kg Strong white"));
    CHECK(screen.value_of("1/Flour/Flour") == "Strong white");
    CHECK(screen.value_of("Milled on") == "2026-11-19");
    screen.click("Next lot");
    screen.type("Lot number", "W26-151");
    screen.settle();
    CHECK(screen.value_of("Milled on") == "2026-11-18"); // as expected
    screen.type("Milled on", "");
    screen.click("Weight");
    CHECK(screen.value_of("Milled on").empty()); // filled once
    screen.type("Weight", "11 900");
    screen.click("Take in 2 lots");
    CHECK(dock.last<app::TakeIn>().delivery.said.expected == "E-2");
}

TEST_CASE("Where it was another one, what it filled goes and what was typed stays") {
    Dock dock;
    auto& screen = dock.screen;
    screen.type("Lot number", "W26-150");
    dock.choose("Mill", "Harrow Mill");
    screen.click("It is E-1");
    CHECK(screen.value_of("1/Flour/Flour") == "Strong white");
    CHECK(screen.value_of("Milled on") == "2026-11-18");
    screen.type("Milled on", "2026-11-17");
    screen.click("It is another one");
    CHECK(dock.said().expected.empty());
    CHECK(screen.value_of("Milled on") == "2026-11-17");
    CHECK_FALSE(screen.value_of("1/Flour/Flour") == "Strong white");
    CHECK(screen.value_of("Mill") == "Harrow Mill");
    CHECK(screen.offers("It is E-2"));
}

TEST_CASE("One that another station took in meanwhile is said to come no more") {
    Dock dock;
    dock.choose("Mill", "Harrow Mill");
    dock.screen.click("It is E-2");
    dock.intake.expected.pop_back();
    dock.screen.settle();
    CHECK(dock.screen.says("E-2 is to come no more"));
    dock.screen.click("It is another one");
    CHECK(dock.screen.offers("It is E-1"));
}

TEST_CASE("A label's order number chooses its delivery, and says so; one that is not known chooses none") {
    {
        Dock dock;
        dock.scan(dock.label("W26-150", one, "500"), "PO-99");
        CHECK(dock.said().expected.empty());
        CHECK(dock.said().order == "PO-99");
    }
    Dock at;
    at.scan(at.label("W26-150", one, "500"), "PO-17");
    CHECK(at.said().expected == "E-2");
    CHECK(at.said().order == "PO-17");
    CHECK(at.screen.says("order PO-17 is E-2"));
    CHECK(at.screen.says("by its order PO-17"));
    CHECK(at.screen.value_of("Mill") == "Harrow Mill");
    at.scan(at.label("W26-151", other, "500"), "PO-18");
    CHECK(at.screen.says("it is of order PO-18, and the delivery of PO-17"));
    CHECK(at.said().order == "PO-17");
}

TEST_CASE("Another pallet of a lot adds itself and its weight, and says what it added") {
    Dock dock;
    auto& screen = dock.screen;
    dock.scan(dock.label("W26-150", one, "500"));
    CHECK(screen.says("W26-150 read"));
    CHECK(screen.says("1st pallet of the lot"));
    CHECK(screen.value_of("Weight") == "500");
    dock.scan(dock.label("W26-150", other, "510.5"));
    CHECK(screen.says("W26-150; 2nd pallet of the lot, 510.5 kg added: 1 010.5 kg"));
    CHECK(screen.value_of("Weight") == "1010.5");
    CHECK(screen.offers("2 pallets"));
    CHECK(screen.says("1 lot, 1 010.5 kg, 2 pallets"));
    REQUIRE(dock.screens.intake.delivery.lines().size() == 1);
    CHECK(dock.screens.intake.delivery.at_hand().draft.pallets.size() == 2);
}

TEST_CASE("A weight that a person typed for the whole lot is not added to") {
    Dock dock;
    dock.screen.type("Lot number", "W26-150");
    dock.screen.type("Weight", "12 000");
    dock.scan(dock.label("W26-150", one, "500"));
    CHECK(dock.screen.value_of("Weight") == "12 000");
    CHECK(dock.screen.says("the weight stays as it is"));
    CHECK(dock.screens.intake.delivery.at_hand().draft.pallets.size() == 1);
}

TEST_CASE("A pallet that stands in the delivery is told as scanned already, and its lot is taken up") {
    Dock dock;
    dock.scan(dock.label("W26-150", one, "500"));
    dock.scan(dock.label("W26-151", other, "500"));
    dock.scan(dock.label("W26-150", one, "500"));
    CHECK(dock.screen.says("Pallet 1061 4141 1234 5678 97 was scanned already: it is with lot W26-150"));
    CHECK(dock.screen.value_of("Lot number") == "W26-150");
    CHECK(dock.screen.value_of("Weight") == "500");
    CHECK(dock.screens.intake.delivery.at_hand().draft.pallets.size() == 1);
}

TEST_CASE("A label with a pallet alone is of the lot at hand") {
    Dock dock;
    dock.screen.type("Lot number", "W26-150");
    dock.scan(dock.label("", one, "500"));
    CHECK(dock.screen.says("W26-150; 1st pallet of the lot, 500 kg"));
    CHECK(dock.screen.value_of("Lot number") == "W26-150");
    CHECK(dock.screen.value_of("Weight") == "500");
}

TEST_CASE("A pallet's number typed by hand has its check digit looked at, at its own field") {
    Dock dock;
    auto& screen = dock.screen;
    type_whole_lot(screen, "W26-150");
    screen.click("Pallets");
    screen.click("Add a pallet");
    screen.type("Pallet 1", "106141411234567890");
    screen.type("Pallet 1: weight", "500");
    CHECK(screen.says("the check digit of \"106141411234567890\" is wrong: 7 is expected"));
    CHECK(screen.says("1 to mend: pallet 1"));
    screen.type("Pallet 1", "1 0614141 123456789 7");
    CHECK_FALSE(screen.says("check digit"));
    screen.click("Take in 1 lot");
    CHECK(dock.last<app::TakeIn>().lots.at(0).pallets.at(0).kg == "500");
    dock.tell(test::refused(
        1, {{"Pallet 1", "1061 4141 1234 5678 97 came before: on 2026-11-20", "Take it off the list"}}));
    CHECK(screen.says("came before: on 2026-11-20"));
    screen.click("Off");
    CHECK_FALSE(screen.says("came before"));
    CHECK_FALSE(screen.offers("Pallet 1"));
}

TEST_CASE(
    "The weight on the note stands beside the lots; too much is said at once, too little when they come in") {
    Dock dock;
    auto& screen = dock.screen;
    type_whole_lot(screen, "W26-150"); // 1 000 kg
    screen.type("Weight on the note", "2 000");
    CHECK(screen.says("1 000 kg of lots, 2 000 kg on the note: 50.0 % less"));
    CHECK_FALSE(screen.offers("Why weights differ"));
    screen.type("Weight", "2100");
    CHECK(screen.says("2 100 kg of lots, 2 000 kg on the note: 5.0 % more; up to 0.5 % is let be"));
    CHECK(screen.offers("Why weights differ"));
    screen.type("Weight", "1900");
    CHECK_FALSE(screen.offers("Why weights differ"));
    screen.click("Take in 1 lot");
    const auto& act = dock.last<app::TakeIn>();
    CHECK(act.delivery.said.on_note == "2 000");
    CHECK(act.delivery.rest == Rest::none);
    dock.tell(test::refused(
        1, {{"Weight on the note", "1 900 kg of lots, 2 000 kg on the note: 5.0 % less", "Correct it"},
            {"Why weights differ", "is empty", "Say it in a few words"}}));
    CHECK(screen.says("1 900 kg of lots, 2 000 kg on the note: 5.0 % less; up to 0.5 % is let be"));
    screen.type("Why weights differ", "a short truck");
    screen.click("Take in 1 lot");
    CHECK(dock.last<app::TakeIn>().delivery.said.weight_reason == "a short truck");
    dock.intake.taken_in = 1;
    dock.tell(test::done(2, "Lot W26-150 taken in"));
    CHECK(dock.said() == DeliveryDraft());
}

TEST_CASE("In a house of pounds the note is typed and told in pounds") {
    Dock dock;
    dock.intake.records.units = HouseUnits("lb", "°F");
    auto& screen = dock.screen;
    type_whole_lot(screen, "W26-150"); // 1 000 kg are 2 204.6 lb
    screen.type("Weight on the note", "2 300");
    CHECK(screen.find("Weight on the note").unit == "lb");
    CHECK(screen.says("2 204.6 lb of lots, 2 300 lb on the note: 4.1 % less"));
}

TEST_CASE("What stays of a delivery remembers what of it came in, and joins that") {
    Dock dock;
    auto& screen = dock.screen;
    type_whole_lot(screen, "W26-150");
    screen.type("Weight on the note", "2 000");
    screen.click("Next lot");
    screen.type("Lot number", "W26-151");
    screen.click("Take in 1 of 2");
    CHECK(dock.last<app::TakeIn>().delivery.rest == Rest::follows);
    dock.intake.taken_in = 1;
    dock.intake.came = DeliveryId{7};
    dock.intake.came_kg = 1000;
    dock.tell(test::done(1, "Lot W26-150 taken in"));
    screen.type("Weight", "1 000");
    CHECK(screen.says("2 000 kg of lots, 2 000 kg on the note: the same"));
    screen.click("Take in 1 lot");
    CHECK(dock.last<app::TakeIn>().delivery.joins == DeliveryId{7});
    CHECK(dock.last<app::TakeIn>().delivery.said.on_note == "2 000");
}

TEST_CASE("A delivery put aside goes to the book letter by letter, and the form is empty when it is there") {
    Dock dock;
    auto& screen = dock.screen;
    CHECK_FALSE(screen.offers("Put aside"));
    type_whole_lot(screen, "W26-150");
    screen.type("Weight on the note", "2 0O0");
    screen.click("Next lot");
    screen.type("Lot number", "W26-151");
    screen.click("Put aside");
    const auto& act = dock.last<app::PutDeliveryAside>();
    CHECK(act.how_far == "2 lots of Harrow Mill, 1 of them whole");
    CHECK_FALSE(act.from.is_held());
    const auto text = act.text;
    CHECK(screen.value_of("Lot number") == "W26-151"); // not before it is in the book
    dock.intake.put_aside = 1;
    dock.tell(test::done(1, "Delivery put aside"));
    CHECK(screen.value_of("Lot number").empty());
    CHECK(screen.value_of("Delivered on") == "2026-11-25");
    CHECK(dock.said() == DeliveryDraft());

    dock.intake.taken_over = {1, {BegunId{3}, 1}, text};
    screen.settle();
    CHECK(screen.value_of("Lot number") == "W26-151");
    CHECK(screen.value_of("Weight on the note") == "2 0O0");
    CHECK(dock.screens.intake.delivery.lines().size() == 2);
    screen.click("Put aside");
    CHECK(dock.last<app::PutDeliveryAside>().from == BegunHold{BegunId{3}, 1});
    CHECK(dock.last<app::PutDeliveryAside>().text.fields.at("lots/0/draft/code") == "W26-150");
}

TEST_CASE(
    "Deliveries that others began are listed, one press goes on with one, and not over what is typed here") {
    Dock dock;
    auto& screen = dock.screen;
    dock.intake.begun = {
        {BegunId{3}, 0, "Begun by Jonas, 04:12: 3 lots of Harrow Mill", ""},
        {BegunId{4}, 2, "Begun by Joris, 03:50: 1 lot of Weir Mill", "Ines has it since 04:20, at Office"}};
    screen.settle();
    CHECK(screen.says("Begun by Jonas, 04:12: 3 lots of Harrow Mill"));
    CHECK_FALSE(screen.says("Begun by Joris"));
    screen.click("1 more begun");
    CHECK(screen.says("Ines has it since 04:20, at Office"));
    screen.click("Go on with it");
    CHECK(dock.last<app::TakeOverDelivery>().delivery == BegunId{3});
    CHECK(dock.last<app::TakeOverDelivery>().from == TakeFrom::where_it_waits);
    screen.click("Take it over all the same");
    CHECK(dock.last<app::TakeOverDelivery>().delivery == BegunId{4});
    CHECK(dock.last<app::TakeOverDelivery>().from == TakeFrom::whoever_has_it);
    screen.click("Throw away");
    CHECK(dock.last<app::ThrowBegunAway>().delivery == BegunHold{BegunId{3}, 0});
    screen.type("Lot number", "W26-150");
    CHECK_FALSE(screen.is_enabled("Go on with it"));
    CHECK(screen.says("Put aside what is typed first"));
}

TEST_CASE(
    "What was taken over is off the list here, goes with the lots, and ends when nothing of it is left") {
    Dock dock;
    auto& screen = dock.screen;
    dock.intake.begun = {
        {BegunId{3}, 1, "Begun by Jonas, 04:12: 1 lot of Harrow Mill", "Ines has it since 04:20"}};
    dock.intake.taken_over = {
        1,
        {BegunId{3}, 1},
        {{"a delivery"}, {{"lots", "1"}, {"lots/0/number", "1"}, {"lots/0/draft/code", "W26-150"}}}};
    screen.settle();
    CHECK_FALSE(screen.says("Begun by Jonas"));
    CHECK(screen.value_of("Lot number") == "W26-150");
    screen.click("Take in 1 lot");
    CHECK(dock.last<app::TakeIn>().delivery.begun == BegunHold{BegunId{3}, 1});
    screen.click("Take off the list");
    screen.click("Take it off");
    CHECK(dock.last<app::ThrowBegunAway>().delivery == BegunHold{BegunId{3}, 1});
    CHECK_FALSE(dock.screens.intake.form.begun.is_held());
}
