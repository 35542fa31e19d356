#pragma once

#include "planning/reasons.h"

#include <string>
#include <vector>

namespace mellowbin::planning {

/// "L3", "L3 and L7", "L3, L7 and L9"; beyond five "L3, L7, L9, L12 and 4 more".
std::string names_of(const Problem& problem, const std::vector<int>& lots);
/// "Wed 25 Nov" as the caller names it, else "day 3".
std::string day_words(const Background& background, double day);
/// "protein 11.24 %", with the property's own decimals and one more.
std::string value_words(const Problem& problem, int property, double value);
/// "protein 0.31 % below its specification".
std::string off_window_words(const Problem& problem, int property, double off);
std::string tonnes_words(double tonnes);
/// The rule as a heading: "Not released in time".
std::string rule_words(Ban ban);
/// First letter upper case.
std::string sentence(std::string words);
/// "a", "a and b", "a, b and c".
std::string list_words(const std::vector<std::string>& words);
/// "1 lot change", "3 lot changes".
std::string count_words(std::size_t count, const std::string& what);

enum class Tier { shortage, windows, maturity, oxidant, past_best, lot_changes, age, cost };

/// What one tier of a run's cost is, from one blend to another. `cost` is in currency, above zero where the
/// other blend is dearer.
struct TierChange {
    Tier tier = Tier::shortage;
    double cost = 0;
    bool is_worse = false;
    std::string words; ///< "12 mg/kg more ascorbic acid by maturity": bakes may say otherwise
};
/// The tiers in which a run differs by an amount worth a word, the weightiest first.
std::vector<TierChange> tier_changes(const Problem& problem, int run, const RunResult& now,
                                     const RunResult& then, const DoseNamer& dose = {});
/// Flour of the run's use that is past its best on its day, in t.
double past_best_t(const Problem& problem, int run, const Use& use);

} // namespace mellowbin::planning
