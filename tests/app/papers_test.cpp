#include "app/acts/bakes.h"
#include "app/acts/intake.h"
#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/acts/print_papers.h"
#include "app/acts/stock.h"
#include "app/app.h"
#include "app/models/card.h"
#include "app/models/deliveries.h"
#include "app/models/papers.h"
#include "app/models/settings.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/fixture_file.h"
#include "support/pdf_tools.h"
#include "support/sheet_words.h"

#include <filesystem>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;
namespace fs = std::filesystem;

namespace {

// Of GS1's own examples.
constexpr const char *one = "106141411234567897", *other = "376104250021234569";

struct AtThePrinter : SmallPlant {
    /// The words on the paper that the act writes beside the book.
    std::string paper(const Intent& act) {
        app().handle(act);
        INFO(said() << refusals());
        REQUIRE(was_done());
        pdf = testing::file_bytes(app().notice().document);
        return tests::text_of(pdf);
    }
    LotDraft on_pallets() {
        auto lot = draft("W24-118");
        lot.best_before = "2027-03-01";
        lot.pallets = {{one, "600"}, {other, ""}};
        return lot;
    }
    std::string pdf;
};

} // namespace

TEST_CASE("A lot's pallets get a label each, with the number that each came with and no other") {
    AtThePrinter plant;
    const auto lot = plant.released_lot(plant.on_pallets());
    const auto lines = plant.app().settings().journal.size();
    const auto text = plant.paper(PrintPalletLabels{lot});
    CHECK(tests::sizes_of(plant.pdf).size() == 2);
    CHECK_THAT(text, Contains("W24-118") && Contains(std::string("(00) ") + one) &&
                         Contains(std::string("(00) ") + other) && Contains("Net 600 kg") &&
                         Contains("Lies in Bay 1") && Contains("Best before 2027-03-01") &&
                         Contains("No GTIN"));
    CHECK(plant.app().settings().journal.size() == lines);
    CHECK(fs::path(plant.app().notice().document).filename() == "pallet-label-W24-118.pdf");

    const auto of_one = plant.paper(PrintPalletLabels{lot, "(00) 3761 0425 0021 2345 69", {"", "", "400"}});
    CHECK(tests::sizes_of(plant.pdf).size() == 1);
    CHECK_THAT(of_one, Contains("Net 400 kg") && !Contains(one));
}

TEST_CASE("A label takes a GTIN and the bags on the pallet, and refuses what is none, all at once") {
    AtThePrinter plant;
    const auto lot = plant.released_lot(plant.on_pallets());
    CHECK_THAT(plant.paper(PrintPalletLabels{lot, one, {"09521234543213", "24", ""}}),
               Contains("(02) 09521234543213") && Contains("(37) 24") && !Contains("No GTIN"));
    CHECK_THAT(plant.refused(PrintPalletLabels{lot, one, {"", "2.5", "heavy"}, {"", "a5", ""}}),
               Contains("Bags: \"2.5\"") && Contains("Weight: ") && Contains("Paper: \"a5\""));
    CHECK_THAT(plant.refused(PrintPalletLabels{lot, one, {"09521234543214", "", ""}}),
               Contains("GTIN: the check digit"));
    CHECK_THAT(plant.refused(PrintPalletLabels{lot, "123456789012345675"}),
               Contains("is none of lot W24-118's pallets"));
}

TEST_CASE("A lot that came without pallets' numbers gets a label on which none is made up") {
    AtThePrinter plant;
    const auto lot = plant.released_lot(plant.draft("W24-119"));
    CHECK_THAT(plant.paper(PrintPalletLabels{lot}), Contains("(10) W24-119") && !Contains("(00)"));
    CHECK(tests::sizes_of(plant.pdf).size() == 1);
}

TEST_CASE("A bag's label has the weight of one bag") {
    AtThePrinter plant;
    const auto lot = plant.released_lot(plant.on_pallets());
    CHECK_THAT(plant.paper(PrintBagLabel{lot}), Contains("Net 25 kg") && Contains("W24-118"));
    CHECK_THAT(plant.refused(PrintBagLabel{LotId{999}}), Contains("Lot: is not in the book"));
}

TEST_CASE("A label of a lot whose last day quality moved says until when it may be used") {
    AtThePrinter plant;
    auto draft = plant.on_pallets();
    draft.best_before = "2026-12-01";
    const auto lot = plant.released_lot(draft);
    plant.app().handle(ExtendBestBefore{lot, "2027-01-15", "tested again"});
    INFO(plant.said() << plant.refusals());
    REQUIRE(plant.was_done());
    CHECK_THAT(plant.paper(PrintBagLabel{lot}),
               Contains("Best before 2026-12-01") && Contains("May be used until 2027-01-15"));
}

TEST_CASE("The card on paper says what the card on screen says, in the order of weighing") {
    AtThePrinter plant;
    plant.released_lot(plant.draft("W24-118"));
    const auto run = plant.add_run("Pan bread", "2026-11-25", "2");
    plant.plan_week();
    const auto card = plant.app().card_of(run);
    const auto words = tests::words_of(card_sheet(card, {"Plant", "now", Instant{}}));
    CHECK_THAT(words,
               Contains("Batch 1 of 2") &&
                   Contains("|*W24-118*|*" + card.units.with_unit(Kilograms{card.lots.at(0).kg}, 3) + "*/") &&
                   Contains("Bay 1"));
    const auto water = shown(card.water, card.units);
    CHECK_THAT(words, Contains("|Water|*" + water.value + " " + water.unit + "*|"));
    CHECK(words.find("|*W24-118*|") < words.find("|Water|"));
    for (const auto& caution : card.cautions)
        CHECK_THAT(words, Contains("- " + caution.words));
    CHECK(words.find("!! ") == std::string::npos);
    CHECK_THAT(plant.paper(PrintCard{run}), Contains("Pan bread") && Contains("W24-118"));
}

TEST_CASE(
    "A card that says stop is loud on paper, with every reason, and one that cannot be is not printed") {
    AtThePrinter plant;
    plant.released_lot(plant.draft("W24-118"));
    const auto run = plant.add_run("Pan bread", "2026-11-25", "2");
    plant.plan_week();
    auto card = plant.app().card_of(run);
    card.verdict.ruling = CardVerdict::Ruling::do_not_mix;
    card.verdict.words = "Do not mix";
    card.verdict.reasons = {{"held", true, "Lot W24-118 is on hold.", "Quality", ""}};
    card.lots.at(0).is_withheld = true;
    const auto words = tests::words_of(card_sheet(card, {"", "now", Instant{}}));
    CHECK_THAT(words, Contains("!! Do not mix\n- Lot W24-118 is on hold. Lifted by: Quality") &&
                          Contains("|*W24-118*|*withheld*|"));
    const auto empty = plant.add_run("Pan bread", "2026-11-26", "1");
    CHECK_FALSE(plant.refused(PrintCard{empty}).empty());
}

TEST_CASE("Stock to count has a line a place and lot, by place, and nothing of what is used up") {
    AtThePrinter plant;
    const auto a = plant.released_lot(plant.draft("A"));
    plant.released_lot(plant.draft("B"));
    const auto places = plant.app().lots().places;
    REQUIRE(places.size() == 2);
    plant.app().handle(MoveLot{a, places[0].first, places[1].first, "250"});
    REQUIRE(plant.was_done());
    const auto text = plant.paper(PrintStockToCount{{"", "letter", ""}});
    CHECK_THAT(text, Contains("Counted kg") && Contains("750.0") && Contains("250.0") && Contains("1000.0"));
    CHECK(text.find("750.0") < text.find("250.0"));
    CHECK(tests::sizes_of(plant.pdf).front().find("612") != std::string::npos);
}

TEST_CASE("A delivery on paper has its lots, pallets, weights and what was found at the door") {
    AtThePrinter plant;
    auto lot = plant.on_pallets();
    lot.delivery_note = "4711";
    TakeIn taken{{lot}};
    taken.door = {{"Bags dry and not torn", "no", "3", "wet at one corner"}, {"Seal whole", "yes", "", ""}};
    taken.delivery.said.on_note = "1000";
    plant.app().handle(taken);
    INFO(plant.said() << plant.refusals());
    REQUIRE(plant.was_done());
    const auto delivery = plant.app().deliveries("", 1).at(0).id;
    CHECK_THAT(plant.paper(PrintDelivery{delivery}),
               Contains("4711") && Contains("W24-118") && Contains("1061 4141 1234 5678 97, 600.0 kg") &&
                   Contains("Bags dry and not torn") && Contains("wet at one corner, 3 bags") &&
                   Contains("Seal whole") && Contains("On the note") && Contains("Received by"));
    CHECK_THAT(plant.refused(PrintDelivery{DeliveryId{999}}), Contains("Delivery: is not in the book"));
}

TEST_CASE("A test-bake sheet says what was baked so far and leaves room for eight loaves") {
    AtThePrinter plant;
    const auto lot = plant.released_lot(plant.draft("W24-118"));
    LadderModel ladder;
    ladder.substance = "Ascorbic acid";
    ladder.unit = "ml";
    ladder.next_words = "Bake 40 mg/kg next";
    ladder.rows = {{BakeId{1}, Day{}, 20, 2050, "", "Ines", false},
                   {BakeId{2}, Day{}, 30, 1, "", "Ines", true}};
    const auto words =
        tests::words_of(test_bake_sheet({"W24-118", "Mill", "Strong white", "2026-05-29", {ladder}}, {}));
    CHECK_THAT(words, Contains("# Ascorbic acid\nBake 40 mg/kg next") && Contains("|20|2050|Ines|") &&
                          !Contains("|30|1|") && Contains("|8||||||") && Contains("local law"));
    CHECK_THAT(plant.paper(PrintTestBakes{lot}), Contains("Test bakes of lot W24-118"));
}

TEST_CASE("A name that no font can show is refused before a file is made") {
    AtThePrinter plant;
    const auto lot = plant.released_lot(plant.draft("W24-\U0010FFFE"));
    CHECK_THAT(plant.refused(PrintBagLabel{lot}), Contains("U+10FFFE"));
    CHECK_THAT(plant.refused(PrintStockToCount{}), Contains("U+10FFFE"));
    for (const auto& entry : fs::directory_iterator(fs::path(plant.book_path()).parent_path()))
        CHECK(entry.path().extension() != ".pdf");
}
