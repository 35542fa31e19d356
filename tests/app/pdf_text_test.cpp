#include "app/book/child_process.h"
#include "app/book/pdf_text.h"
#include "exchange/certificate_sheet.h"
#include "exchange/laid_out_text.h"
#include "support/catch.h"
#include "support/fixture_file.h"
#include "support/plain_pdf.h"
#include "support/refusal_words.h"

#include <filesystem>
#include <sys/wait.h>
#include <thread>

namespace mellowbin::app {
namespace {

using testing::all_words;
using testing::fixture;
using testing::says;

std::string refusal_of(const std::string& bytes, const PdfLimits& limits = {}) {
    const auto text = pdf_text(bytes, limits);
    return text ? "was read" : all_words(text.refusals());
}

/// A PDF that was made for a test, with one line.
std::string small_pdf() { return testing::plain_pdf({{{50, 50, "Moisture 14.2 %"}}}); }

exchange::CertificateReading certificate_in(const std::string& name) {
    const auto words = pdf_text(fixture("certificates/" + name));
    INFO((words ? "" : all_words(words.refusals())));
    REQUIRE(words);
    const auto sheet = exchange::read_laid_out_text(*words, exchange::SheetKind::pages);
    REQUIRE(sheet);
    exchange::CertificateRequest request;
    request.defaults = {"Weir Mill", "Bread flour", "Bay 1", "2026-11-25"};
    return exchange::understand({&*sheet, 1}, request);
}

/// Value, basis and method of a figure: "13.8|dry matter|ISO 20483".
std::string figure(const exchange::CertificateReading& reading, std::size_t lot, Property property) {
    for (const auto& figure : reading.lots.at(lot).draft.figures)
        if (figure.property == property)
            return figure.value + "|" + figure.basis + "|" + figure.method;
    return "none";
}

std::size_t open_files() {
    std::size_t count = 0;
    for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator("/proc/self/fd"))
        ++count;
    return count;
}

bool has_children() { return waitpid(-1, nullptr, WNOHANG) != -1 || errno != ECHILD; }

} // namespace

TEST_CASE("Certificates in four languages, as LibreOffice makes PDF of them, are read without a question") {
    const auto english = certificate_in("english_one_lot.pdf");
    CHECK(english.questions.empty());
    REQUIRE(english.lots.size() == 1);
    CHECK(english.lots[0].draft.code == "HW-26-0412");
    CHECK(english.lots[0].draft.mass_kg == "24500");
    CHECK(english.lots[0].draft.best_before == "2027-11-16");
    CHECK(english.lots[0].draft.delivery_note == "DN 90417");
    CHECK(figure(english, 0, Property::moisture) == "14.2||ISO 712"); // not the 15.0 that is allowed
    CHECK(figure(english, 0, Property::protein) == "13.8|dry matter|ISO 20483");
    CHECK(figure(english, 0, Property::wet_gluten) == "30.6|14 % moisture|ISO 21415-2");
    CHECK(figure(english, 0, Property::gluten_index) == "92||ISO 21415-2");
    CHECK(english.lots[0].draft.figures.size() == 8);

    const auto german = certificate_in("german_one_lot.pdf");
    CHECK(german.questions.empty());
    REQUIRE(german.lots.size() == 1);
    CHECK(german.lots[0].draft.code == "OW 2611-07");
    CHECK(german.lots[0].draft.milled_on == "2026-11-17");
    CHECK(german.lots[0].draft.mass_kg == "12500");
    CHECK(german.lots[0].draft.mill_oxidant == "ascorbic_acid");
    CHECK(german.lots[0].draft.mill_oxidant_ppm == "20"); // 2 g per 100 kg
    CHECK(figure(german, 0, Property::ash) == "0.556|dry matter|ICC 104/1");
    CHECK(figure(german, 0, Property::softening) == "65||ICC 115/1");
    CHECK(german.lots[0].draft.figures.size() == 9);

    const auto french = certificate_in("french_lot_a_row.pdf");
    CHECK(french.questions.empty());
    REQUIRE(french.lots.size() == 3);
    CHECK(french.lots[2].draft.code == "TV-1103");
    CHECK(french.lots[2].draft.mass_kg == "8250");
    CHECK(french.lots[2].draft.delivery_note == "BL-3318");
    CHECK(figure(french, 2, Property::protein) ==
          "none"); // nothing is printed there, and nothing slides into it
    CHECK(figure(french, 2, Property::ash) == "0.56|dry matter|");
    CHECK(figure(french, 1, Property::alveograph_w) == "221||");

    const auto spanish = certificate_in("spanish_lots_in_columns.pdf");
    CHECK(spanish.questions.empty());
    REQUIRE(spanish.lots.size() == 2);
    CHECK(spanish.lots[1].draft.code == "VA-882");
    CHECK(spanish.lots[0].draft.milled_on == "2026-11-12"); // 13/11 beside it proves the order
    CHECK(figure(spanish, 0, Property::ash) == "0.58|dry matter|UNE-EN ISO 2171"); // 5.8 g/kg
    CHECK(figure(spanish, 1, Property::falling_number) == "341||UNE-EN ISO 3093");
    CHECK(spanish.lots[0].draft.mill_oxidant_ppm == "30");
    CHECK(spanish.lots[1].draft.mill_oxidant.empty()); // 0 is none
}

TEST_CASE("A PDF is read by a program beside, which leaves nothing behind") {
    const auto before = open_files();
    for (int i = 0; i < 5; ++i)
        CHECK(pdf_text(small_pdf()));
    CHECK(!pdf_text("%PDF-1.4 torn"));
    PdfLimits slow;
    slow.program = "sleep";
    CHECK(!pdf_text(small_pdf(), slow));
    CHECK(open_files() == before);
    CHECK(!has_children());
}

TEST_CASE("Several threads read PDFs at once") {
    std::vector<std::thread> threads;
    std::array<bool, 4> is_read{};
    for (std::size_t i = 0; i < is_read.size(); ++i)
        threads.emplace_back([&is_read, i] { is_read[i] = bool(pdf_text(small_pdf())); });
    for (auto& thread : threads)
        thread.join();
    CHECK(std::all_of(is_read.begin(), is_read.end(), [](bool read) { return read; }));
}

TEST_CASE("A PDF that cannot be read is refused in words") {
    PdfLimits limits;
    limits.program = "pdftotext-that-nobody-has";
    CHECK(says(refusal_of(small_pdf(), limits),
               "need pdftotext-that-nobody-has, which is not on this machine (package poppler-utils)"));
    CHECK(says(refusal_of("%PDF-1.4\nnothing else"), "the PDF is torn or none"));
    CHECK(says(refusal_of(small_pdf().substr(0, 200)), "the PDF is torn or none"));
    CHECK(says(refusal_of(testing::pdf_without_text()), "is a picture of a page: there is no text in it"));
    limits = {};
    limits.bytes = 100;
    CHECK(says(refusal_of(small_pdf(), limits), "100 at most are read"));
}

TEST_CASE("A PDF of more than 500 pages is refused, and one of 500 is read") {
    std::vector<std::vector<testing::PrintedText>> pages(500, {{50, 50, "page"}});
    CHECK(pdf_text(testing::plain_pdf(pages)));
    pages.push_back(pages.back());
    CHECK(says(refusal_of(testing::plain_pdf(pages)), "more than 500 pages"));
}

TEST_CASE("A program that takes too long, writes too much or takes too much is ended") {
    ChildLimits limits;
    limits.time = std::chrono::milliseconds(200);
    const auto begun = std::chrono::steady_clock::now();
    CHECK(run_child({"sleep", "30"}, "", limits).end == ChildEnd::took_too_long);
    // It closes what it writes to, and runs on.
    CHECK(run_child({"sh", "-c", "exec >&- 2>&-; sleep 30"}, "", limits).end == ChildEnd::took_too_long);
    CHECK(std::chrono::steady_clock::now() - begun < std::chrono::seconds(20));

    limits.time = std::chrono::seconds(20);
    limits.output_bytes = 100'000;
    CHECK(run_child({"yes"}, "", limits).end == ChildEnd::wrote_too_much);
    limits.memory_bytes = 50'000'000;
    const auto greedy = run_child({"python3", "-c", "x = bytearray(10**9)"}, "", limits);
    CHECK((greedy.end != ChildEnd::exited || greedy.code != 0));
    CHECK(!has_children());
}

TEST_CASE("A program is told only what it is given") {
    const std::string input(3'000'000, 'x');
    const auto counted = run_child({"wc", "-c"}, input, {});
    CHECK(counted.end == ChildEnd::exited);
    CHECK(std::stoul(counted.output) == input.size());
    // It may leave what it is given unread.
    CHECK(run_child({"true"}, input, {}).end == ChildEnd::exited);
    const auto failed = run_child({"sh", "-c", "echo why >&2; exit 3"}, "", {});
    CHECK(failed.code == 3);
    CHECK(failed.complaints == "why\n");
    CHECK(run_child({"sh", "-c", "kill -SEGV $$"}, "", {}).end == ChildEnd::crashed);
    CHECK(run_child({"env"}, "", {}).output.find("HOME=") == std::string::npos);
    CHECK(run_child({"ls", "/proc/self/fd"}, "", {}).output == "0\n1\n2\n3\n"); // the last is its own
}

} // namespace mellowbin::app
