#pragma once

#include "app/models/readiness.h"

#include <cstdint>
#include <set>
#include <string>
#include <vector>

/// Lots of Readiness under their flours.
namespace mellowbin::views {

/// What a flour's lots come to.
struct FlourGroup {
    std::string flour;
    int lots = 0;
    double kg = 0;
    int ready = 0, usable = 0, young = 0, past_best = 0; ///< on the day looked at; use first counts as ready
    int ready_this_week = 0;                             ///< of the others, within seven days
    int conceded_before = 0;                             ///< whose concession is over: among none of these
    bool is_folded = false;
};
/// "7 lots, 47 850 kg".
std::string size_words(const FlourGroup& group);
/// "5 ready · 1 usable · 1 young · 1 more this week".
std::string count_words(const FlourGroup& group);

/// A line of the chart: a flour's head, or a lot.
struct ReadinessLine {
    bool is_group = false;
    std::uint32_t at = 0; ///< of the groups, or of the model's rows
};

/// The lots that are shown, under their flours in order of names. Made anew only when they, what is folded or
/// the model changed.
class FlourGroups {
public:
    /// `shown` as ShownRows gives them: its order stays within a flour. `mark` is alike as long as they are.
    void follow(const app::ReadinessModel& model, const std::vector<std::uint32_t>& shown,
                std::uint64_t mark);
    void fold(std::uint32_t group);
    [[nodiscard]] const std::vector<ReadinessLine>& lines() const { return lines_; }
    [[nodiscard]] const FlourGroup& group(std::uint32_t at) const { return groups_[at]; }

private:
    void make_lines();

    std::set<std::string> folded_;
    std::vector<FlourGroup> groups_;
    std::vector<std::vector<std::uint32_t>> rows_; ///< by group
    std::vector<ReadinessLine> lines_;
    std::uint64_t mark_ = 0;
};

} // namespace mellowbin::views
