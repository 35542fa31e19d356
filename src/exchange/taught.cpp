#include "exchange/taught.h"

#include "exchange/json_value.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <stdexcept>

namespace mellowbin::exchange {
namespace {

using dough::MixingState;
using dough::NormalState;
using dough::TaughtState;
using dough::WaterState;
using nlohmann::json;

// A mark is written every few hundred batches and read by nobody: rows of numbers, without names.

json as_json(const NormalState& unknowns) {
    return {{"mean", unknowns.mean}, {"covariance", unknowns.covariance}};
}

NormalState unknowns_from(const json& in) {
    return {in.at("mean").get<std::vector<double>>(), in.at("covariance").get<std::vector<double>>()};
}

template <class SomeId> SomeId id_from(const json& in) { return SomeId{whole_number(in)}; }

std::vector<std::int64_t> numbers(const std::vector<LotId>& lots) {
    std::vector<std::int64_t> all;
    for (const auto lot : lots)
        all.push_back(lot.number());
    return all;
}

template <class SomeId> std::vector<SomeId> ids_from(const json& in) {
    std::vector<SomeId> all;
    for (const auto& one : in)
        all.push_back(id_from<SomeId>(one));
    return all;
}

json as_json(const WaterState& water) {
    json expected = json::array(), products = json::array(), lines = json::array(), lots = json::array();
    for (const auto& one : water.expected)
        expected.push_back(json::array({one.product.number(), one.offset, one.is_assumed}));
    json groups = json::array(), operators = json::array();
    for (const auto& one : water.groups)
        groups.push_back({{"weight", one.weight}, {"unknowns", as_json(one.unknowns)}});
    for (const auto& one : water.operators)
        operators.push_back({{"line", one.line.number()}, {"weights", one.weights}});
    for (const auto& one : water.products)
        products.push_back(json::array({one.product.number(), one.unknown, one.words, numbers(one.met)}));
    for (const auto& one : water.lines)
        lines.push_back(json::array({one.product.number(), one.line.number(), one.unknown, one.words}));
    for (const auto& [lot, unknown] : water.lots)
        lots.push_back(json::array({lot.number(), unknown}));
    return {{"groups", groups},
            {"operators", operators},
            {"expected", expected},
            {"products", products},
            {"lines", lines},
            {"lots", lots},
            {"today", water.today ? json(iso(*water.today)) : json()}};
}

WaterState water_from(const json& in) {
    WaterState water;
    for (const auto& row : in.at("groups"))
        water.groups.push_back({row.at("weight").get<double>(), unknowns_from(row.at("unknowns"))});
    for (const auto& row : in.at("operators"))
        water.operators.push_back(
            {id_from<LineId>(row.at("line")), row.at("weights").get<std::vector<double>>()});
    for (const auto& row : in.at("expected"))
        water.expected.push_back(
            {id_from<ProductId>(row.at(0)), row.at(1).get<double>(), row.at(2).get<bool>()});
    for (const auto& row : in.at("products"))
        water.products.push_back({id_from<ProductId>(row.at(0)), whole_number(row.at(1)),
                                  small_number(row.at(2)), ids_from<LotId>(row.at(3))});
    for (const auto& row : in.at("lines"))
        water.lines.push_back({id_from<ProductId>(row.at(0)), id_from<LineId>(row.at(1)),
                               whole_number(row.at(2)), small_number(row.at(3))});
    for (const auto& row : in.at("lots"))
        water.lots[id_from<LotId>(row.at(0))] = whole_number(row.at(1));
    if (!in.at("today").is_null()) {
        const auto today = read_day("today", in.at("today").get<std::string>());
        if (!today)
            throw std::runtime_error("its day is none");
        water.today = *today;
    }
    return water;
}

json as_json(const MixingState& mixing) {
    json mixers = json::array(), products = json::array();
    for (const auto& one : mixing.mixers)
        mixers.push_back(
            json::array({one.line.number(), one.mean, one.slope, one.far_away, one.scattered, one.batches}));
    for (const auto& one : mixing.products)
        products.push_back(
            json::array({one.line.number(), one.product.number(), one.difference, one.batches}));
    return {{"unknowns", as_json(mixing.unknowns)}, {"mixers", mixers}, {"products", products}};
}

MixingState mixing_from(const json& in) {
    MixingState mixing;
    mixing.unknowns = unknowns_from(in.at("unknowns"));
    for (const auto& row : in.at("mixers"))
        mixing.mixers.push_back({id_from<LineId>(row.at(0)), whole_number(row.at(1)), whole_number(row.at(2)),
                                 small_number(row.at(3)), row.at(4).get<double>(), small_number(row.at(5))});
    for (const auto& row : in.at("products"))
        mixing.products.push_back({id_from<LineId>(row.at(0)), id_from<ProductId>(row.at(1)),
                                   whole_number(row.at(2)), small_number(row.at(3))});
    return mixing;
}

} // namespace

std::string taught_as_json(const TaughtState& state) {
    json newest = json::array();
    for (const auto& [product, lots] : state.newest) {
        json row = json::array({product.number()});
        for (const auto lot : lots)
            row.push_back(lot.number());
        newest.push_back(row);
    }
    return json{{"water", as_json(state.water)}, {"mixing", as_json(state.mixing)}, {"newest", newest}}
        .dump();
}

TaughtState taught_from_json(std::string_view text) {
    try {
        const json in = json::parse(text, nullptr, false); // json's own words would hold the bytes
        if (in.is_discarded())
            throw std::runtime_error("it is no JSON");
        TaughtState state;
        state.water = water_from(in.at("water"));
        state.mixing = mixing_from(in.at("mixing"));
        for (const auto& row : in.at("newest")) {
            auto& lots = state.newest[id_from<ProductId>(row.at(0))];
            for (std::size_t i = 1; i < row.size(); ++i)
                lots.push_back(id_from<LotId>(row.at(i)));
        }
        if (!is_whole(state))
            throw std::runtime_error("its unknowns do not fit together");
        return state;
    } catch (const std::exception& error) { // json's own or ours
        throw std::runtime_error(
            fmt::format("what doughs taught, as the book keeps it, cannot be read: {}", error.what()));
    }
}

} // namespace mellowbin::exchange
