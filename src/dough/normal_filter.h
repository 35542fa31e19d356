#pragma once

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

/// Unknowns that are jointly normal and grow in number: sharpened by sums of them that were measured (a
/// Kalman filter). Exact; a copy is independent.
class NormalFilter {
public:
    /// A further unknown, independent of the others; `variance` 0 or above. Gives its place.
    Eigen::Index add(double mean, double variance);
    /// The unknown is another one from now on: what was known of the old one is summed out.
    void replace(Eigen::Index unknown, double mean, double variance);
    /// So much more doubt about it, independent of everything else.
    void widen(Eigen::Index unknown, double variance);
    /// The sum was measured as `value`, with an error of this variance (above 0).
    void observe(const Terms& sum, double value, double error_variance);

    [[nodiscard]] double mean(const Terms& sum) const;
    [[nodiscard]] double variance(const Terms& sum) const;

private:
    Eigen::Index count_ = 0;
    Eigen::VectorXd mean_;
    Eigen::MatrixXd covariance_; ///< the first count_ rows and columns hold; room for more behind them

    void make_room();
    [[nodiscard]] Eigen::VectorXd covariance_with(const Terms& sum) const;
};

} // namespace mellowbin::dough
