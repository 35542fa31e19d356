#pragma once

#include "aging/estimate.h"
#include "core/id.h"

#include <compare>
#include <optional>
#include <span>
#include <vector>

/// What a plant's own retests say about its flour's rate of maturing and about how much its properties
/// change: class prior -> this plant -> mill and flour -> lot, one model.
namespace mellowbin::aging {

/// Flour of one kind from one mill.
struct FlourGroup {
    MillId mill;
    FlourId flour;
    friend auto operator<=>(const FlourGroup&, const FlourGroup&) = default;
};

/// How the doubt about a rate and an amplitude divides over the levels: shares of their variance. The rest is
/// the lot's.
struct LearningShares {
    double plant;
    double mill;
    double change_plant;
};
LearningShares published_learning_shares(); ///< assumptions

/// What is learned from: one lot with results.
struct TaughtBy {
    LotId lot;
    FlourGroup group;
    const Estimate* estimate; ///< lives as long as the call
    Evidence evidence;
};

/// What one lot teaches, as a normal likelihood: in the coordinates (offset of ln rate, in standard
/// deviations of its class's prior; ln Q10 against its prior; the amplitudes of its properties against the
/// published ones).
struct Lesson {
    LotId lot;
    FlourGroup group;
    FlourClass flour_class{};
    std::vector<Property> properties;
    std::vector<double> precision; ///< rows one after the other, 2 + properties squared
    std::vector<double> pull;      ///< precision times mean

    friend bool operator==(const Lesson&, const Lesson&) = default;
};

/// The lessons of these lots together: each is straightened at what all of them say, until that no longer
/// moves. A drift teaches nothing; what follows a rate of its own teaches its change, not the dough's rate.
std::vector<Lesson> learn(std::span<const TaughtBy> lots,
                          const LearningShares& shares = published_learning_shares());

/// What lessons add up to. Without lessons: what is published.
class Learned {
public:
    explicit Learned(std::vector<Lesson> lessons = {},
                     const LearningShares& shares = published_learning_shares());

    /// The plant's own rate for a class of flour, without the doubt of mill and lot.
    [[nodiscard]] Lognormal plant_rate(FlourClass flour_class) const;
    [[nodiscard]] Lognormal group_rate(FlourClass flour_class, FlourGroup group) const;
    [[nodiscard]] Amplitude plant_change(Property property) const;

    /// What to believe of a lot before its own results: its group's rate and the plant's amplitudes, with the
    /// doubt that is left for the lot. A lot that taught does not count its own lesson twice.
    [[nodiscard]] Priors priors(FlourClass flour_class, FlourGroup group, LotId lot) const;
    [[nodiscard]] AmplitudePriors changes(LotId lot) const;

    [[nodiscard]] const std::vector<Lesson>& lessons() const { return lessons_; }
    [[nodiscard]] std::vector<LotId> lots_of(FlourGroup group) const;
    [[nodiscard]] std::vector<LotId> lots_of(Property property) const;
    [[nodiscard]] std::vector<FlourGroup> groups() const { return groups_; }

private:
    struct Belief;
    [[nodiscard]] Belief belief_without(LotId lot) const;
    [[nodiscard]] Lognormal rate(const Belief& belief, FlourClass flour_class,
                                 std::optional<std::size_t> group, double lot_share) const;
    [[nodiscard]] std::optional<std::size_t> place_of(FlourGroup group) const;
    [[nodiscard]] bool taught(LotId lot) const;

    std::vector<Lesson> lessons_;
    LearningShares shares_;
    std::vector<FlourGroup> groups_;
    std::vector<double> mean_, covariance_; ///< of all
};

} // namespace mellowbin::aging
