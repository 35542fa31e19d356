#include "app/acts/doughs.h"
#include "app/acts/keeping.h"
#include "app/acts/limits.h"
#include "app/acts/notice.h"
#include "app/models/card.h"
#include "app/models/keeping.h"
#include "app/models/settings.h"
#include "db/plant_store.h"
#include "db/sqlite_connection.h"
#include "dough_plant.h"
#include "support/iso.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

struct Kept {
    SmallPlant plant{day_from_iso("2026-11-25"), tests::preserving_plant()};
    void does(const Intent& intent) { plant.app().handle(intent); }
    void logs(KeepingDraft draft) {
        draft.product = "Pan bread";
        does(LogKeeping{std::move(draft)});
        INFO(plant.refusals());
        REQUIRE(plant.was_done());
    }
    KeepingModel model() { return *plant.app().keeping_of("Pan bread"); }
};

std::string all(const std::vector<std::string>& lines) {
    std::string words;
    for (const auto& line : lines)
        words += line + "\n";
    return words;
}

Figure line(const std::vector<Figure>& figures, const std::string& label) {
    for (const auto& one : figures)
        if (one.label == label)
            return one;
    throw std::runtime_error("no figure " + label);
}
Figure line(const KeepingModel& model, const std::string& label) { return line(model.figures, label); }

} // namespace

TEST_CASE("The dose on flour is told as what the bread carries, and held against the market's limits") {
    Kept at;
    // 0.30 % of flour at a yield of 1.45: 2069 mg/kg of bread as salt, 1646 as acid (by molar masses).
    CHECK(shown(line(at.model(), "In the bread")).value == "2069");
    CHECK_THAT(line(at.model(), "In the bread").note, Contains("1646"));
    REQUIRE_FALSE(at.model().limits.empty());
    CHECK_THAT(at.model().limits.front().words, Contains("Canada"));
}

TEST_CASE("A preservative that nobody confirmed is withheld on page, card and plan until somebody does") {
    Kept at;
    at.plant.released_lot(at.plant.draft("W24-118"));
    const auto run = at.plant.add_run("Pan bread", "2026-11-25", "2");
    at.plant.plan_week();
    CHECK(at.model().is_withheld);
    CHECK_FALSE(line(at.model(), "Calcium propionate").value);
    CHECK_THAT(line(at.model(), "Calcium propionate").note,
               Contains("withheld: Canada, bread: 1646 mg/kg as acid, of 2000") &&
                   Contains("not confirmed, read the source first"));
    REQUIRE(at.model().limits.size() == 1);
    CHECK(at.model().limits.front().standing == KeepingLimit::Standing::unconfirmed);
    const auto of_card = [&] { return line(at.plant.app().card_of(run).ingredients, "Calcium propionate"); };
    CHECK_FALSE(of_card().value);
    CHECK_THAT(of_card().note, Contains("withheld: Canada, bread"));
    CHECK(shown(of_card()).value == "withheld");
    CHECK(at.plant.planned(run).keeping_withheld);
    CHECK_THAT(at.plant.planned(run).keeping_words, Contains("Calcium propionate is withheld: Canada"));

    for (const auto& limit : at.plant.app().settings().limits)
        if (limit.substance == "Propionate" && limit.market == "Canada") {
            at.does(ConfirmLimit{limit.id});
            break;
        }
    REQUIRE(at.plant.was_done());
    CHECK_FALSE(at.model().is_withheld);
    CHECK(shown(line(at.model(), "Calcium propionate")).value == "0.3");
    CHECK(shown(of_card()).value == "300"); // of 100 kg of flour
    CHECK_FALSE(at.plant.planned(run).keeping_withheld);
    CHECK_THAT(at.plant.planned(run).keeping_words, Contains("Calcium propionate: Canada, bread"));
}

TEST_CASE("Of a market that tells breads apart the one line holds that the product is sold as") {
    Kept at;
    at.does(ChangeDough{.product = "Pan bread", .market = "EU"});
    REQUIRE(at.plant.was_done());
    REQUIRE(at.model().limits.size() == 1);
    CHECK_THAT(at.model().limits.front().words, Contains("say what the product is sold as"));
    CHECK(at.model().is_withheld);
    at.does(ChangeDough{.product = "Pan bread", .sold_as = "Prepacked sliced bread, or rye bread"});
    REQUIRE(at.plant.was_done());
    REQUIRE(at.model().limits.size() == 1);
    CHECK_THAT(at.model().limits.front().words, Contains("prepacked sliced bread and rye bread: 2069"));
    CHECK_FALSE(at.model().is_withheld);
    CHECK(at.model().sold_as == SoldAs::prepacked_sliced);
    for (const auto& undo : Intents(at.plant.app().notice().undoing))
        at.does(undo);
    CHECK_FALSE(at.model().sold_as);
    at.does(ChangeDough{.product = "Pan bread", .sold_as = "loose", .market = "Atlantis"});
    CHECK_THAT(at.plant.refusals(),
               Contains("Sold as: \"loose\" is not known") && Contains("Market: \"Atlantis\" is not known"));
}

TEST_CASE("The measured pH says how much of the acid works, by the same words on both sides of 5.6") {
    Kept at;
    at.logs({"", "mould", "2026-11-20", "4", "none", "", "5,2", ""});
    CHECK(shown(line(at.model(), "pH")).value == "5.20");
    CHECK(shown(line(at.model(), "Acid that works")).value == "31.9"); // 1/(1 + 10^(5.20 - 4.87))
    CHECK(at.model().warnings.empty());
    const auto told = [&](const char* day, const char* ph) {
        at.logs({"", "mould", day, "3", "none", "", ph, ""});
        const auto model = at.model();
        CHECK(model.warnings.empty());
        CHECK(model.advice.empty());
        return line(model, "Acid that works");
    };
    const auto below = told("2026-11-21", "5.59"), above = told("2026-11-22", "5.61");
    CHECK(shown(below).value == "16.0"); // both by 1/(1 + 10^(pH - 4.87))
    CHECK(shown(above).value == "15.4");
    CHECK(below.note ==
          "16.0 % of the acid works at pH 5.59; as much effect as at pH 5.60 takes 0.98 times the "
          "dose");
    CHECK(above.note ==
          "15.4 % of the acid works at pH 5.61; as much effect as at pH 5.60 takes 1.02 times the "
          "dose");
}

TEST_CASE("Of a preservative that may go in, the dose of the same effect is told in % of flour") {
    Kept at;
    const auto limits = at.plant.app().settings().limits; // a copy: each act makes them anew
    for (const auto& limit : limits)
        if (limit.substance == "Propionate" && limit.market == "Canada")
            at.does(ConfirmLimit{limit.id});
    at.logs({"", "mould", "2026-11-21", "3", "none", "", "5.7", ""});
    CHECK_THAT(line(at.model(), "Acid that works").note, // 0.3 % times 1.218
               Contains("takes 1.22 times the dose, 0.37 % of flour in place of 0.3 %"));
}

TEST_CASE("The trade's words on keeping stand on the page, marked as common practice without a source") {
    Kept at; // whole wheat sooner, below 5.6, clean first, amylase by firmness: common practice, no source
    const auto words = all(at.model().practice);
    CHECK_THAT(words, Contains("want a dough below pH 5.6 (common practice, no source)") &&
                          Contains("Mould before day 6: clean first, then cultured wheat (common practice") &&
                          Contains("measured as firmness (common practice, no source)"));
    CHECK_THAT(words, !Contains("Whole wheat"));
    auto file = tests::preserving_plant();
    const auto white = file.find("\"white\"");
    REQUIRE(white != std::string::npos);
    file.replace(white, std::string_view("\"white\"").size(), "\"wholemeal\"");
    SmallPlant of_whole_wheat(day_from_iso("2026-11-25"), file);
    CHECK_THAT(all(of_whole_wheat.app().keeping_of("Pan bread")->practice),
               Contains("Whole wheat bread moulds sooner than white, being moister (common practice"));
}

TEST_CASE(
    "Mould on day 4 asks for cleaning first and for the dose last; the card of the next run says it too") {
    Kept at;
    at.plant.released_lot(at.plant.draft("W24-118"));
    const auto run = at.plant.add_run("Pan bread", "2026-11-25", "2");
    at.plant.plan_week();
    at.logs({"", "mould", "2026-11-20", "4", "mould", "", "", "on the slices"});
    const auto model = at.model();
    REQUIRE(model.advice.size() == 2);
    CHECK_THAT(model.advice[0], Contains("Clean first"));
    CHECK_THAT(model.advice[1], Contains("Only then") && Contains("dose"));
    std::string cautions;
    for (const auto& caution : at.plant.app().card_of(run).cautions)
        cautions += caution.words + "\n";
    CHECK_THAT(cautions, Contains("Mould was seen on day 4: clean cooling"));
}

TEST_CASE("Days are not told by a line outside its range: the site's own record stands in its place") {
    Kept at;
    CHECK_THAT(at.model().mould_line, Contains("not entered"));
    at.does(ChangeDough{.product = "Pan bread", .erh = "96"});
    REQUIRE(at.plant.was_done());
    CHECK_THAT(at.model().mould_line, Contains("hold from 74 to 90"));
    at.does(ChangeDough{.product = "Pan bread", .erh = "80"});
    CHECK_THAT(at.model().mould_line, Contains("26.9 days at 21 °C") && Contains("17.5 at 27 °C"));
    CHECK_THAT(at.model().site_words, Contains("No bake was looked at"));
}

TEST_CASE("Cultured wheat is judged by the acid its supplier states, and asks for it where none is stated") {
    Kept at;
    at.does(
        ChangeDough{.product = "Pan bread", .preservative = "Cultured wheat", .preservative_percent = "1"});
    REQUIRE(at.plant.was_done());
    CHECK_THAT(all(at.model().warnings), Contains("ask its supplier"));
    at.does(ChangeDough{.product = "Pan bread", .cultured_acid = "10"});
    // 1 % of flour holding 10 % acid: 1000 mg/kg of flour, 690 of bread at a yield of 1.45.
    CHECK_THAT(line(at.model(), "In the bread").note, Contains("690 mg/kg as propionic acid"));
    CHECK_THAT(at.model().limits.back().words, Contains("local law"));
}

TEST_CASE("Firmness is a record, never a model") {
    Kept at;
    at.logs({"", "firmness", "2026-11-20", "1", "", "310", "", ""});
    at.logs({"", "firmness", "2026-11-20", "1", "", "350", "", ""});
    at.logs({"", "firmness", "2026-11-20", "4", "", "520", "", ""});
    const auto model = at.model();
    REQUIRE(model.firmness.size() == 2);
    CHECK(model.firmness[0].mean == 330);
    CHECK(model.firmness[0].loaves == 2);
    CHECK(model.records.size() == 3);
}

TEST_CASE("A record is refused field by field; what is still to come cannot be logged") {
    Kept at;
    at.does(LogKeeping{{"Cake", "smell", "2026-12-24", "-1", "", "", "14", ""}});
    REQUIRE(at.plant.was_refused());
    for (const char* field : {"Product: ", "Record: ", "Baked on: ", "Days: ", "pH: "})
        CHECK_THAT(at.plant.refusals(), Contains(field));
    at.does(LogKeeping{{"Pan bread", "mould", "2026-11-24", "9", "none", "", "", ""}});
    CHECK_THAT(at.plant.refusals(), Contains("still to come"));
    CHECK(at.model().records.empty());
}

TEST_CASE("A withdrawn record stays in the list and counts for nothing") {
    Kept at;
    at.logs({"", "mould", "2026-11-20", "4", "mould", "", "", ""});
    at.does(WithdrawKeeping{at.model().records.front().id, "another product"});
    REQUIRE(at.plant.was_done());
    CHECK(at.model().records.front().is_withdrawn);
    CHECK(at.model().advice.empty());
}

TEST_CASE("A change of a product's dough is taken back by its undo, field by field") {
    Kept at;
    const auto before = at.model().figures;
    at.does(ChangeDough{.product = "Pan bread",
                        .process = "Sponge and dough",
                        .most_fermentation = "240",
                        .preservative_percent = "0.2",
                        .enzyme = "maltogenic amylase"});
    REQUIRE(at.plant.was_done());
    CHECK(shown(line(at.model(), "Enzyme for softness")).value == "maltogenic amylase");
    for (const auto& undo : Intents(at.plant.app().notice().undoing))
        at.does(undo);
    CHECK(shown(line(at.model(), "Enzyme for softness")).value == "none");
    CHECK(shown(line(at.model(), "In the bread")).value == "2069"); // of 0.3 % again
    at.does(ChangeDough{.product = "Pan bread", .process = "boiled", .most_fermentation = "soon"});
    CHECK_THAT(at.plant.refusals(), Contains("Process: ") && Contains("Longest fermentation: "));
}

TEST_CASE("An offset that nobody has measured is one again when the change of it is taken back") {
    Kept at;
    const auto is_assumed = [&] {
        SqliteConnection connection(at.plant.book_path());
        return PlantStore(connection).products().front().is_offset_assumed;
    };
    REQUIRE(is_assumed());
    at.does(ChangeDough{.product = "Pan bread", .water_offset = "3"});
    CHECK_FALSE(is_assumed());
    for (const auto& undo : Intents(at.plant.app().notice().undoing))
        at.does(undo);
    CHECK(is_assumed());
}
