#pragma once

#include "dough/taught_state.h"

#include <Eigen/Dense>
#include <vector>

namespace mellowbin::dough {

/// One unknown of a sum, with its factor.
struct Term {
    Eigen::Index unknown;
    double factor = 1;
};

/// A sum of unknowns that something is known of. No unknown stands in it twice.
using Terms = std::vector<Term>;

/// Unknowns that are jointly normal, come and go: sharpened by sums of them that were measured (a Kalman
/// filter). Exact; a copy is independent; a measurement costs the square of their number.
class NormalFilter {
public:
    NormalFilter() = default;
    /// As state() gave it, to the last bit. Its covariances are as many as belong to its means.
    explicit NormalFilter(const NormalState& state);
    [[nodiscard]] NormalState state() const;

    /// A further unknown, independent of the others; `variance` 0 or above. Gives its place.
    Eigen::Index add(double mean, double variance);
    /// The unknown is summed out: what is known of all others stays as it is. The last one takes its place;
    /// gives the place that the last one had.
    Eigen::Index drop(Eigen::Index unknown);
    /// So much more doubt about it, independent of everything else.
    void widen(Eigen::Index unknown, double variance);
    /// The sum was measured as `value`, with an error of this variance (above 0).
    void observe(const Terms& sum, double value, double error_variance);
    /// Something was seen of the sum whose likelihood has, by the sum's mean, this derivative of its
    /// logarithm and this second one with its sign turned: mean and variance after it are exact, the shape is
    /// made normal again. `bend` times the sum's variance is below 1.
    void update(const Terms& sum, double slope, double bend);

    [[nodiscard]] double mean(const Terms& sum) const;
    [[nodiscard]] double variance(const Terms& sum) const;
    [[nodiscard]] Eigen::Index count() const { return count_; }

private:
    Eigen::Index count_ = 0;
    Eigen::VectorXd mean_;
    /// The lower triangle of the first count_ rows and columns holds; zero all around, room for more.
    Eigen::MatrixXd covariance_;

    void make_room();
    [[nodiscard]] Eigen::VectorXd covariance_with(const Terms& sum) const;
};

} // namespace mellowbin::dough
