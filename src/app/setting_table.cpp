#include "app/setting_table.h"

#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>

namespace mellowbin::app {
namespace {

using enum SettingKind;

constexpr std::array table{
    SettingTraits{"plant", "Plant", "", "", words, 0, 0, "The name on top of the window."},
    SettingTraits{"time_zone", "Time zone", "", "", words, 0, 0,
                  "IANA name of the plant's zone, such as Europe/Lisbon; empty takes the machine's."},
    SettingTraits{
        "confidence", "Confidence of a ready date", "0.80", "", number, 0.5, 0.99,
        "A lot counts as ready on the first day on which it is mature with this probability. A choice, no "
        "published limit."},
    SettingTraits{
        "least_chance_to_plan", "Least chance of being usable", "0.50", "", number, 0, 0.99,
        "A younger lot is not planned: the probability that half of its maturing is done, on the day of the "
        "run. A choice."},
    SettingTraits{"bread_ph", "Bread pH expected", "5.4", "", number, 3, 8,
                  "For the preservative's working range, until the site measures its own. An assumption."},
    SettingTraits{"weight_short", "Weight of missing flour", "5000", "per t", number, 0, 1e6,
                  "What a tonne short counts when plans are compared."},
    SettingTraits{"weight_window", "Weight of a property outside its window", "400", "per t and half width",
                  number, 0, 1e6, "What a tonne outside by half a window counts."},
    SettingTraits{"weight_maturity", "Weight of missing maturity", "300", "per t and 10 points", number, 0,
                  1e6, "What neither time nor permitted oxidant makes up."},
    SettingTraits{"weight_past_best", "Weight of flour past its best", "100", "per t", number, 0, 1e6, ""},
    SettingTraits{"weight_waste", "Weight of flour that expires unused", "250", "per t", number, 0, 1e6, ""},
    SettingTraits{"weight_oxidant", "Weight of oxidant", "60", "per t and 100 mg/kg", number, 0, 1e6,
                  "The dearer way: time comes first."},
    SettingTraits{"weight_lot_change", "Weight of a lot change on a line", "25", "each", number, 0, 1e6, ""},
};

} // namespace

std::span<const SettingTraits> setting_table() { return table; }

const SettingTraits* setting_traits(std::string_view key) {
    const auto* at =
        std::find_if(table.begin(), table.end(), [&](const auto& row) { return row.key == key; });
    return at == table.end() ? nullptr : &*at;
}

Result<std::string> accept_setting(const SettingTraits& setting, std::string_view typed) {
    if (setting.kind == words)
        return std::string(typed);
    const std::string unit(setting.unit);
    const auto read = read_required_decimal(setting.label, typed, {setting.low, setting.high, unit.c_str()});
    if (!read)
        return read.refusals();
    return fmt::format("{:g}", *read);
}

std::string Choices::words(std::string_view key) const {
    const auto* row = setting_traits(key);
    assert(row);
    const auto at =
        std::find_if(stored_.begin(), stored_.end(), [&](const Setting& s) { return s.key == key; });
    return at == stored_.end() ? std::string(row->otherwise) : at->value;
}

double Choices::number(std::string_view key) const {
    const auto read = read_decimal(key, words(key));
    if (read && *read)
        return **read;
    const auto otherwise = read_decimal(key, setting_traits(key)->otherwise);
    return **otherwise;
}

} // namespace mellowbin::app
