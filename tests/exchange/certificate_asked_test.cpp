#include "exchange/certificate_words.h"
#include "support/certificate_reading.h"

namespace mellowbin::exchange {
namespace {

using testing::asked_in;
using testing::draft_of;
using testing::figure_in;
using testing::read;
using testing::request;
using Keys = std::vector<std::string>;

CertificateQuestion question(const CertificateReading& reading, const std::string& key) {
    for (const auto& asked : reading.questions)
        if (asked.key == key)
            return asked;
    FAIL("not asked: " << key);
    return {};
}

std::vector<std::string> choices_of(const CertificateQuestion& asked) {
    std::vector<std::string> keys;
    for (const auto& choice : asked.choices)
        keys.push_back(choice.key);
    return keys;
}

} // namespace

TEST_CASE("A unit that no word states is asked once for all lots, and the answer holds for the mill") {
    const std::string text = "Lot number\tFalling number\nW-1\t320\nW-2\t331\n";
    auto reading = read(text);
    CHECK(asked_in(reading) == Keys{"unit:falling number"});
    const auto asked = question(reading, "unit:falling number");
    CHECK(asked.times == 2);
    CHECK(choices_of(asked) == std::vector<std::string>{"s", "min"});
    CHECK(asked.where == "line 2, column 2");
    CHECK(reading.lots[1].questions == Keys{"unit:falling number"});
    CHECK(draft_of(reading, 0).figures.empty()); // nothing was guessed

    reading = read(text, request({{"unit:falling number", "s"}}));
    CHECK(reading.questions.empty());
    CHECK(figure_in(draft_of(reading, 1), Property::falling_number)->value == "331");

    // The next paper of the mill needs no answer.
    auto next = request();
    next.known = reading.mapping;
    CHECK(read("Lot number\tFalling number\nW-3\t298\n", next).questions.empty());
}

TEST_CASE("A basis is asked where the property needs one, and any may be typed") {
    const std::string text = "Lot number: W-1\nProtein 12.5 %\nMoisture 14.2 %\nStability 9 min\n";
    CHECK(asked_in(read(text)) == Keys{"basis:protein"});
    const auto reading = read(text, request({{"basis:protein", "13.5 % moisture"}}));
    CHECK(reading.questions.empty());
    CHECK(figure_in(draft_of(reading, 0), Property::protein)->basis == "13.5 % moisture");
    const auto* learned = label_in(reading.mapping, "protein");
    REQUIRE(learned);
    CHECK(*learned == LabelMeaning{"protein", "Protein", "protein", "%", "13.5 % moisture", "", ""});
}

TEST_CASE("A method is asked where figures mean nothing without one") {
    const std::string text = "Lot number: W-1\nDamaged starch (14 % moisture) 7.2 %\n";
    CHECK(asked_in(read(text)) == Keys{"method:damaged starch"});
    const auto reading = read(text, request({{"method:damaged starch", "AACC 76-31"}}));
    CHECK(figure_in(draft_of(reading, 0), Property::starch_damage)->method == "AACC 76-31");
}

TEST_CASE("A figure that may be a thousand or one and a bit is asked, unless the paper shows how it writes") {
    const std::string lot = "Lot number: W-1\nWeight: 1.250 kg\n";
    auto reading = read(lot);
    CHECK(asked_in(reading) == Keys{"decimal_mark:"});
    CHECK(question(reading, "decimal_mark:").words == "Is \"1.250 kg\" 1.250 or 1250?");
    CHECK(draft_of(reading, 0).mass_kg.empty());

    CHECK(draft_of(read(lot, request({{"decimal_mark:", "point"}})), 0).mass_kg == "1.250");
    reading = read(lot, request({{"decimal_mark:", "comma"}}));
    CHECK(draft_of(reading, 0).mass_kg == "1250");
    CHECK(reading.mapping.decimals == DecimalMark::comma);
    CHECK(draft_of(read(lot + "Moisture: 14,2 %\n"), 0).mass_kg == "1250");
    CHECK(draft_of(read(lot + "Moisture: 14.2 %\n"), 0).mass_kg == "1.250");
    // Both marks on one paper prove neither.
    CHECK(asked_in(read(lot + "Moisture: 14.2 %\nStability 9,5 min\n")) == Keys{"decimal_mark:"});
}

TEST_CASE("A day that may be two is asked, unless another day of the paper shows the order") {
    const std::string lot = "Lot number: W-1\nMilled on: 03/04/2026\n";
    auto reading = read(lot);
    CHECK(asked_in(reading) == Keys{"date_order:"});
    CHECK(question(reading, "date_order:").choices[1].words == "2026-03-04: the month stands first");
    CHECK(draft_of(read(lot, request({{"date_order:", "month_first"}})), 0).milled_on == "2026-03-04");
    reading = read(lot + "Best before: 30/04/2027\n");
    CHECK(draft_of(reading, 0).milled_on == "2026-04-03");
    CHECK(testing::says(reading.notes.at(0), "day first"));
    CHECK(reading.mapping.dates == DateOrder::day_first);
}

TEST_CASE("A month without its day is asked, and never made the first of it") {
    const std::string lot = "Lot number: W-1\nBest before: 11/2027\n";
    const auto keys = asked_in(read(lot));
    REQUIRE(keys.size() == 1);
    CHECK(draft_of(read(lot), 0).best_before.empty());
    CHECK(draft_of(read(lot, request({{keys[0], "2027-11-30"}})), 0).best_before == "2027-11-30");
    CHECK(asked_in(read(lot, request({{keys[0], "the end of it"}}))) == keys);
}

TEST_CASE("A label that may mean two things is asked; its unit may tell them apart") {
    CHECK(asked_in(read("Lot number: W-1\nGluten: 30 %\n")) ==
          Keys{"basis:gluten"}); // only the wet one is of ours in %
    auto reading = read("Lot number: W-1\nDehnbarkeit: 150 mm\n");
    CHECK(asked_in(reading) == Keys{"meaning:dehnbarkeit"});
    CHECK(choices_of(question(reading, "meaning:dehnbarkeit")) ==
          std::vector<std::string>{"extensibility", "alveograph_l", "left_out"});
    reading =
        read("Lot number: W-1\nDehnbarkeit: 150 mm\n", request({{"meaning:dehnbarkeit", "alveograph_l"}}));
    CHECK(reading.questions.empty());
    CHECK(figure_in(draft_of(reading, 0), Property::alveograph_l)->value == "150");
    reading = read("Lot number: W-1\nDehnbarkeit: 150 mm\n", request({{"meaning:dehnbarkeit", "left_out"}}));
    CHECK(draft_of(reading, 0).figures.empty());
    CHECK(reading.questions.empty());
}

TEST_CASE("A label with words that nobody knows beside one that is known is asked") {
    const std::string text = "Lot number: W-1\nProtein of the second sample: 12.5 %\n";
    CHECK(asked_in(read(text)) == Keys{"meaning:protein of the second sample"});
}

TEST_CASE("Two columns of one property are asked once, and the answer is kept") {
    const std::string text =
        "Lot number\tProtein % (as is)\tProtein % (dry matter)\nW-1\t12.1\t14.1\nW-2\t12.2\t14.2\n";
    auto reading = read(text);
    REQUIRE(reading.questions.size() == 1);
    const auto asked = reading.questions[0];
    CHECK(asked.kind == QuestionKind::which_value);
    CHECK(asked.times == 2);
    CHECK(choices_of(asked) == std::vector<std::string>{"protein as is", "protein dry matter"});
    reading = read(text, request({{asked.key, "protein dry matter"}}));
    CHECK(reading.questions.empty());
    REQUIRE(draft_of(reading, 1).figures.size() == 1);
    CHECK(draft_of(reading, 1).figures[0].value == "14.2");

    auto next = request();
    next.known = reading.mapping;
    CHECK(read(text, next).questions.empty());
}

TEST_CASE("A property that stands twice for a lot is asked, and is one where both say the same") {
    const std::string text = "Lot number: W-1\nMoisture 14.2 %\nMoisture ";
    CHECK(read(text + "14,20 %\n").questions.empty());
    auto reading = read(text + "14.4 %\n");
    REQUIRE(reading.questions.size() == 1);
    CHECK(choices_of(reading.questions[0]) == std::vector<std::string>{"line 2", "line 3"});
    reading = read(text + "14.4 %\n", request({{reading.questions[0].key, "line 3"}}));
    REQUIRE(draft_of(reading, 0).figures.size() == 1);
    CHECK(draft_of(reading, 0).figures[0].value == "14.4");
    CHECK(reading.questions.empty());
}

TEST_CASE("A mill's name for itself and its flour is asked once, and then known") {
    const std::string text = "Mühle: Ostfelder Walzmühle\nSorte: Type 550\nCharge: O-1\nFeuchte 14,2 %\n";
    auto asked = request();
    asked.mills = {"Weir Mill", "Ostfeld"};
    asked.flours = {"Bread flour", "Wholemeal flour"};
    auto reading = read(text, asked);
    CHECK(asked_in(reading) == Keys{"which_name:mill:ostfelder walzmuhle", "which_name:flour:type 550"});
    asked.answers = {{"which_name:mill:ostfelder walzmuhle", "Ostfeld"},
                     {"which_name:flour:type 550", "Bread flour"}};
    reading = read(text, asked);
    CHECK(reading.questions.empty());
    CHECK(draft_of(reading, 0).mill == "Ostfeld");
    CHECK(draft_of(reading, 0).flour == "Bread flour");

    asked.answers.clear();
    asked.known = reading.mapping;
    CHECK(read(text, asked).questions.empty());
    CHECK(read("Mill: weir mill\nLot: W-1\nMoisture 14 %\n", asked).lots[0].draft.mill == "Weir Mill");
}

TEST_CASE("The mapping says in full what was used, and a person's correction holds") {
    auto reading = read("Lot number: W-1\nEiweiß (N x 6,25) i. Tr. 15,2 %\nResistance 420 BE\n");
    const auto* protein = label_in(reading.mapping, "eiweiss");
    REQUIRE(protein);
    CHECK(protein->means == "protein");
    CHECK(protein->unit == "%");
    CHECK(protein->basis == "dry matter");
    CHECK(protein->nitrogen_factor == "6.25");
    CHECK(label_in(reading.mapping, "resistance")->unit == "BU");

    auto corrected = request();
    corrected.known = reading.mapping;
    for (auto& label : corrected.known.labels)
        if (label.label == "resistance")
            label.means = std::string(left_out_key);
    reading = read("Lot number: W-1\nResistance 420 BE\nMoisture 14 %\n", corrected);
    CHECK(!figure_in(draft_of(reading, 0), Property::extensograph_resistance));
}

TEST_CASE("What a later paper taught goes over what an earlier did") {
    CertificateMapping earlier, later;
    earlier.labels = {{"a", "A", "ash", "%", "as is", "", ""}, {"b", "B", "protein", "%", "", "", ""}};
    earlier.decimals = DecimalMark::comma;
    later.labels = {{"a", "A", "ash", "%", "dry matter", "", ""}};
    later.names = {{"mill", "x", "X", "Weir Mill"}};
    later.dates = DateOrder::day_first;
    const auto both = with_learned(earlier, later);
    CHECK(both.labels.size() == 2);
    CHECK(label_in(both, "a")->basis == "dry matter");
    CHECK(both.names.size() == 1);
    CHECK(both.decimals == DecimalMark::comma);
    CHECK(both.dates == DateOrder::day_first);
    CHECK(date_order_from_key(key_of(DateOrder::month_first)) == DateOrder::month_first);
    CHECK(decimal_mark_from_key("?") == DecimalMark::not_known);
}

} // namespace mellowbin::exchange
