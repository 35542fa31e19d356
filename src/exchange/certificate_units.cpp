#include "core/decimal.h"
#include "core/promised.h"
#include "core/shipped_table.h"
#include "core/typed_text.h"
#include "exchange/certificate_units_text.h"
#include "exchange/certificate_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <stdexcept>

namespace mellowbin::exchange {
namespace {

/// A unit without blanks, in lower case, superscripts on the line, one sign for micro and for times.
std::string bare(std::string_view text) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 14> signs{{
        {"\u00B2", "2"},
        {"\u00B3", "3"},
        {"\u2074", "4"},
        {"\u207B", "-"},
        {"\u2212", "-"},
        {"\u2013", "-"},
        {"\u00B5", "u"},
        {"\u03BC", "u"},
        {"\u00D7", "x"},
        {"\u00B7", "."},
        {"\u22C5", "."},
        {"\u00A0", ""},
        {"\u202F", ""},
        {"\u2082", "2"},
    }};
    std::string words;
    text = trimmed(text);
    while (!text.empty()) {
        const auto sign = std::find_if(signs.begin(), signs.end(),
                                       [&](const auto& s) { return text.starts_with(s.first); });
        if (sign != signs.end()) {
            words += sign->second;
            text.remove_prefix(sign->first.size());
            continue;
        }
        if (text.front() != ' ' && text.front() != '\t')
            words += lower_case(text.substr(0, 1));
        text.remove_prefix(1);
    }
    while (words.size() > 1 && words.ends_with('.'))
        words.pop_back(); // "Sek."
    return words;
}

std::vector<std::string> parts(std::string_view text, char parted_by) {
    std::vector<std::string> all;
    for (std::size_t at = 0; at <= text.size();) {
        const auto end = std::min(text.find(parted_by, at), text.size());
        all.emplace_back(text.substr(at, end - at));
        at = end + 1;
    }
    return all;
}

std::vector<UnitWords> read_units() {
    std::vector<UnitWords> units;
    for (const auto& row : rows_of_table(tables::certificate_units)) {
        const auto factor = read_decimal("", row.cells.at(2));
        if (!factor || factor->value_or(0) <= 0)
            throw std::logic_error(fmt::format("certificate units, line {}: no factor", row.number));
        UnitWords unit{row.cells.at(0), parts(row.cells.at(1), ' '), **factor, {}, row.cells.at(4)};
        for (const auto& word : parts(row.cells.at(3), ';'))
            unit.words.push_back(bare(word));
        units.push_back(std::move(unit));
    }
    return units;
}

using ByWords = std::map<std::string, std::vector<const UnitWords*>>;

ByWords units_by_words() {
    ByWords all;
    for (const auto& unit : certificate_units()) {
        std::set<std::string> words(unit.words.begin(), unit.words.end());
        words.insert(bare(unit.key));
        for (const auto& word : words)
            all[word].push_back(&unit);
    }
    all.erase("");
    return all;
}

std::string_view quantity_of(const Meaning& meaning) {
    if (meaning.substance)
        return "dose";
    if (meaning.fact)
        return *meaning.fact == LotFact::weight || *meaning.fact == LotFact::bag_weight ? "mass"
               : *meaning.fact == LotFact::flour_temperature                            ? "temperature"
                                                                                        : "";
    switch (*meaning.property) {
    case Property::gluten_index:
        return "index";
    case Property::softening:
        return "farinograph";
    case Property::extensograph_resistance:
        return "extensograph";
    case Property::alveograph_p:
        return "length"; // of the curve; see is_of()
    default:
        break;
    }
    const auto unit = traits(*meaning.property).unit;
    for (const auto& row : certificate_units())
        if (row.key == unit)
            return row.quantities.front();
    promised(unit.empty());
    return "";
}

/// Figures of the gluten index are plain or in %; P is mm of the curve, which stand for mm of water (ISO
/// 27971).
bool is_of(const UnitWords& unit, const Meaning& meaning) {
    const auto has = [&](std::string_view quantity) {
        return std::find(unit.quantities.begin(), unit.quantities.end(), quantity) != unit.quantities.end();
    };
    if (meaning.property == Property::gluten_index)
        return unit.key == "%" && has("fraction");
    if (meaning.property == Property::alveograph_p && has("water_column"))
        return true;
    const auto quantity = quantity_of(meaning);
    return !quantity.empty() && has(quantity);
}

} // namespace

std::span<const UnitWords> certificate_units() {
    static const auto units = read_units();
    return units;
}

std::vector<const UnitWords*> units_named(std::string_view text) {
    // Asked of every field of a file: the longest way a unit is written is short.
    constexpr std::size_t longest = 40;
    if (text.size() > longest)
        return {};
    static const auto by_words = units_by_words();
    const auto at = by_words.find(bare(text));
    return at == by_words.end() ? std::vector<const UnitWords*>{} : at->second;
}

std::vector<const UnitWords*> units_for(const Meaning& meaning) {
    std::vector<const UnitWords*> all;
    for (const auto& unit : certificate_units())
        if (is_of(unit, meaning))
            all.push_back(&unit);
    std::stable_partition(all.begin(), all.end(),
                          [&](const UnitWords* unit) { return unit->key == own_unit(meaning); });
    return all;
}

std::vector<const UnitWords*> fitting_units(const Meaning& meaning, std::string_view text) {
    auto named = units_named(text);
    std::erase_if(named, [&](const UnitWords* unit) { return !is_of(*unit, meaning); });
    return named;
}

std::string_view own_unit(const Meaning& meaning) {
    if (meaning.property)
        return traits(*meaning.property).unit;
    const auto quantity = quantity_of(meaning);
    return quantity == "mass" ? "kg" : quantity == "dose" ? "mg/kg" : "";
}

double factor_to_own(const Meaning& meaning, const UnitWords& unit) {
    // Temperatures keep their unit: its zero is another, too.
    if (meaning.fact == LotFact::flour_temperature || own_unit(meaning).empty())
        return 1;
    for (const auto* own : units_for(meaning))
        if (own->key == own_unit(meaning))
            return unit.factor / own->factor;
    return unit.factor;
}

} // namespace mellowbin::exchange
