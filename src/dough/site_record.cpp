#include "dough/site_record.h"

#include "core/decimal.h"
#include "core/literature/constants.h"
#include "dough/keeping.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace mellowbin::dough {
namespace {

struct BakeSeen {
    int last_free = -1;
    std::optional<int> mould;
};

std::map<Day, BakeSeen> bakes_of(std::span<const KeepingRecord> records, ProductId product) {
    std::map<Day, BakeSeen> bakes;
    for (const auto& record : records) {
        if (record.product != product || record.is_withdrawn || record.kind != KeepingKind::mould)
            continue;
        auto& bake = bakes[record.baked_on];
        if (record.mould_seen)
            bake.mould = std::min(bake.mould.value_or(record.days), record.days);
        else
            bake.last_free = std::max(bake.last_free, record.days);
    }
    return bakes;
}

/// The last day until which no bake had mould, and on which three at least had been looked at.
std::optional<int> free_to(const std::map<Day, BakeSeen>& bakes, std::optional<int> earliest) {
    constexpr int enough = 3;
    std::vector<int> free;
    for (const auto& [day, bake] : bakes)
        free.push_back(earliest ? std::min(bake.last_free, *earliest - 1) : bake.last_free);
    std::sort(free.rbegin(), free.rend());
    if (free.size() < enough || free[enough - 1] < 0)
        return {};
    return free[enough - 1];
}

} // namespace

SiteMould site_mould(std::span<const KeepingRecord> records, ProductId product) {
    const auto bakes = bakes_of(records, product);
    SiteMould site;
    site.bakes = static_cast<int>(bakes.size());
    for (const auto& [day, bake] : bakes) {
        if (!bake.mould)
            continue;
        ++site.bakes_with_mould;
        site.earliest = std::min(site.earliest.value_or(*bake.mould), *bake.mould);
    }
    site.free_to = free_to(bakes, site.earliest);
    if (!bakes.empty()) {
        site.newest = bakes.rbegin()->first;
        // A bake that is still young and clean says nothing yet: the newest that has said something.
        for (auto at = bakes.rbegin(); at != bakes.rend(); ++at)
            if (at->second.mould || at->second.last_free >= literature::dough_early_mould.value) {
                site.newest_mould = at->second.mould;
                break;
            }
    }
    for (const auto& record : records)
        if (record.product == product && !record.is_withdrawn && record.ph &&
            (!site.ph_of || record.baked_on >= *site.ph_of)) {
            site.ph = record.ph;
            site.ph_of = record.baked_on;
        }
    return site;
}

bool is_early_mould(int day) { return day < literature::dough_early_mould.value; }

std::vector<std::string> keeping_advice(const SiteMould& mould, std::optional<double> ph,
                                        bool has_preservative) {
    std::vector<std::string> advice;
    if (!mould.newest_mould || !is_early_mould(*mould.newest_mould))
        return advice;
    advice.push_back(
        fmt::format("Clean first: mould on day {} is early. Baking kills spores; the loaf catches "
                    "new ones while it cools, is sliced and bagged. Look at air, slicer blades, "
                    "conveyors, returned bread; cool to the core before bagging",
                    *mould.newest_mould));
    if (has_preservative && ph)
        if (const auto acid = acid_at_work(*ph))
            advice.push_back(fmt::format("Then sour the dough: {}", in_words(*acid)));
    advice.emplace_back(
        has_preservative ? "Only then look at the dose: inside the market's limit, and mind that more of it "
                           "slows the yeast"
                         : "Only then think of a preservative: cultured wheat for a clean label, or "
                           "propionate");
    return advice;
}

std::vector<std::string> keeping_practice(FlourClass flour) {
    std::vector<std::string> words;
    const auto say = [&](const std::string& what) {
        words.push_back(what + " (common practice, no source)");
    };
    if (flour == FlourClass::wholemeal)
        say("Whole wheat bread moulds sooner than white, being moister");
    say(fmt::format("Propionate and cultured wheat want a dough below pH {}", fixed(trades_ph(), 1)));
    say(fmt::format("Mould before day {:g}: clean first, then cultured wheat",
                    literature::dough_early_mould.value));
    say("Amylase holds staling off: what it does here is measured as firmness");
    return words;
}

std::vector<FirmnessDay> firmness_by_day(std::span<const KeepingRecord> records, ProductId product) {
    std::map<int, FirmnessDay> days;
    for (const auto& record : records) {
        if (record.product != product || record.is_withdrawn || record.kind != KeepingKind::firmness)
            continue;
        auto& day = days[record.days];
        const bool is_first = day.loaves == 0;
        day.days = record.days;
        day.low = is_first ? record.firmness_g : std::min(day.low, record.firmness_g);
        day.high = is_first ? record.firmness_g : std::max(day.high, record.firmness_g);
        day.mean += record.firmness_g;
        ++day.loaves;
    }
    std::vector<FirmnessDay> all;
    for (auto& [number, day] : days) {
        day.mean /= day.loaves;
        all.push_back(day);
    }
    return all;
}

} // namespace mellowbin::dough
