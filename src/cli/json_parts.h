#pragma once

#include "app/models/card.h"
#include "app/models/figure.h"
#include "app/models/outlook.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <optional>

/// What the read-models have in common, as JSON.
namespace mellowbin::cli {

using nlohmann::ordered_json;

inline ordered_json json_of(const std::optional<double>& value) {
    return value ? ordered_json(*value) : ordered_json(nullptr);
}
inline ordered_json json_of(const std::optional<Day>& day) {
    return day ? ordered_json(iso(*day)) : ordered_json(nullptr);
}
inline ordered_json json_of(const app::DaySpread& spread) {
    return {{"p10", json_of(spread.early)}, {"p50", json_of(spread.likely)}, {"p90", json_of(spread.late)}};
}

/// The value as it is read, without what rounding left of it.
inline ordered_json number_of(const app::Figure& figure) {
    if (!figure.value || figure.decimals < 0)
        return json_of(figure.value);
    const double steps = std::pow(10.0, figure.decimals);
    return std::round(*figure.value * steps) / steps;
}
/// In its fixed unit; "words" where there is no number to tell.
inline ordered_json json_of(const app::Figure& figure) {
    ordered_json json{{"label", figure.label}, {"value", number_of(figure)}};
    if (!figure.words.empty())
        json["words"] = figure.words;
    json["unit"] = figure.unit;
    json["note"] = figure.note;
    return json;
}

/// One entry for each row.
template <class Rows, class Each> ordered_json list_of(const Rows& rows, Each each) {
    ordered_json all = ordered_json::array();
    for (const auto& row : rows)
        all.push_back(each(row));
    return all;
}

inline ordered_json json_of(const app::CardVerdict& verdict) {
    static constexpr const char* rulings[] = {"mix", "answer_first", "do_not_mix"};
    auto reasons = list_of(verdict.reasons, [](const app::CardVerdict::Reason& reason) {
        return ordered_json{{"kind", reason.key},
                            {"words", reason.words},
                            {"lifted_by", reason.lifted_by},
                            {"source", reason.source}};
    });
    return {{"ruling", rulings[static_cast<int>(verdict.ruling)]}, {"reasons", std::move(reasons)}};
}

std::string as_document(const ordered_json& json);

} // namespace mellowbin::cli
