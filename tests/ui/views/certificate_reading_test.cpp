#include "app/acts/certificates.h"
#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "core/certificate_source.h"
#include "dock_window.h"
#include "support/catch.h"
#include "ui/models/certificate.h"
#include "ui/views/whole_window.h"

#include <filesystem>
#include <fstream>

using namespace mellowbin;
using Catch::Matchers::Contains;
using test::WholeWindow;
using tests::DockWindow;
using tests::german_certificate;
using views::Screen;

namespace {

std::string value_in(const LotDraft& draft, Property property) {
    for (const auto& figure : draft.figures)
        if (figure.property == property)
            return figure.value;
    return {};
}

/// A window over a certificate that the test makes.
struct OverCertificate : WholeWindow {
    OverCertificate() : WholeWindow(Screen::intake) {
        intake.certificate = test::a_certificate();
        screen.resize(1600, 1400);
    }
};

} // namespace

TEST_CASE(
    "A pasted certificate is understood beside its source, asked about, and its lot joins the delivery") {
    DockWindow at;
    auto& screen = at.screen;
    screen.resize(1600, 2400);
    at.choose_origin();
    at.paste(german_certificate("M-2611-07"));
    CHECK(screen.says("Certificate as it was read"));
    CHECK(screen.says("Protein"));
    CHECK(screen.says("11,9"));
    CHECK_FALSE(screen.is_enabled("Take this lot over")); // protein has no basis yet
    const auto asked = at.plant.app().intake().certificate.asked;
    REQUIRE_FALSE(asked.empty());
    tests::answer_all_asked(at.plant.app());
    screen.settle();
    CHECK(screen.says("nothing is asked"));
    CHECK(screen.says("of Mill will be remembered"));
    screen.click("Take this lot over");
    CHECK_FALSE(screen.says("Certificate as it was read"));
    CHECK(at.at_hand().draft.code == "M-2611-07");
    CHECK(value_in(at.at_hand().draft, Property::protein) == "11.9");
    CHECK(source_named(at.at_hand().draft.certificate_source).kept.is_known());
    CHECK(at.screens->intake.certificate.pasted.empty());
}

TEST_CASE("A lot that was taken over is still there with its certificate when the window was killed") {
    DockWindow at;
    at.screen.resize(1600, 2400);
    at.choose_origin();
    at.paste(german_certificate("M-2611-07"));
    tests::answer_all_asked(at.plant.app());
    at.screen.settle();
    at.screen.click("Take this lot over");
    const auto before = at.at_hand().draft;
    at.kill_and_take_up();
    CHECK(at.at_hand().draft.code == "M-2611-07");
    CHECK(at.at_hand().draft.certificate_source == before.certificate_source);
    CHECK(at.at_hand().draft.certificate_place == before.certificate_place);
    at.put_away();
    at.screen.click("Take in 1 lot");
    INFO(at.plant.refusals());
    REQUIRE(at.plant.was_done());
    at.plant.app().handle(app::OpenLot{at.plant.lot("M-2611-07")});
    REQUIRE(at.plant.app().lots().opened);
    CHECK_THAT(at.plant.app().lots().opened->certificate_words, Contains("Pasted text"));
}

TEST_CASE(
    "A certificate that is looked at when the window is killed is read again, with what was said of it") {
    DockWindow at;
    at.screen.resize(1600, 2400);
    at.choose_origin();
    at.paste(german_certificate("M-2611-07", "Klebermenge neu\t28,4\t%\twie besehen\t\n"));
    at.screens->intake.certificate.labels = {{"klebermenge neu", "wet_gluten", "", "", "ICC 155", ""}};
    at.kill_and_take_up();
    CHECK(at.screen.says("Certificate as it was read"));
    CHECK(at.screen.says("Wet gluten"));
    at.screen.click("Put it aside");
    CHECK_THAT(at.screen.field_value("Text of the certificate"), Contains("Klebermenge neu"));
}

TEST_CASE("A lot that was scanned before its certificate is filled by it, and what was typed stays") {
    DockWindow at;
    auto& screen = at.screen;
    screen.resize(1600, 2400);
    at.choose_origin();
    screen.type("Scan or lot number", "M-2611-07");
    screen.press(ui::Key::enter);
    screen.type("Weight", "11 900");
    at.paste(german_certificate("M-2611-07"));
    tests::answer_all_asked(at.plant.app());
    screen.settle();
    screen.click("Take this lot over");
    CHECK(at.screens->intake.delivery.filled().size() == 1);
    CHECK(at.at_hand().draft.mass_kg == "11 900");
    CHECK(at.at_hand().draft.milled_on == "2026-11-20");
    CHECK(value_in(at.at_hand().draft, Property::falling_number) == "320");
}

TEST_CASE("A certificate of none of the delivery's lots is pointed out") {
    OverCertificate at;
    at.screens.intake.delivery.at_hand().draft.code = "W26-999";
    at.screen.settle();
    CHECK(at.screen.says("None of its lots is on the delivery's list"));
    at.screens.intake.delivery.at_hand().draft.code = "W26-151";
    at.screen.settle();
    CHECK_FALSE(at.screen.says("None of its lots is on the delivery's list"));
}

TEST_CASE("What is asked is answered beside its source, and can be asked again") {
    OverCertificate at;
    auto& screen = at.screen;
    CHECK(screen.says("At which moisture basis is the protein? (2 values wait for it)"));
    screen.click("basis:protein/Basis/14 % moisture");
    const auto& said = at.last<app::UnderstandCertificate>().said;
    REQUIRE(said.answers.size() == 1);
    CHECK(said.answers[0].question == "basis:protein");
    CHECK(said.answers[0].answer == "14 %");
    at.intake.certificate = test::an_understood_certificate();
    at.intake.certificate.made = 2;
    screen.settle();
    CHECK(screen.says("At which moisture basis is the protein? 14 % moisture"));
    screen.click("Ask it again");
    CHECK(at.last<app::UnderstandCertificate>().said.answers.empty());
}

TEST_CASE("What is asked is answered by keys alone") {
    OverCertificate at;
    auto& screen = at.screen;
    for (int presses = 0; presses < 40 && screen.focused() != "Basis"; ++presses)
        screen.press(ui::Key::tab);
    REQUIRE(screen.focused() == "Basis");
    screen.press(ui::Key::right);
    const auto& said = at.last<app::UnderstandCertificate>().said;
    REQUIRE(said.answers.size() == 1);
    CHECK(said.answers[0].answer == "as is");
}

TEST_CASE("A label is given another meaning, which takes its unit and basis along, and back") {
    OverCertificate at;
    auto& screen = at.screen;
    screen.click("Farbe/Change");
    screen.click("Farbe/Means/Means");
    screen.click("Wet gluten");
    REQUIRE(at.last<app::UnderstandCertificate>().said.labels.size() == 1);
    CHECK(at.last<app::UnderstandCertificate>().said.labels[0].label == "Farbe");
    CHECK(at.last<app::UnderstandCertificate>().said.labels[0].means == "wet_gluten");
    screen.click("Farbe/Basis/Basis");
    screen.click("Basis/dry matter");
    CHECK(at.last<app::UnderstandCertificate>().said.labels[0].basis == "dry matter");
    screen.type("Farbe/Method", "ICC 155");
    screen.click("Farbe/Done");
    CHECK(at.last<app::UnderstandCertificate>().said.labels[0].method == "ICC 155");
    CHECK(screen.says("as you said"));
    screen.click("Farbe/Change");
    screen.click("As it was understood");
    CHECK(at.last<app::UnderstandCertificate>().said.labels.empty());
}

TEST_CASE("What is wrong with a meaning is said at its field") {
    OverCertificate at;
    auto& screen = at.screen;
    screen.click("Protein (N x 5,7)/Change");
    screen.type("Nitrogen factor", "57");
    screen.click("Protein (N x 5,7)/Done");
    CHECK(at.last<app::UnderstandCertificate>().said.labels[0].nitrogen_factor == "57");
    screen.click("Protein (N x 5,7)/Change");
    at.tell(test::refused(1, {{"Protein (N x 5,7): Nitrogen factor", "57 was read", "From 5 to 7"}}));
    CHECK(screen.says("57 was read. From 5 to 7"));
    CHECK(screen.field_value("Nitrogen factor") == "57");
}

TEST_CASE("Lots with something against them are named by their cells, and the good ones can be taken alone") {
    OverCertificate at;
    auto& screen = at.screen;
    CHECK(screen.says("C8, Falling number"));
    CHECK_FALSE(screen.is_enabled("Take these 2 lots over"));
    at.intake.certificate.lots[0].questions = 0;
    at.intake.certificate.asked.clear();
    at.intake.certificate.labels[3].asked.clear();
    at.intake.certificate.good = 1;
    screen.settle();
    screen.click("Take the good ones, 1 of 2");
    CHECK(at.last<app::ConfirmCertificate>().faulty_lots == app::FaultyLines::leave_out);
    CHECK(at.last<app::ConfirmCertificate>().made == 1);
}

TEST_CASE("Every value of every lot is shown on request") {
    OverCertificate at;
    at.screen.click("Show all 13 values");
    CHECK(at.screen.says("Every value"));
    CHECK(at.screen.says("W26-150"));
    at.screen.click("Hide the values");
    CHECK(at.screen.offers("Show all 13 values"));
}

TEST_CASE(
    "A certificate that is being read says so and can be stopped; without a mill it is not taken over") {
    OverCertificate at;
    at.intake.certificate = {};
    at.intake.certificate.is_reading = true;
    at.intake.certificate.name = "harrow.pdf";
    at.screen.frame();
    at.screen.frame();
    CHECK(at.screen.says("Reading the certificate"));
    at.screen.click("Stop");
    CHECK_NOTHROW(at.last<app::PutCertificateAside>());
    at.intake.certificate = test::an_understood_certificate();
    at.intake.certificate.mill.clear();
    at.screen.settle();
    CHECK_FALSE(at.screen.is_enabled("Take this lot over"));
    CHECK(at.screen.says("choose the mill first"));
}

TEST_CASE("A file that is dropped while a certificate is looked at waits for it") {
    OverCertificate at;
    at.screen.settle();
    at.screens.drop_file("/srv/dock/tuesday.pdf");
    at.screen.settle();
    CHECK(at.did.empty());
    at.intake.certificate = {};
    at.screen.settle();
    CHECK(at.last<app::ReadCertificateFile>().path == "/srv/dock/tuesday.pdf");
}

TEST_CASE("The certificate a lot came with stands on its sheet and is saved as a file") {
    WholeWindow w(Screen::lots);
    w.lots.opened = test::a_sheet();
    w.screen.settle();
    CHECK_FALSE(w.screen.offers("Save the file as"));
    w.lots.opened->certificate_file = "harrow.xlsx";
    w.lots.opened->certificate_words = "harrow.xlsx, B3, kept 24 Nov 14:20 by Ines";
    w.screen.resize(1600, 2000);
    w.screen.settle();
    CHECK(w.screen.says("Certificate as it came: harrow.xlsx, B3, kept 24 Nov 14:20 by Ines"));
    w.screen.click("Save the file as");
    w.screen.type("File", "/home/ines/again.xlsx");
    w.screen.press(ui::Key::enter);
    CHECK(w.last<app::SaveCertificateSource>().path == "/home/ines/again.xlsx");
    CHECK(w.last<app::SaveCertificateSource>().lot == w.lots.opened->row.id);
    w.tell(test::refused(1, {{"File", "it is there already", "Name another"}}));
    CHECK(w.screen.says("it is there already"));
    CHECK(w.screen.field_value("File") == "/home/ines/again.xlsx");
    w.screen.click("Save the file");
    w.tell(test::done(2, "harrow.xlsx written"));
    CHECK(w.screen.offers("Save the file as"));
}
