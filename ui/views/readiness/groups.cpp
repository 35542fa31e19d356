#include "ui/views/readiness/groups.h"

#include "ui/views/common/day_words.h"
#include "ui/views/common/words.h"

#include <fmt/format.h>

#include <map>

namespace mellowbin::views {
namespace {

constexpr Days week{7};

void count(const app::ReadinessRow& row, Day as_of, FlourGroup& group) {
    using app::Readiness;
    ++group.lots;
    group.kg += row.stock_kg;
    if (row.standing.is_on_hold) {
        ++group.conceded_before;
        return;
    }
    switch (row.now) {
    case Readiness::young:
        ++group.young;
        break;
    case Readiness::usable:
        ++group.usable;
        break;
    case Readiness::ready:
    case Readiness::use_first:
        ++group.ready;
        return;
    case Readiness::past_best:
        ++group.past_best;
        return;
    }
    if (row.ready_at_confidence && *row.ready_at_confidence > as_of &&
        *row.ready_at_confidence <= as_of + week)
        ++group.ready_this_week;
}

} // namespace

std::string size_words(const FlourGroup& group) {
    return fmt::format("{}, {} kg", counted(static_cast<std::size_t>(group.lots), "lot", "lots"),
                       kilograms(group.kg));
}

std::string count_words(const FlourGroup& group) {
    std::string words;
    const auto add = [&](int count, std::string_view what) {
        if (count > 0)
            words += fmt::format("{}{} {}", words.empty() ? "" : " · ", count, what);
    };
    add(group.ready, "ready");
    add(group.usable, "usable");
    add(group.young, "young");
    add(group.past_best, "past its best");
    add(group.ready_this_week, "ready within a week");
    add(group.conceded_before, "to be judged anew");
    return words;
}

void FlourGroups::follow(const app::ReadinessModel& model, const std::vector<std::uint32_t>& shown,
                         std::uint64_t mark) {
    const auto now = mark ^ static_cast<std::uint64_t>(model.as_of.time_since_epoch().count()) << 32U;
    if (now == mark_)
        return;
    mark_ = now;
    std::map<std::string_view, std::vector<std::uint32_t>> by_flour;
    for (const auto at : shown)
        by_flour[model.rows[at].flour].push_back(at);
    groups_.clear();
    rows_.clear();
    for (auto& [flour, rows] : by_flour) {
        FlourGroup group;
        group.flour = flour;
        group.is_folded = folded_.contains(group.flour);
        for (const auto at : rows)
            count(model.rows[at], model.as_of, group);
        groups_.push_back(std::move(group));
        rows_.push_back(std::move(rows));
    }
    make_lines();
}

void FlourGroups::fold(std::uint32_t at) {
    auto& group = groups_.at(at);
    group.is_folded = !group.is_folded;
    if (group.is_folded)
        folded_.insert(group.flour);
    else
        folded_.erase(group.flour);
    make_lines();
}

void FlourGroups::make_lines() {
    lines_.clear();
    for (std::uint32_t at = 0; at < groups_.size(); ++at) {
        lines_.push_back({true, at});
        if (groups_[at].is_folded)
            continue;
        for (const auto row : rows_[at])
            lines_.push_back({false, row});
    }
}

} // namespace mellowbin::views
