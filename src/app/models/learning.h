#pragma once

#include "aging/learning.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {

/// A figure that the plant's own retests would replace, or have replaced.
struct LearnedRow {
    std::string what;      ///< "Maturing rate of white flour at 20 °C"
    std::string published; ///< "0.082 per day, 0.041 to 0.164"
    std::string holds;     ///< what the estimates use now
    std::string offered;   ///< what the retests say
    std::string from;      ///< "7 lots: W24-101, W24-103, …"
    std::string meaning; ///< "matures about 1.4 times faster than published"; "does not improve with storage"
};

struct LearningModel {
    std::vector<LearnedRow> rows;
    std::string standing;    ///< "The published figures hold." / "Learned on 3 Nov from 7 lots by Ines."
    std::string blocked;     ///< why there is nothing to adopt; empty: there is
    bool is_learned = false; ///< learned figures hold
    bool is_stale = false;   ///< not worked out since a retest changed: CompareLearned does
};

class Estimates;
struct Book;
struct Station;

/// More lots than this say nothing new, and the sums would be waited for.
inline constexpr int most_taught_by = 400;

/// What the retests of the plant's lots teach by now: of the newest lots with two comparable results or more,
/// up to as many as a screen should wait for.
aging::Learned learned_from(const Book& book, const Estimates& estimates);
/// Why that is not enough to be adopted; empty: it is.
std::string too_little(const aging::Learned& learned);
/// Each figure before and after, one a line.
std::string changes_in_words(const aging::Learned& learned);

/// `offered`: what the retests would teach now; nothing where that is not worked out.
LearningModel make_learning(const Station& station, const std::optional<aging::Learned>& offered);

} // namespace mellowbin::app
