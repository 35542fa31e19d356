#include "core/certificate.h"
#include "exchange/certificate_figure.h"
#include "exchange/certificate_label.h"
#include "exchange/certificate_phrases.h"
#include "exchange/certificate_words.h"
#include "support/catch.h"

#include <set>

namespace mellowbin::exchange {
namespace {

Meaning meaning(const char* key) {
    const auto found = meaning_from_key(key);
    REQUIRE(found);
    return *found;
}

/// What 1 of the unit is in the meaning's own.
double factor(const char* key, const char* unit) {
    INFO(key << " in " << unit);
    const auto units = fitting_units(meaning(key), unit);
    REQUIRE(units.size() == 1);
    return factor_to_own(meaning(key), *units.front());
}

std::string means(const std::string& text) {
    const auto label = read_label(text, {});
    std::string keys;
    for (const auto& key : label.means)
        keys += (keys.empty() ? "" : " ") + key;
    switch (label.state) {
    case LabelState::known:
        return keys;
    case LabelState::ambiguous:
        return "? " + keys;
    case LabelState::partial:
        return "~ " + keys;
    case LabelState::left_out:
        return "-";
    case LabelState::of_grain:
        return "grain";
    case LabelState::not_known:
        break;
    }
    return "";
}

} // namespace

TEST_CASE("Words are compared without case, accents and marks") {
    CHECK(folded("Feuchtkleber-Gehalt (i. Tr.)") == "feuchtkleber gehalt i tr");
    CHECK(folded("Eiweiß  MÜHLE") == "eiweiss muhle");
    CHECK(folded("N° de lot") == "n de lot");
    CHECK(folded("Taux d’humidité") == "taux d humidite");
    CHECK(folded("Índice de caída, œuf") == "indice de caida oeuf");
    CHECK(folded(" – ").empty());
    CHECK(folded("влажность") == "влажность"); // another script is itself
}

TEST_CASE("Each word of the table has a source or says that it has none, and stands once") {
    std::set<std::string> words;
    for (const auto& word : certificate_words()) {
        INFO(word.words);
        CHECK(!word.source.empty());
        CHECK(!word.means.empty());
        CHECK(words.insert(word.words).second);
        CHECK(folded(word.words) == word.words);
    }
    CHECK(words.size() > 400);
    for (const auto& unit : certificate_units())
        CHECK(!unit.source.empty());
}

TEST_CASE("Every property has words in four languages, or one for all of them") {
    std::map<std::string, std::set<std::string>> languages;
    for (const auto& word : certificate_words())
        for (const auto& key : word.means)
            languages[key].insert(word.language);
    for (const auto& property : all_properties()) {
        INFO(property.key);
        const auto& of = languages[std::string(property.key)];
        CHECK((of.contains("all") || of.size() == 4));
    }
}

TEST_CASE("Labels in four languages mean one thing, with what stands beside the name") {
    CHECK(means("Feuchtigkeit [%]") == "moisture");
    CHECK(means("Eiweiß (N x 5,7) i. Tr.") == "protein");
    CHECK(means("Taux de cendres (% s/sec)") == "ash");
    CHECK(means("Gluten húmedo (14 % humedad)") == "wet_gluten");
    CHECK(means("Indice de chute de Hagberg (s)") == "falling_number");
    CHECK(means("Wasseraufnahme (bei 14 % Feuchte) %") == "absorption");
    CHECK(means("Fuerza W") == "alveograph_w");
    CHECK(means("P mm") == "alveograph_p");
    CHECK(means("Mindestens haltbar bis:") == "best_before");
    CHECK(means("N° de lot") == "lot_number");
    CHECK(means("Ascorbinsäure mg/kg") == "ascorbic_acid");

    const auto label = read_label("Rohprotein (Nx5.7) in % i.Tr. (ICC-Standard Nr. 105/2)", {});
    CHECK(label.unit == "%");
    CHECK(label.basis == "dry matter");
    CHECK(label.method == "ICC-Standard Nr. 105/2");
    CHECK(label.nitrogen_factor == "5.7");
}

TEST_CASE("A label that may mean two things, or says more than is known, is not taken for one") {
    CHECK(means("Gluten") == "? wet_gluten left_out");
    CHECK(means("Dehnbarkeit") == "? extensibility alveograph_l");
    CHECK(means("Datum") == "? certificate_date milled_on delivered_on");
    CHECK(means("Protein of the bread") == "~ protein");
    CHECK(means("Wheat falling number s") == "grain"); // another thing than the flour's
    CHECK(means("P/L") == "-");                        // neither P nor L
    CHECK(means("Salz") == "-");
    CHECK(means("Loaf volume cc per 100 g") == "");
    CHECK(means("Quality matters to us") == "");
    CHECK(means("Vitamin C") == "ascorbic_acid"); // no degrees Celsius
}

TEST_CASE("Units are those of UCUM and of recommendation 20, with their exact factors") {
    // standards.md 3.4: UCUM 2.2 and UN/CEFACT Rec 20 rev. 17.
    CHECK(factor("weight", "kg") == 1);
    CHECK(factor("weight", "g") == 0.001);
    CHECK(factor("weight", "t") == 1000);
    CHECK(factor("weight", "lbs") == 0.45359237);
    CHECK(factor("weight", "short ton") == 2000 * 0.45359237);
    CHECK(factor("weight", "long ton") == 1016.0469088); // 2240 lb
    CHECK(factor("weight", "dt") == 100);
    CHECK(factor("ascorbic_acid", "ppm") == 1);
    CHECK(factor("ascorbic_acid", "%") == 10'000); // 1 % = 10,000 ppm
    CHECK(factor("ascorbic_acid", "g/100 kg") == 10);
    CHECK(factor("falling_number", "Sek.") == 1);
    CHECK(factor("falling_number", "min") == 60);
    CHECK(factor("stability", "min") == 1);
    CHECK(factor("stability", "s") == Approx(1.0 / 60));
    CHECK(factor("protein", "g/kg") == 0.1);
    CHECK(factor("protein", "g/100 g") == 1);
    CHECK(factor("extensibility", "cm") == 10);
    CHECK(factor("sedimentation", "cm³") == 1);
    CHECK(factor("free_sulfhydryl", "nmol/g") == 0.001);
    CHECK(factor("glutathione", "µmol/g") == 1000);
    CHECK(factor("fat_acidity", "mg KOH/g") == 100);
    for (const char* unit : {"1e-4 J", "10⁻⁴ J", "10-4 J", "x10-4 J", "J·10-4", "10E-4 J"})
        CHECK(factor("alveograph_w", unit) == 1);
    CHECK(factor("alveograph_w", "mJ") == 10);
    // One unit by many names: common practice, no source.
    for (const char* unit : {"FU", "FE", "UF", "BU", "BE", "UB"})
        CHECK(factor("softening", unit) == 1);
    for (const char* unit : {"EU", "BU", "BE", "UB"})
        CHECK(factor("extensograph_resistance", unit) == 1);
}

TEST_CASE("A unit that does not fit is none, and one of two is both") {
    CHECK(fitting_units(meaning("protein"), "lb").empty());
    CHECK(fitting_units(meaning("softening"), "EU").empty());
    CHECK(fitting_units(meaning("moisture"), "s").empty());
    CHECK(fitting_units(meaning("glutathione"), "mg/kg").empty()); // an amount is no mass
    CHECK(fitting_units(meaning("weight"), "ton").size() == 3);
    CHECK(units_named("furlong").empty());
    CHECK(own_unit(meaning("gluten_index")).empty());
    CHECK(units_for(meaning("weight")).front()->key == "kg");
}

TEST_CASE("Every property's own unit is one that its figures may be in") {
    for (const auto& property : all_properties()) {
        INFO(property.key);
        const auto of = meaning(std::string(property.key).c_str());
        if (property.unit.empty())
            continue;
        const auto fitting = fitting_units(of, property.unit);
        REQUIRE(fitting.size() == 1);
        CHECK(factor_to_own(of, *fitting.front()) == 1);
    }
}

TEST_CASE("A basis is read in four languages, and nothing else is taken for one") {
    for (const char* words :
         {"dry matter", "d.m.", "i. Tr.", "i.TS", "s/sec", "sur MS", "s.m.s.", "base seca", "DM"})
        CHECK(basis_in_words(words) == "dry matter");
    for (const char* words : {"as is", "as received", "Originalsubstanz", "tel quel", "tal cual"})
        CHECK(basis_in_words(words) == "as is");
    for (const char* words : {"14 % moisture", "14.0 % m.b.", "bei 14 % Feuchte", "à 14 % d'humidité",
                              "14% H2O", "14,0 % humedad", "14 %"})
        CHECK(basis_in_words(words) == "14 % moisture");
    CHECK(basis_in_words("13,5 % Feuchte") == "13.5 % moisture");
    for (const char* words : {"", "wet", "min. 14", "14 % moisture min. 28"})
        CHECK(!basis_in_words(words));
    CHECK(take_phrases("MS").basis.empty() == false); // the words alone
    CHECK(take_phrases("Moisture 14.2 %").basis.empty());
}

TEST_CASE("Figures are read as they are printed, and what may be two is said to be two") {
    using Kind = PrintedFigure::Kind;
    const auto read = [](const char* text) { return read_printed_figure(text); };
    const auto value = [&](const char* text) {
        return read(text).kind == Kind::figure ? read(text).value : "no figure";
    };
    CHECK(value("12,5") == "12.5");
    CHECK(value("12.50 %") == "12.50");
    CHECK(read("12,5 % i. Tr.").rest == "% i. Tr.");
    CHECK(value("1 250,5") == "1250.5");
    CHECK(value("1'250") == "1250");
    CHECK(value("1.250,5") == "1250.5");
    CHECK(value("1,250.5") == "1250.5");
    CHECK(value("1.250.000") == "1250000");
    CHECK(value("−3") == "-3");
    CHECK(value("0,470") == "0.470"); // no thousands begin with a zero
    CHECK(value("0.52 ± 0.02") == "0.52");
    CHECK(read("0.52 ± 0.02").note == "± 0.02");
    CHECK(value("12.5*") == "12.5");
    CHECK(read("1.250").kind == Kind::two_readings);
    CHECK(read("1.250").value == "1.250");
    CHECK(read("1.250").other == "1250");
    CHECK(read("24,500 kg").kind == Kind::two_readings);
    for (const char* text : {"", "-", "–", "n. d.", "k.A.", "not determined", "./."})
        CHECK(read(text).kind == Kind::missing);
    for (const char* text : {"< 0.1", "≥ 250", "max. 15", "11 - 13", "11,0 – 13,0", "~12"})
        CHECK(read(text).kind == Kind::limit);
    for (const char* text : {"absent", "1.2.3", "1,2,3", "%"})
        CHECK(value(text) == "no figure");
}

TEST_CASE("Days are read as they are printed, and what may be two is said to be two") {
    using Kind = PrintedDay::Kind;
    const auto day = [](const char* text) {
        const auto read = read_printed_day(text);
        return read.kind == Kind::day ? iso(*read.day) : "no day";
    };
    for (const char* text : {"2026-11-02", "02.11.2026", "2.11.26", "2026/11/02", "20261102", "2 Nov 2026",
                             "2. November 2026", "2 novembre 2026", "2 de noviembre de 2026", "Nov 2, 2026",
                             "02-Nov-26", "2026-11-02 06:30", "2nd of November 2026"})
        CHECK(day(text) == "2026-11-02");
    CHECK(day("13/04/2026") == "2026-04-13");
    CHECK(day("04/13/2026") == "2026-04-13");
    CHECK(read_printed_day("13/04/2026").order == DateOrder::day_first);
    CHECK(read_printed_day("04/13/2026").order == DateOrder::month_first);
    CHECK(day("04/04/2026") == "2026-04-04"); // either way the same
    CHECK(day("1er août 2026") == "2026-08-01");
    const auto two = read_printed_day("03/04/2026");
    CHECK(two.kind == Kind::two_readings);
    CHECK(iso(*two.day) == "2026-04-03");
    CHECK(iso(*two.other) == "2026-03-04");
    for (const char* text : {"11/2026", "2026-11", "Nov 2026", "novembre 2026"})
        CHECK(read_printed_day(text).kind == Kind::month);
    for (const char* text : {"31.02.2026", "week 45", "12.5", "4711", "2026-13-01", "99999999", "soon"})
        CHECK(day(text) == "no day");
}

} // namespace mellowbin::exchange
