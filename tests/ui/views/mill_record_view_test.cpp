#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/mills.h"
#include "support/catch.h"
#include "ui/models/mills.h"
#include "ui/views/plant_window.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using test::WholeWindow;
using tests::PlantWindow;
using views::Screen;

namespace {

/// The record of the plant's mill, of which one lot came in this year.
struct OpenedRecord : PlantWindow {
    OpenedRecord() {
        plant.app().handle(app::TakeIn{{plant.draft("W24-118")}});
        REQUIRE(plant.was_done());
        put_away();
        screens.plant.show_record(MillId{row(PlantKind::mill, "Mill").record.number});
        screen.settle();
        screen.click("Record");
        put_away();
    }
    const app::MillRecordModel& record() {
        REQUIRE(plant.app().plant().mill_record);
        return *plant.app().plant().mill_record;
    }
    void log_complaint() {
        screen.click("Log a complaint");
        screen.type("New complaint/Lot", "w24-118");
        screen.type("New complaint/Subject", "Bags");
        screen.type("New complaint/Complaint", "wet at one corner");
        screen.type("New complaint/Weight", "25,5");
        screen.click("Keep the complaint");
        REQUIRE(plant.was_done());
        put_away();
    }
};

/// Also below what is in view.
bool stands_in(const testing::Screen& screen, std::string_view words) {
    const auto& notes = screen.probe().notes();
    return std::any_of(notes.begin(), notes.end(), [&](const auto& note) {
        return note.label.find(words) != std::string::npos || note.value.find(words) != std::string::npos;
    });
}

/// Harrow Mill's, over read-models that are set.
struct ShownRecord : WholeWindow {
    ShownRecord() : WholeWindow(Screen::plant) {
        plant.mill_record = test::a_mill_record();
        screens.plant.show_record(MillId{1});
        screen.settle();
    }
};

} // namespace

TEST_CASE("A mill's record is asked for when its page is looked at, and put away with it") {
    OpenedRecord at;
    CHECK(at.record().lots == 1);
    CHECK(at.screen.value_of("Tested by ourselves") == "0 of 1");
    at.screen.click("Form");
    CHECK_FALSE(at.plant.app().plant().mill_record);
    CHECK(at.screen.offers("Keep Mill"));
    at.screen.click("Record");
    CHECK(at.plant.app().plant().mill_record);
    at.screens.show(Screen::readiness);
    at.screen.settle();
    CHECK_FALSE(at.plant.app().plant().mill_record);
    at.screens.show(Screen::plant);
    at.screen.settle();
    CHECK(at.record().lots == 1);
}

TEST_CASE("Other days are shown as they are typed; days that are none stay, with the reason beside them") {
    OpenedRecord at;
    at.screen.type("Days/From", "2024-01-01");
    at.screen.type("Days/To", "2024-12-31");
    at.screen.press(ui::Key::enter);
    CHECK(at.record().lots == 0);
    CHECK(stands_in(at.screen, "2024-01-01 to 2024-12-31"));
    at.screen.type("Days/From", "soon");
    at.screen.click("Show these days");
    CHECK(at.plant.was_refused());
    CHECK_THAT(at.refusals(), Contains("\"soon\" was read"));
    CHECK(at.screen.field_value("Days/From") == "soon");
    CHECK(at.record().query.from == day_from_iso("2024-01-01")); // what was shown is shown
}

TEST_CASE("A complaint is logged as typed, answered, opened again and withdrawn, each from its own line") {
    OpenedRecord at;
    at.log_complaint();
    REQUIRE(at.record().open == 1);
    CHECK_FALSE(at.screen.offers("Keep the complaint")); // the form is empty and closed
    CHECK(at.record().complaints[0].kg == Approx(25.5));
    CHECK(stands_in(at.screen, "Open: Bags, lot W24-118, 25.5 kg: wet at one corner"));
    at.screen.click("Write the answer down");
    CHECK(at.screen.focused() == "Answer");
    at.screen.type("Answer/Answer", "new bags from July on");
    at.screen.click("Keep the answer");
    CHECK(at.record().answered == 1);
    CHECK_FALSE(at.screen.offers("Keep the answer"));
    at.put_away();
    CHECK(stands_in(at.screen, "new bags from July on"));
    at.screen.click("Take the answer back");
    CHECK(at.screen.says("Take this answer back?"));
    at.screen.type("Reason", "of another mill");
    at.screen.press(ui::Key::enter);
    CHECK(at.record().open == 1);
    at.put_away();
    at.screen.click("Withdraw");
    CHECK(at.screen.says("Withdraw this complaint?"));
    at.screen.type("Reason", "our own fault");
    at.screen.press(ui::Key::enter);
    CHECK(at.record().open == 0);
    CHECK(at.record().complaints[0].is_withdrawn);
    CHECK_FALSE(at.screen.offers("Withdraw"));
}

TEST_CASE("A complaint that cannot be is refused at its fields, and all stays as typed") {
    OpenedRecord at;
    at.screen.click("Log a complaint");
    CHECK(at.screen.focused() == "Lot");
    at.screen.type("New complaint/Lot", "W9");
    at.screen.type("New complaint/Weight", "much");
    at.screen.click("Keep the complaint");
    CHECK(at.plant.was_refused());
    CHECK_THAT(at.refusals(), Contains("Mill has no lot \"W9\"") && Contains("\"much\" was read") &&
                                  Contains("is empty, and no property is chosen") &&
                                  Contains("Say what is held against the mill"));
    CHECK(at.screen.field_value("New complaint/Lot") == "W9");
    CHECK(at.screen.field_value("New complaint/Weight") == "much");
    CHECK(at.record().complaints.empty());
}

TEST_CASE("What another station complains about is on the page in the next frame, with who it was") {
    OpenedRecord at;
    at.office.poll();
    at.office.handle(app::LogComplaint{at.record().query.mill, {"", "", "Papers", "never sent", "", ""}});
    REQUIRE(at.office.notice().kind == app::Notice::Kind::done);
    at.screen.settle();
    CHECK(stands_in(at.screen, "Papers: never sent"));
    CHECK(stands_in(at.screen, "Ines"));
}

TEST_CASE("The record tells in words what is out, what differs, what is late and what went back") {
    ShownRecord at;
    at.screen.resize(2600, 1600);
    at.screen.settle();
    for (const char* words :
         {"By certificate: 18 inside, 2 outside: Protein in 2 of 20; 1 without a figure to compare",
          "By own tests: 7 inside, 1 outside: Falling number in 1 of 8",
          "Own tests of the next lots (ISO 2859-1, from memory): tightened since W26-120",
          "Protein: own tests are lower by 0.31 %, more than twice the standard error, 0.06 %",
          "Falling number: too few to say: 3 of 5 lots", "Overdue: E-14: 24000 kg Strong white",
          "2026-11-14: 12 000 kg of lot W26-118, protein far below, R-7", "21 to 24 of 24, the newest first",
          "changed 04:12, Tomas"}) {
        INFO(words);
        CHECK(stands_in(at.screen, words));
    }
    CHECK(at.screen.value_of("On time") == "9 of 11");
    CHECK(at.screen.value_of("Tested by ourselves") == "8 of 24");
    CHECK(at.screen.value_of("Complaints open") == "1");
    CHECK(at.screen.value_of("W26-038").find("11.2") != std::string::npos);
    CHECK(at.screen.value_of("W26-040").find("12.1") != std::string::npos);
}

TEST_CASE("The lots are turned a page at a time, and one of them is opened by Enter") {
    ShownRecord at;
    CHECK_FALSE(at.screen.is_enabled("Older lots"));
    at.screen.click("Newer lots");
    CHECK(at.last<app::ShowMillRecord>().page == 0);
    CHECK(at.last<app::ShowMillRecord>().mill == MillId{1});
    at.screen.click("W26-031");
    at.screen.press(ui::Key::enter);
    CHECK(at.last<app::OpenFound>().lot == LotId{403});
}

TEST_CASE("A lot's sheet leads to its mill's record, and says what the plan of own tests asks for") {
    WholeWindow at(Screen::lots);
    at.lots.opened = test::a_sheet();
    at.screen.settle();
    CHECK_FALSE(at.screen.offers("Record of this mill")); // whose mill is not known
    at.lots.opened->mill = MillId{1};
    at.lots.opened->own_test = {"Test this lot, 2 samples: tightened since W26-120",
                                "ISO 2859-1, from memory", true};
    at.screen.settle();
    CHECK(stands_in(at.screen, "Test this lot, 2 samples: tightened since W26-120"));
    CHECK(stands_in(at.screen, "By your plan of own tests, ISO 2859-1, from memory. It releases nothing"));
    at.screen.click("Record of this mill");
    CHECK(at.screens.current() == Screen::plant);
    CHECK(at.last<app::ShowMillRecord>().mill == MillId{1});
    CHECK(at.screen.is_chosen("Record"));
}

TEST_CASE(
    "Intake asks whether a lot is to be tested once mill, flour and number are typed, and only with a plan") {
    WholeWindow at(Screen::intake);
    const auto asked = [&] {
        std::size_t count = 0;
        for (const auto& intent : at.did)
            count += intent.as<app::AskWhetherToTest>() ? 1 : 0;
        return count;
    };
    auto& draft = at.screens.intake.delivery.at_hand().draft;
    draft.mill = "Harrow Mill";
    draft.flour = "Strong white";
    draft.code = "W26-140";
    at.screen.settle();
    CHECK(asked() == 0);
    at.intake.has_test_plan = true;
    at.screen.settle();
    REQUIRE(asked() == 1);
    CHECK(at.last<app::AskWhetherToTest>() ==
          app::AskWhetherToTest{"Harrow Mill", "Strong white", "W26-140"});
    at.intake.own_test = {"Test this lot, 2 samples: tightened since W26-120", "ISO 2859-1, from memory",
                          true};
    at.screen.settle();
    CHECK(asked() == 1); // once
    CHECK(at.screen.says("Test this lot, 2 samples: tightened since W26-120 (ISO 2859-1, from memory)"));
    at.screens.intake.delivery.at_hand().draft.code = "";
    at.screen.settle();
    REQUIRE(asked() == 2);
    CHECK(at.last<app::AskWhetherToTest>().code.empty());
    CHECK_FALSE(at.screen.says("Test this lot"));
    at.screens.intake.delivery.at_hand().draft.code = "W26-141";
    at.screen.settle();
    CHECK(asked() == 3);
    at.screens.show(Screen::lots);
    at.screen.settle();
    CHECK(asked() == 4); // put away
}
