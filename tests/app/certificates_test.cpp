#include "app/acts/certificates.h"
#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/mill_words.h"
#include "app/acts/plant_records.h"
#include "app/models/intake.h"
#include "app/models/journal.h"
#include "app/models/plant.h"
#include "core/certificate_source.h"
#include "mill_certificate.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/fixture_file.h"
#include "support/small_workbook.h"

#include <algorithm>
#include <filesystem>
#include <fstream>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::answer_all_asked;
using tests::german_certificate;
using tests::SmallPlant;

namespace {

namespace fs = std::filesystem;

/// A plant, and what a person at its dock does with a certificate.
struct Dock {
    SmallPlant plant;

    App& app() { return plant.app(); }
    const CertificateModel& certificate() { return app().intake().certificate; }
    LotDraft defaults() {
        LotDraft defaults;
        defaults.mill = "Mill";
        defaults.flour = "Strong white";
        defaults.place = "Bay 1";
        return defaults;
    }
    void paste(const std::string& text) {
        app().handle(ReadPastedCertificate{text, defaults()});
        app().finish_work();
    }
    std::string file(const std::string& name, const std::string& bytes) {
        const auto path = fs::path(plant.book_path()).parent_path() / name;
        std::ofstream(path, std::ios::binary) << bytes;
        return path.string();
    }
    void read(const std::string& name, const std::string& bytes) {
        app().handle(ReadCertificateFile{file(name, bytes), defaults()});
        app().finish_work();
    }
    void confirm(FaultyLines faulty = FaultyLines::take_nothing) {
        app().handle(ConfirmCertificate{certificate().made, faulty});
    }
    /// Read, answered as a person would, handed over, and taken in.
    void take_in(const std::string& text) {
        paste(text);
        answer_all_asked(app());
        confirm();
        INFO(plant.said());
        REQUIRE(plant.was_done());
        app().handle(TakeIn{app().intake().read_drafts});
        INFO(plant.refusals());
        REQUIRE(plant.was_done());
    }
    std::size_t journal_lines() { return app().journal(1000).size(); }
    const LotSheet& sheet(const std::string& code) {
        app().handle(OpenLot{plant.lot(code)});
        REQUIRE(app().lots().opened);
        return *app().lots().opened;
    }
    std::string bytes_of(const std::string& path) {
        std::ifstream in(path, std::ios::binary);
        return {std::istreambuf_iterator<char>(in), {}};
    }
};

const CertificateRow* value_of(const CertificateModel& certificate, std::string_view name) {
    const auto at = std::find_if(certificate.rows.begin(), certificate.rows.end(),
                                 [&](const CertificateRow& row) { return row.name == name; });
    return at == certificate.rows.end() ? nullptr : &*at;
}

const FigureDraft* figure_in(const LotDraft& draft, Property property) {
    const auto at = std::find_if(draft.figures.begin(), draft.figures.end(),
                                 [&](const FigureDraft& figure) { return figure.property == property; });
    return at == draft.figures.end() ? nullptr : &*at;
}

} // namespace

TEST_CASE("What a certificate says stands beside its source, and reading it writes nothing") {
    Dock at;
    const auto lines = at.journal_lines();
    at.paste(german_certificate("M-2611-07"));
    REQUIRE(at.certificate().is_open);
    CHECK(at.certificate().mill == "Mill");
    CHECK(at.certificate().troubles.empty());
    REQUIRE(at.certificate().lots.size() == 1);
    CHECK(at.certificate().lots[0].code == "M-2611-07");
    const auto* protein = value_of(at.certificate(), "Protein");
    REQUIRE(protein);
    CHECK_THAT(protein->shown, Contains("Protein"));
    CHECK_THAT(protein->text, Contains("11,9"));
    CHECK_THAT(protein->line, Contains("ICC 105/2"));
    CHECK_FALSE(protein->where.empty());
    CHECK(protein->method == "ICC 105/2");
    CHECK_FALSE(protein->asked.empty()); // it has no basis, and none is guessed
    CHECK(at.journal_lines() == lines);
    CHECK(at.app().plant().mill_words.empty());
}

TEST_CASE("The first certificate of a mill asks, is confirmed, and the second asks nothing") {
    Dock at;
    at.paste(german_certificate("M-2611-07"));
    REQUIRE_FALSE(at.certificate().asked.empty());
    at.confirm();
    CHECK(at.plant.was_refused()); // what is asked must be answered first
    CHECK(at.certificate().is_open);
    answer_all_asked(at.app());
    CHECK(at.certificate().asked.empty());
    CHECK(at.certificate().good == 1);
    CHECK(at.certificate().to_learn > 0);
    at.confirm();
    REQUIRE(at.plant.was_done());
    CHECK_FALSE(at.certificate().is_open);
    REQUIRE(at.app().intake().read_drafts.size() == 1);
    const auto first = at.app().intake().read_drafts[0];
    CHECK(first.code == "M-2611-07");
    REQUIRE(figure_in(first, Property::protein));
    CHECK(figure_in(first, Property::protein)->value == "11.9");
    CHECK(figure_in(first, Property::protein)->basis == "14 % moisture");
    CHECK(source_named(first.certificate_source).kept.is_known());
    CHECK_THAT(at.app().journal(1)[0].words,
               Contains("Certificate Pasted text of Mill kept") && Contains("of this mill learned"));
    CHECK(at.app().journal(1)[0].act == "Certificate kept");

    at.plant.open_again();
    at.paste(german_certificate("M-2611-08"));
    CHECK(at.certificate().asked.empty());
    CHECK(at.certificate().good == 1);
    CHECK(at.certificate().to_learn == 0);
    const auto& labels = at.certificate().labels;
    CHECK(std::any_of(labels.begin(), labels.end(), [](const auto& label) { return label.is_learned; }));
    REQUIRE(value_of(at.certificate(), "Protein"));
    CHECK(value_of(at.certificate(), "Protein")->basis == "14 % moisture");
    at.confirm(); // it is shown all the same, and handed over by a person
    CHECK(at.app().intake().read_drafts[0].code == "M-2611-08");
}

TEST_CASE("A certificate taken over twice is kept once") {
    Dock at;
    at.take_in(german_certificate("M-2611-07"));
    const auto lines = at.journal_lines();
    at.paste(german_certificate("M-2611-07"));
    at.confirm();
    CHECK(at.plant.was_done());
    CHECK(at.journal_lines() == lines); // its words and its text were known
    CHECK(at.app().notice().undo.empty());
}

TEST_CASE("Two values for one property are asked about by their places, and the one that is chosen goes in") {
    Dock at;
    at.paste(german_certificate("M-2611-07", "Fallzahl\t250\ts\t\tICC 107/1\n"));
    const auto& asked = at.certificate().asked;
    const auto which =
        std::find_if(asked.begin(), asked.end(), [](const auto& one) { return one.kind == "which_value"; });
    REQUIRE(which != asked.end());
    REQUIRE(which->choices.size() >= 2);
    CHECK(at.certificate().good == 0);
    answer_all_asked(at.app()); // the first of them
    at.confirm();
    REQUIRE(at.plant.was_done());
    const auto* number = figure_in(at.app().intake().read_drafts[0], Property::falling_number);
    REQUIRE(number);
    CHECK((number->value == "320" || number->value == "250"));
    CHECK(std::count_if(at.app().intake().read_drafts[0].figures.begin(),
                        at.app().intake().read_drafts[0].figures.end(), [](const FigureDraft& figure) {
                            return figure.property == Property::falling_number;
                        }) == 1);
}

TEST_CASE("A formula cell without a result is named by its cell, and nothing is kept") {
    Dock at;
    const auto lines = at.journal_lines();
    at.read("lots.xlsx",
            tests::small_workbook({{"Lot number", "Weight kg", "Moisture %", "Ash % (dry matter)"},
                                   {"W24-1", "1000", "14.1", "0.55"},
                                   {"W24-2", "1000", "=C2+1", "0.56"}}));
    REQUIRE(at.certificate().is_open);
    CHECK(at.certificate().lots.size() == 2);
    at.confirm();
    CHECK_THAT(at.plant.refusals(), Contains("C3"));
    CHECK(at.journal_lines() == lines);
    CHECK(at.app().intake().read_drafts.empty());
    at.confirm(FaultyLines::leave_out);
    REQUIRE(at.plant.was_done());
    REQUIRE(at.app().intake().read_drafts.size() == 1);
    CHECK(at.app().intake().read_drafts[0].code == "W24-1");
    CHECK_FALSE(at.app().intake().file_refusals.empty());
}

TEST_CASE("A certificate whose mill nobody says is not kept; one whose mill is chosen then is") {
    Dock at;
    auto defaults = at.defaults();
    defaults.mill.clear();
    at.app().handle(ReadPastedCertificate{german_certificate("M-2611-07"), defaults});
    at.app().finish_work();
    answer_all_asked(at.app());
    at.confirm();
    CHECK_THAT(at.plant.refusals(), Contains("Mill: is not said"));
    at.app().handle(UnderstandCertificate{{"Mill", {}, {}}});
    CHECK(at.certificate().mill == "Mill");
}

TEST_CASE("A label is given another meaning, unit, basis and method, and the reading follows at once") {
    Dock at;
    at.paste(german_certificate("M-2611-07", "Klebermenge neu\t28,4\t%\t\t\n"));
    const auto& labels = at.certificate().labels;
    const auto unknown = std::find_if(labels.begin(), labels.end(),
                                      [](const auto& label) { return label.shown == "Klebermenge neu"; });
    REQUIRE(unknown != labels.end());
    const std::string key = unknown->key;
    const LabelSaid said{key, "wet_gluten", "", "14 %", "ICC 155", ""};
    at.app().handle(UnderstandCertificate{{"", {said}, {}}});
    const auto* gluten = value_of(at.certificate(), "Wet gluten");
    REQUIRE(gluten);
    CHECK(gluten->value == "28.4");
    CHECK(gluten->basis == "14 % moisture");
    CHECK(gluten->method == "ICC 155");

    at.app().handle(UnderstandCertificate{{"", {{key, "wet_gluten", "s", "wet", "", "9"}}, {}}});
    CHECK_THAT(at.plant.refusals(), Contains("Unit: \"s\" is no unit of Wet gluten") && Contains("Basis: ") &&
                                        Contains("Nitrogen factor: "));
    CHECK(value_of(at.certificate(), "Wet gluten")); // what is refused changes nothing
}

TEST_CASE("What a person left out is left out of the next certificate, too") {
    Dock at;
    at.paste(german_certificate("M-2611-07"));
    const auto& labels = at.certificate().labels;
    const auto ash =
        std::find_if(labels.begin(), labels.end(), [](const auto& label) { return label.means == "ash"; });
    REQUIRE(ash != labels.end());
    answer_all_asked(at.app(), {{ash->key, "left_out", "", "", "", ""}});
    at.confirm();
    REQUIRE(at.plant.was_done());
    CHECK_FALSE(figure_in(at.app().intake().read_drafts[0], Property::ash));
    at.paste(german_certificate("M-2611-08"));
    CHECK_FALSE(value_of(at.certificate(), "Ash"));
    CHECK(at.certificate().asked.empty());
}

TEST_CASE("A lot in the book knows its certificate, whose bytes are what was read") {
    Dock at;
    const auto workbook = tests::small_workbook(
        {{"Lot number", "Weight kg", "Moisture %"}, {"W24-1", "1000", "14.1"}, {"W24-2", "2000", "14.3"}});
    at.read("harrow.xlsx", workbook);
    answer_all_asked(at.app());
    at.confirm();
    REQUIRE(at.plant.was_done());
    at.app().handle(TakeIn{at.app().intake().read_drafts});
    REQUIRE(at.plant.was_done());
    CHECK(at.sheet("W24-2").certificate_file == "harrow.xlsx");
    CHECK_THAT(at.sheet("W24-2").certificate_words,
               Contains("harrow.xlsx") && Contains("3") && Contains("25 Nov") && Contains("by Tomas"));

    const auto folder = fs::path(at.plant.book_path()).parent_path();
    const auto to = (folder / "again.xlsx").string();
    at.app().handle(SaveCertificateSource{at.plant.lot("W24-1"), to});
    CHECK(at.plant.was_done());
    CHECK(at.bytes_of(to) == workbook);
    at.app().handle(SaveCertificateSource{at.plant.lot("W24-1"), to});
    CHECK_THAT(at.plant.refusals(), Contains("is there already"));
    fs::create_directories(folder / "mill");
    at.app().handle(SaveCertificateSource{at.plant.lot("W24-1"), (folder / "mill").string()});
    CHECK(at.bytes_of((folder / "mill/harrow.xlsx").string()) == workbook);
    at.app().handle(SaveCertificateSource{at.plant.lot("W24-1"), (folder / "gone/a.xlsx").string()});
    CHECK_THAT(at.plant.refusals(), Contains("there is no folder"));
}

TEST_CASE("A lot that came without a certificate has none to save") {
    Dock at;
    at.plant.released_lot(at.plant.draft("W24-118"));
    CHECK(at.sheet("W24-118").certificate_words.empty());
    at.app().handle(SaveCertificateSource{at.plant.lot("W24-118"), ""});
    CHECK_THAT(at.plant.refusals(), Contains("no file was kept"));
}

TEST_CASE("A lot whose certificate this book has no more comes in all the same, and that is told") {
    Dock at; // as after a backup of an earlier day was put back
    auto draft = at.plant.draft("W24-118");
    draft.certificate_source = "77";
    at.app().handle(TakeIn{{draft}});
    CHECK(at.plant.was_done());
    CHECK_THAT(at.plant.said(), Contains("Lot W24-118 taken in") && Contains("not in this book any more"));
    CHECK(at.sheet("W24-118").certificate_words.empty());
}

TEST_CASE("A file with our own heads goes on as it did, and is kept with its lots when they come in") {
    Dock at;
    const std::string bytes = "lot number;weight kg;moisture %;protein % (14 % moisture)\n"
                              "W24-1;1000;14,1;12,0\nW24-2;1000;14,2;12,1\n";
    const auto path = at.file("monday.csv", bytes);
    at.app().handle(ReadCertificateFile{path, at.defaults()});
    CHECK_FALSE(at.certificate().is_open);
    REQUIRE(at.app().intake().read_drafts.size() == 2);
    CHECK(at.app().intake().read_drafts[1].certificate_place == "line 3");
    const auto drafts = at.app().intake().read_drafts;
    at.app().handle(TakeIn{{drafts[0]}});
    REQUIRE(at.plant.was_done());
    CHECK_THAT(at.sheet("W24-1").certificate_words, Contains("monday.csv, line 2"));

    std::ofstream(path, std::ios::app) << "W24-3;1000;14,3;12,2\n";
    at.app().handle(TakeIn{{drafts[1]}});
    CHECK(at.plant.was_done());
    CHECK_THAT(at.plant.said(), Contains("monday.csv was not kept: it was changed since it was read"));
    CHECK(at.sheet("W24-2").certificate_words.empty()); // none rather than another one
}

TEST_CASE("A file that is no certificate is refused with its name, and nothing hangs or is kept") {
    Dock at;
    for (const auto& [name, bytes] : {std::pair<const char*, std::string>{"empty.xlsx", ""},
                                      {"torn.xlsx", "PK\x03\x04 torn"},
                                      {"torn.pdf", "%PDF-1.4\nnot really"},
                                      {"picture.pdf", "\x89PNG\r\n\x1a\n"}}) {
        INFO(name);
        at.read(name, bytes);
        CHECK(at.plant.was_refused());
        CHECK_FALSE(at.certificate().is_open);
        CHECK_FALSE(at.certificate().is_reading);
    }
    at.app().handle(ReadCertificateFile{"nothing.pdf", at.defaults()});
    CHECK_THAT(at.plant.refusals(), Contains("Certificate file: \"nothing.pdf\" cannot be read"));
    at.paste("Dear colleague, the truck comes on Monday.");
    at.confirm();
    CHECK(at.plant.was_refused());
    at.app().handle(ReadPastedCertificate{" \n", at.defaults()});
    CHECK_THAT(at.plant.refusals(), Contains("Pasted text: is empty"));
}

TEST_CASE("A certificate that is put aside is gone, and none can be confirmed") {
    Dock at;
    at.paste(german_certificate("M-2611-07"));
    at.app().handle(PutCertificateAside{});
    CHECK_FALSE(at.certificate().is_open);
    at.confirm();
    CHECK_THAT(at.plant.refusals(), Contains("Certificate: none is being read"));
}

TEST_CASE("A certificate for another lot than asked for is refused by its place") {
    Dock at;
    at.paste(german_certificate("M-2611-07"));
    answer_all_asked(at.app());
    CHECK(at.certificate().good == 1);
    at.app().handle(UnderstandCertificate{{}, "M-2611-09"});
    CHECK(at.certificate().good == 0);
    at.confirm();
    CHECK_THAT(at.plant.refusals(), Contains("M-2611-07"));
}

TEST_CASE("Lots that intake would not take as they stand are refused by their place where that is asked") {
    Dock at;
    auto defaults = at.defaults();
    defaults.place.clear();
    at.app().handle(ReadPastedCertificate{german_certificate("M-2611-07"), defaults});
    at.app().finish_work();
    answer_all_asked(at.app());
    const auto lines = at.journal_lines();
    at.app().handle(ConfirmCertificate{at.certificate().made, FaultyLines::take_nothing, true});
    CHECK_THAT(at.plant.refusals(), Contains("Place: is empty"));
    CHECK(at.journal_lines() == lines);
}
