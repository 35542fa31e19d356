#include "app/acts/climate.h"
#include "support/catch.h"
#include "ui/views/whole_window.h"
#include "ui/widgets/laid_out.h"

using namespace mellowbin;
using test::WholeWindow;
using views::Screen;

namespace {

struct StorageShown : WholeWindow {
    StorageShown() : WholeWindow(Screen::settings) { screen.click("Storage"); }
};

} // namespace

TEST_CASE("A place says what is assumed of its climate and what was measured") {
    StorageShown o;
    CHECK(o.screen.value_of("Bay 2/Assumed") == "18 °C, 60 %");
    CHECK(o.screen.value_of("Bay 2/Measured") == "3 Jun to 24 Nov: 4 104 readings, 2 gaps, longest 31 h");
    CHECK(o.screen.value_of("Silo 1/Measured") == "nothing yet");
    CHECK(o.screen.says("2 880 readings, 4 set aside: -999 °C · Ines"));
    CHECK(o.screen.says("Taken back · 1 224 readings · Tomas"));
}

TEST_CASE("A plant without places says so") {
    StorageShown o;
    o.settings.places.clear();
    o.screen.settle();
    CHECK(o.screen.says("The plant has no places yet."));
}

TEST_CASE("A logger's file is read for a place once both are given") {
    StorageShown o;
    auto& screen = o.screen;
    CHECK_FALSE(screen.is_enabled("Read the logger's file"));
    CHECK(screen.says("Give the file"));
    screen.type("Logger's file", "/home/ines/bay2.csv");
    CHECK(screen.says("Choose the place"));
    screen.click("Place/Bay 2");
    screen.click("Read the logger's file");
    CHECK(o.last<app::ReadClimateLog>().path == "/home/ines/bay2.csv");
    CHECK(o.last<app::ReadClimateLog>().place == "Bay 2");
    o.tell(test::done(1, "bay2.csv read for Bay 2"));
    CHECK(screen.value_of("Logger's file").empty());
}

TEST_CASE("Lines set aside of the file read last are counted and listed with what was read and why") {
    StorageShown o;
    CHECK_FALSE(o.screen.says("Lines set aside"));
    o.settings.log_read = {"bay2.csv",
                           "Bay 2",
                           {{4, "Temperature °C: \"-999\"", "no reading; from -40 to 60 °C is expected"},
                            {812, "Time: \"yesterday\"", "no time"}},
                           2,
                           {"1 line repeated another"}};
    o.screen.settle();
    CHECK(o.screen.says("2 lines set aside"));
    CHECK(o.screen.says("bay2.csv, read for Bay 2"));
    CHECK(o.screen.value_of("Lines set aside") == "2 rows");
    CHECK(test::tells(o.screen, "4 | Temperature °C: \"-999\" | no reading; from -40 to 60 °C is expected"));
    CHECK(test::tells(o.screen, "812 | Time: \"yesterday\" | no time"));
    CHECK(test::tells(o.screen, "1 line repeated another"));
}

TEST_CASE("A refused file keeps its path, with every reason") {
    StorageShown o;
    auto& screen = o.screen;
    screen.type("Logger's file", "bay2.csv");
    screen.click("Place/Silo 1");
    screen.type("Logger's file", "bay2_new.csv");
    screen.press(ui::Key::enter);
    CHECK(o.last<app::ReadClimateLog>().place == "Silo 1");
    o.tell(test::refused(1, {{"Logger's file", "cannot be opened", "Check the path"},
                             {"Line 12", "\"warm\" was read; a temperature is expected", "Mend it"}}));
    CHECK(screen.value_of("Logger's file") == "bay2_new.csv");
    CHECK(screen.find("cannot be opened. Check the path").kind == ui::Kind::refusal);
    CHECK(screen.says("Line 12: \"warm\" was read; a temperature is expected. Mend it"));
    o.tell(test::failed(2));
    CHECK(screen.value_of("Logger's file") == "bay2_new.csv");
}

namespace {

/// A file was sent that something stands against.
struct Asked : StorageShown {
    Asked() {
        screen.type("Logger's file", "bay2.csv");
        screen.click("Place/Bay 2");
        screen.click("Read the logger's file");
        tell(test::refused(1, {{"Sensor", "does not move: 21.50 °C in each of 193 readings",
                                "Look whether the logger is well, or say why it counts"},
                               {"Why take it in all the same", "is empty",
                                "Say it in a few words, or leave the file out"}}));
    }
};

} // namespace

TEST_CASE(
    "A file that something stands against is asked about with what was seen, and is read for a reason") {
    Asked o;
    auto& screen = o.screen;
    CHECK(screen.says("Something stands against this file"));
    CHECK(screen.says("Sensor: does not move: 21.50 °C in each of 193 readings"));
    CHECK(screen.says("Look whether the logger is well, or say why it counts."));
    CHECK_FALSE(screen.offers("Read the logger's file"));
    CHECK_FALSE(screen.is_enabled("Take it in all the same"));
    screen.type("Why take it in all the same", "the room is kept at it");
    screen.click("Take it in all the same");
    CHECK(o.last<app::ReadClimateLog>().path == "bay2.csv");
    CHECK(o.last<app::ReadClimateLog>().place == "Bay 2");
    CHECK(o.last<app::ReadClimateLog>().accept_reason == "the room is kept at it");
    o.tell(test::done(2, "bay2.csv read for Bay 2"));
    CHECK_FALSE(screen.says("Something stands against this file"));
    CHECK(screen.value_of("Logger's file").empty());
    screen.type("Logger's file", "other.csv");
    screen.click("Read the logger's file");
    CHECK(o.last<app::ReadClimateLog>().accept_reason.empty()); // the reason was for that file
}

TEST_CASE("A file that is left out after the question is not read, and the question goes") {
    Asked o;
    const auto sent = o.last<app::ReadClimateLog>().accept_reason;
    o.screen.type("Why take it in all the same", "perhaps");
    o.screen.click("Leave the file out");
    CHECK_FALSE(o.screen.says("Something stands against this file"));
    CHECK(o.last<app::ReadClimateLog>().accept_reason == sent); // nothing further was sent
    CHECK(o.screen.offers("Read the logger's file"));
}

TEST_CASE("The question is about the file and place that were read: another one is read without its reason") {
    Asked o;
    auto& screen = o.screen;
    screen.type("Why take it in all the same", "the room is kept at it");
    screen.click("Place/Silo 1");
    CHECK_FALSE(screen.says("Something stands against this file"));
    screen.click("Read the logger's file");
    CHECK(o.last<app::ReadClimateLog>().place == "Silo 1");
    CHECK(o.last<app::ReadClimateLog>().accept_reason.empty());
}

TEST_CASE("A logger's file is taken back after a question, with the reason; one taken back is not offered") {
    StorageShown o;
    auto& screen = o.screen;
    CHECK_FALSE(screen.offers("Bay 2/1/Take back"));
    screen.click("Bay 2/3/Take back");
    CHECK(screen.says("Take this logger's file back?"));
    CHECK(screen.says("bay2_autumn.csv, read for Bay 2"));
    screen.type("Reason", "logger hung in the oven room");
    screen.press(ui::Key::enter);
    CHECK(o.last<app::WithdrawClimateLog>().log == ClimateLogId{3});
    CHECK(o.last<app::WithdrawClimateLog>().reason == "logger hung in the oven room");
}
