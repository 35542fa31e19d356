#include "core/limit_update.h"

#include <map>
#include <set>
#include <tuple>

namespace mellowbin {
namespace {

auto identity_of(const LimitRow& row) {
    return std::tuple(row.market, row.substance, row.food, row.valid_from, row.sum_group, row.rule);
}

auto identity_of(const PropionateRow& row) { return std::tuple(row.market, row.bread); }

template <class Row> Row under_number(Row row, std::int64_t id) {
    row.id = id;
    return row;
}

template <class Row>
LimitUpdate<Row> update(std::span<const Row> held, std::span<const Row> shipped,
                        std::span<const Correction<Row>> corrections) {
    using Key = decltype(identity_of(Row{}));
    std::multimap<Key, const Correction<Row>*> by_key;
    for (const auto& correction : corrections)
        by_key.emplace(identity_of(correction.was), &correction);
    LimitUpdate<Row> due;
    std::set<Key> known; // under its old key a row is the one that is shipped in its place
    for (const auto& row : held) {
        known.insert(identity_of(row));
        const auto [first, last] = by_key.equal_range(identity_of(row));
        const Correction<Row>* untouched = nullptr;
        for (auto at = first; at != last; ++at) {
            known.insert(identity_of(at->second->now));
            if (under_number(row, 0) == at->second->was)
                untouched = at->second;
        }
        if (untouched)
            due.corrected.push_back(under_number(untouched->now, row.id));
        else if (first != last && under_number(row, 0) != first->second->now)
            due.left.push_back(row);
    }
    for (const auto& row : shipped)
        if (!known.contains(identity_of(row)))
            due.added.push_back(row);
    return due;
}

} // namespace

LimitUpdate<LimitRow> update_of(std::span<const LimitRow> held, std::span<const LimitRow> shipped,
                                std::span<const Correction<LimitRow>> corrections) {
    return update(held, shipped, corrections);
}

LimitUpdate<PropionateRow> update_of(std::span<const PropionateRow> held,
                                     std::span<const PropionateRow> shipped,
                                     std::span<const Correction<PropionateRow>> corrections) {
    return update(held, shipped, corrections);
}

} // namespace mellowbin
