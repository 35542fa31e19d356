#pragma once

#include "app/models/outlook.h"

#include <nlohmann/json.hpp>

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

/// One entry for each row.
template <class Rows, class Each> ordered_json list_of(const Rows& rows, Each each) {
    ordered_json all = ordered_json::array();
    for (const auto& row : rows)
        all.push_back(each(row));
    return all;
}

inline std::string as_document(const ordered_json& json) { return json.dump(2) + "\n"; }

} // namespace mellowbin::cli
