#pragma once

#include "core/plant.h"
#include "dough/keeping.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace mellowbin::dough {

/// What stands for and against a product's preservative: one ruling for its card, its page and the plan.
struct KeepingRuling {
    std::optional<PropionateInBread> in_bread; ///< nothing: not known, or refused
    std::vector<KeepingJudged> judged;         ///< one line a market
    std::vector<std::string> against;          ///< why the dose is withheld

    /// The dose is told to nobody as one to weigh.
    [[nodiscard]] bool is_withheld() const { return !against.empty(); }
    /// What stands against it; else the line that holds.
    [[nodiscard]] std::string words() const;
};

/// By the law of its market and of the wider ones, by what its bread carries, and by the bread's pH where one
/// is given. Nothing where the product goes without.
std::optional<KeepingRuling> rule_on_keeping(const Product& product, std::span<const PropionateRow> rows,
                                             std::span<const Market> markets,
                                             std::optional<double> bread_ph = {});

} // namespace mellowbin::dough
