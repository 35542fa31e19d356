#include "exchange/climate_day.h"

#include "exchange/json_value.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace mellowbin::exchange {
namespace {

using nlohmann::json;
using Nodes = std::array<double, aging::clock_nodes>;

/// Those behind the last that is not 0 are left out: most clocks have three nodes, and most days are
/// measured.
json without_the_rest(const Nodes& nodes) {
    const auto last = std::find_if(nodes.rbegin(), nodes.rend(), [](double node) { return node != 0; });
    return std::vector<double>(nodes.begin(), last.base());
}

Nodes nodes_from(const json& in) {
    Nodes nodes{};
    for (std::size_t i = 0; i < in.size(); ++i)
        nodes.at(i) = in[i].get<double>();
    return nodes;
}

} // namespace

std::string climate_day_as_json(const aging::ClimateDay& day) {
    json runs = json::array(), gaps = json::array();
    for (const auto& run : day.runs) {
        runs.push_back({without_the_rest(run.all), without_the_rest(run.assumed)});
        if (run.is_cold())
            runs.back().insert(runs.back().end(),
                               {without_the_rest(run.cold), without_the_rest(run.cold_assumed)});
    }
    for (const auto& gap : day.gaps)
        gaps.push_back({gap.from, gap.until});
    json out{{"runs", runs},
             {"air", {day.low.value(), day.mean.value(), day.high.value()}},
             {"flour", day.air.temperature.value()},
             {"measured", day.measured},
             {"readings", day.readings}};
    if (!gaps.empty())
        out["gaps"] = gaps;
    if (day.humidity)
        out["humidity"] = day.humidity->value();
    if (day.air.equilibrium)
        out["equilibrium"] = day.air.equilibrium->value();
    return out.dump();
}

std::optional<aging::ClimateDay> climate_day_from_json(Day which, std::string_view text) {
    try {
        const json in = json::parse(text);
        aging::ClimateDay day;
        day.day = which;
        for (std::size_t i = 0; i < aging::clock_kinds; ++i) {
            const auto& run = in.at("runs").at(i);
            day.runs[i] = {nodes_from(run.at(0)), nodes_from(run.at(1)), {}, {}};
            if (run.size() > 2) {
                day.runs[i].cold = nodes_from(run.at(2));
                day.runs[i].cold_assumed = nodes_from(run.at(3));
            }
        }
        const auto& air = in.at("air");
        day.low = Celsius{air.at(0).get<double>()};
        day.mean = Celsius{air.at(1).get<double>()};
        day.high = Celsius{air.at(2).get<double>()};
        day.air.temperature = Celsius{in.at("flour").get<double>()};
        day.measured = in.at("measured").get<double>();
        day.readings = small_number(in.at("readings"));
        for (const auto& gap : in.value("gaps", json::array()))
            day.gaps.push_back({gap.at(0).get<double>(), gap.at(1).get<double>()});
        if (in.contains("humidity"))
            day.humidity = RelativeHumidity{in["humidity"].get<double>()};
        if (in.contains("equilibrium"))
            day.air.equilibrium = Moisture{in["equilibrium"].get<double>()};
        return day;
    } catch (const std::exception&) { // json's own, or more nodes than a clock has
        return {};
    }
}

} // namespace mellowbin::exchange
