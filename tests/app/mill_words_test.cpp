#include "app/acts/certificates.h"
#include "app/acts/intake.h"
#include "app/acts/mill_words.h"
#include "app/acts/plant_records.h"
#include "app/book/setup.h"
#include "app/models/intake.h"
#include "app/models/journal.h"
#include "app/models/plant.h"
#include "mill_certificate.h"
#include "small_plant.h"
#include "support/catch.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::answer_all_asked;
using tests::german_certificate;
using tests::SmallPlant;

namespace {

const Day wednesday = day_from_iso("2026-11-25");

/// The dock, where a first certificate was confirmed, and Ines at a second station on the same book.
struct TwoStations {
    SmallPlant plant;
    App office;

    TwoStations()
        : office((confirm_first(), AppSetup{plant.book_path(), "Ines", Clock::standing_at(wednesday)})) {}

    App& dock() { return plant.app(); }
    void paste(const std::string& lot) {
        LotDraft defaults;
        defaults.mill = "Mill";
        dock().handle(ReadPastedCertificate{german_certificate(lot), defaults});
        dock().finish_work();
    }
    void confirm_first() {
        paste("M-2611-07");
        answer_all_asked(dock());
        dock().handle(ConfirmCertificate{dock().intake().certificate.made});
        INFO(plant.refusals());
        REQUIRE(plant.was_done());
    }
    static const MillWord* word(const App& app, std::string_view means) {
        for (const auto& row : app.plant().mill_words)
            if (row.word.means == means)
                return &row.word;
        return nullptr;
    }
    void office_says(const std::string& basis) {
        auto after = *word(office, "protein");
        const auto before = after;
        after.basis = basis;
        office.handle(ChangeMillWords{before.mill, {{before, after}}});
        INFO(office.notice().words);
        REQUIRE(office.notice().kind == Notice::Kind::done);
    }
    std::string basis_read() {
        for (const auto& row : dock().intake().certificate.rows)
            if (row.name == "Protein")
                return row.basis;
        return "no protein";
    }
};

} // namespace

TEST_CASE("What was learned of a mill's words is listed with who confirmed it and when") {
    TwoStations at;
    const auto& rows = at.dock().plant().mill_words;
    const auto protein = std::find_if(rows.begin(), rows.end(),
                                      [](const MillWordRow& row) { return row.word.means == "protein"; });
    REQUIRE(protein != rows.end());
    CHECK_THAT(protein->shown, Contains("Protein"));
    CHECK(protein->means == "Protein");
    CHECK(protein->word.basis == "14 % moisture");
    CHECK_THAT(protein->since, Contains("25 Nov") && Contains("Tomas"));
}

TEST_CASE("A word's meaning changed at another station is seen here, also by a certificate that is open") {
    TwoStations at;
    at.paste("M-2611-08");
    CHECK(at.basis_read() == "14 % moisture");
    const auto shown = at.dock().intake().certificate.made;
    at.office_says("dry matter");
    CHECK(at.dock().poll());
    CHECK(at.basis_read() == "dry matter");
    at.dock().handle(ConfirmCertificate{shown});
    CHECK_THAT(at.plant.refusals(), Contains("is understood otherwise than it was shown"));
    CHECK(at.dock().intake().certificate.is_open);
}

TEST_CASE("A certificate that is confirmed while another station changes its words is shown anew first") {
    TwoStations at;
    at.paste("M-2611-08");
    const auto shown = at.dock().intake().certificate.made;
    at.office_says("dry matter"); // and nobody looked here since
    at.dock().handle(ConfirmCertificate{shown});
    CHECK(at.plant.was_refused());
    CHECK(at.basis_read() == "dry matter");
}

TEST_CASE(
    "A change of a word is in the journal, is undone, and is refused where the word was changed meanwhile") {
    TwoStations at;
    const auto before = *at.word(at.office, "protein");
    at.office_says("dm");
    CHECK(at.word(at.office, "protein")->basis == "dry matter"); // as it is kept
    CHECK_THAT(at.office.journal(1)[0].words,
               Contains("Mill, on certificates: Protein") && Contains("dry matter"));
    CHECK(at.office.journal(1)[0].act == "A mill's words changed");
    const auto undo = at.office.notice().undoing;
    REQUIRE(undo.size() == 1);
    at.dock().poll();
    auto after = before;
    after.method = "ICC 167";
    at.dock().handle(ChangeMillWords{before.mill, {{before, after}}});
    CHECK_THAT(at.plant.refusals(), Contains("was changed meanwhile"));
    at.office.handle(undo.front());
    CHECK(at.office.notice().kind == Notice::Kind::done);
    CHECK(means_same(*at.word(at.office, "protein"), before));
    at.office.handle(undo.front());
    CHECK(at.office.notice().kind == Notice::Kind::refused); // it was undone already
}

TEST_CASE("What a certificate taught is taken back by its undo, and is asked again") {
    TwoStations at;
    const auto undo = at.dock().notice().undoing;
    REQUIRE(undo.size() == 1);
    CHECK_THAT(at.dock().notice().undo, Contains("Mill"));
    at.dock().handle(undo.front());
    REQUIRE(at.plant.was_done());
    CHECK(at.dock().plant().mill_words.empty());
    at.paste("M-2611-08");
    CHECK_FALSE(at.dock().intake().certificate.asked.empty());
}

TEST_CASE("A word that is forgotten is asked about again") {
    TwoStations at;
    const auto word = *at.word(at.dock(), "protein");
    at.dock().handle(ChangeMillWords{word.mill, {{word, std::nullopt}}});
    REQUIRE(at.plant.was_done());
    CHECK_FALSE(at.word(at.dock(), "protein"));
    at.paste("M-2611-08");
    CHECK(std::any_of(at.dock().intake().certificate.asked.begin(),
                      at.dock().intake().certificate.asked.end(),
                      [](const CertificateAsked& asked) { return asked.kind == "basis"; }));
}

TEST_CASE("A meaning that is none, a unit that does not fit and a basis that is none are refused, each at "
          "its field") {
    TwoStations at;
    const auto before = *at.word(at.dock(), "protein");
    auto after = before;
    after.means = "colour";
    at.dock().handle(ChangeMillWords{before.mill, {{before, after}}});
    CHECK_THAT(at.plant.refusals(), Contains("Means: \"colour\""));
    after = before;
    after.unit = "min";
    after.basis = "wet";
    after.nitrogen_factor = "57";
    at.dock().handle(ChangeMillWords{before.mill, {{before, after}}});
    CHECK_THAT(at.plant.refusals(),
               Contains("Unit: ") && Contains("Basis: ") && Contains("Nitrogen factor: "));
    CHECK(means_same(*at.word(at.dock(), "protein"), before));
}

TEST_CASE("A mill whose words were learned is not taken off the plant, since the book says what they meant") {
    TwoStations at;
    const auto& mills = at.dock().plant().of(PlantKind::mill);
    REQUIRE_FALSE(mills.empty());
    at.dock().handle(RemovePlantRecord{mills.front().record});
    CHECK_THAT(at.plant.refusals(), Contains("words of its certificates"));
}

TEST_CASE(
    "What a mill calls a flour is asked once, and again when the plant has no flour of that name any more") {
    TwoStations at;
    const auto of_flour = [](const std::string& lot) {
        return "Mehl:\tType 550\n" + german_certificate(lot);
    };
    const auto asks_name = [&] {
        const auto& asked = at.dock().intake().certificate.asked;
        return std::any_of(asked.begin(), asked.end(),
                           [](const CertificateAsked& one) { return one.kind == "which_name"; });
    };
    LotDraft defaults;
    defaults.mill = "Mill";
    const auto paste = [&](const std::string& lot) {
        at.dock().handle(ReadPastedCertificate{of_flour(lot), defaults});
        at.dock().finish_work();
    };
    paste("M-2611-08");
    REQUIRE(asks_name());
    answer_all_asked(at.dock());
    at.dock().handle(ConfirmCertificate{at.dock().intake().certificate.made});
    REQUIRE(at.plant.was_done());
    CHECK(at.dock().intake().read_drafts[0].flour == "Strong white");
    paste("M-2611-09");
    CHECK_FALSE(asks_name());
    auto draft = at.dock().plant().of(PlantKind::flour).front().draft;
    draft.texts["name"] = "Bread white";
    at.dock().handle(KeepPlantRecord{at.dock().plant().of(PlantKind::flour).front().record, draft});
    INFO(at.plant.refusals());
    REQUIRE(at.plant.was_done());
    CHECK(asks_name());
}
