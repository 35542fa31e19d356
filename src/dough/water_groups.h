#pragma once

#include "dough/normal_filter.h"
#include "dough/taught_state.h"
#include "dough/water_belief.h"
#include "dough/water_word.h"

#include <array>
#include <map>
#include <optional>
#include <span>
#include <vector>

namespace mellowbin::dough {

inline constexpr std::size_t water_groups = 6;    ///< three spreads of lots, each with crops that step or not
inline constexpr std::size_t operator_habits = 8; ///< four bands, each of a sure operator and an unsure one

/// Unknowns of water under each of six assumptions on how far lots lie apart and whether offsets step at a
/// new crop; and for each line how its operator feels. Which of them holds is weighed by the words that were
/// said. All groups have the same unknowns in the same places. A word costs six times the square of their
/// number.
class WaterGroups {
public:
    explicit WaterGroups(const WaterSpreads& spreads);
    /// As they stand in the state; one without groups is that of before any word.
    WaterGroups(const WaterState& state, const WaterSpreads& spreads);
    void put_into(WaterState& state) const; ///< groups and operators

    Eigen::Index add(double mean, double variance);
    Eigen::Index add_lot();
    Eigen::Index drop(Eigen::Index unknown); ///< as NormalFilter
    void widen(Eigen::Index unknown, double variance);
    /// A lot that is new to the product goes into its dough on the line.
    void begin_lot(Eigen::Index product, LineId line);
    /// The dough was given so much beside the farinograph, points; how likely the word was before it.
    double hear(const Terms& optimum, double given, LineId line, std::optional<Feel> word);

    /// Mean and variance of a sum of unknowns and of what is not among them.
    struct Moments {
        double mean = 0;
        double variance = 0;
    };
    /// What a sum has beside its unknowns.
    struct Beside {
        double mean = 0;
        double variance = 0;
        double unseen_lots = 0; ///< their shares, squared
        bool is_new = false;    ///< a lot is new to the product, whose offset is in the sum
        bool has_offset = false;
    };
    [[nodiscard]] Moments of(const Terms& sum, const Beside& beside) const;
    [[nodiscard]] Eigen::Index count() const { return groups_.front().unknowns.count(); }

private:
    using Habits = std::array<double, operator_habits>;
    struct Group {
        double assumed = 0;
        double weight = 0;
        double lot_variance = 0;
        double crop_variance = 0;
        NormalFilter unknowns;
    };
    using Operator = std::array<Habits, water_groups>;

    Operator& operator_of(LineId line);
    static double hear(Group& group, Habits& habits, const Terms& optimum, double given,
                       std::optional<Feel> word, const WaterSpreads& spreads);
    [[nodiscard]] std::array<double, water_groups> weights(bool is_new) const;

    WaterSpreads spreads_;
    Habits assumed_habits_{};
    std::array<Group, water_groups> groups_;
    std::map<LineId, Operator> operators_;
};

} // namespace mellowbin::dough
