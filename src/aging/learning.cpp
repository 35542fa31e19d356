#include "aging/learning.h"

#include "core/literature/constants.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

namespace mellowbin::aging {
namespace {

namespace lit = literature;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// A baseline is not known at all: so wide that no result can tell, in ln or in points.
constexpr double boundless = 100;
constexpr int most_turns = 30;
constexpr double settled = 1e-7;

double rate_spread(FlourClass flour_class) { return std::log(published_priors(flour_class).k20.gsd); }

std::size_t place_of(Property property) {
    return static_cast<std::size_t>(maturing_test(property) - maturing_tests().data());
}

/// All unknowns in one row: the plant, ln Q10, the amplitudes, the groups.
struct Layout {
    std::size_t groups;
    static constexpr Index plant = 0, q10 = 1, first_change = 2;
    [[nodiscard]] Index change(Property p) const { return first_change + static_cast<Index>(aging_place(p)); }
    [[nodiscard]] Index group(std::size_t g) const {
        return first_change + static_cast<Index>(maturing_tests().size() + g);
    }
    [[nodiscard]] Index size() const { return group(groups); }
    static std::size_t aging_place(Property p) { return place_of(p); }
};

/// A prior so sure that it is no unknown would have no inverse.
double precision_of(double variance) { return 1 / std::max(variance, 1e-12); }

VectorXd prior_precision(const Layout& layout, const LearningShares& shares) {
    VectorXd precision(layout.size());
    precision(Layout::plant) = precision_of(shares.plant);
    const double q10 = std::log(published_priors(FlourClass::white).q10.gsd);
    precision(Layout::q10) = precision_of(q10 * q10);
    for (const auto& test : maturing_tests())
        precision(layout.change(test.property)) =
            precision_of(shares.change_plant * test.published.sd * test.published.sd);
    for (std::size_t g = 0; g < layout.groups; ++g)
        precision(layout.group(g)) = precision_of(shares.mill);
    return precision;
}

/// From a lesson's own coordinates to the places in the row of all; the offset is the plant's and the group's
/// sum.
MatrixXd places_of(const Lesson& lesson, const Layout& layout, std::size_t group) {
    MatrixXd places = MatrixXd::Zero(static_cast<Index>(lesson.pull.size()), layout.size());
    places(0, Layout::plant) = 1;
    places(0, layout.group(group)) = 1;
    places(1, Layout::q10) = 1;
    for (std::size_t i = 0; i < lesson.properties.size(); ++i)
        places(static_cast<Index>(2 + i), layout.change(lesson.properties[i])) = 1;
    return places;
}

std::vector<FlourGroup> groups_of(std::span<const Lesson> lessons) {
    std::vector<FlourGroup> groups;
    for (const auto& lesson : lessons)
        groups.push_back(lesson.group);
    std::sort(groups.begin(), groups.end());
    groups.erase(std::unique(groups.begin(), groups.end()), groups.end());
    return groups;
}

std::size_t place_in(std::span<const FlourGroup> groups, FlourGroup group) {
    return static_cast<std::size_t>(std::lower_bound(groups.begin(), groups.end(), group) - groups.begin());
}

struct Sum {
    MatrixXd precision;
    VectorXd pull;
};

Sum sum_of(std::span<const Lesson> lessons, std::span<const FlourGroup> groups,
           const LearningShares& shares) {
    const Layout layout{groups.size()};
    Sum sum{prior_precision(layout, shares).asDiagonal().toDenseMatrix(), VectorXd::Zero(layout.size())};
    for (const auto& lesson : lessons) {
        const auto n = static_cast<Index>(lesson.pull.size());
        const MatrixXd places = places_of(lesson, layout, place_in(groups, lesson.group));
        const Eigen::Map<const Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>> own(
            lesson.precision.data(), n, n);
        sum.precision += places.transpose() * own * places;
        sum.pull += places.transpose() * Eigen::Map<const VectorXd>(lesson.pull.data(), n);
    }
    return sum;
}

/// The lesson of one lot, straightened where its coordinates have these values.
class Straightened {
public:
    Straightened(const TaughtBy& lot, const LearningShares& shares, const VectorXd& at) : lot_(lot), at_(at) {
        const auto flour_class = lot.estimate->flour().flour_class;
        spread_ = rate_spread(flour_class);
        log_rate_ = std::log(published_priors(flour_class).k20.median) + spread_ * at(0);
        Index rows = 0;
        for (const auto& series : lot.evidence)
            rows += static_cast<Index>(series.observations.size());
        residual_ = VectorXd::Zero(rows);
        slope_ = MatrixXd::Zero(rows, at.size());
        variance_ = MatrixXd::Zero(rows, rows);
        Index row = 0;
        VectorXd lot_effect = VectorXd::Zero(rows);
        std::array<VectorXd, RunSlope::doubts> doubts;
        doubts.fill(VectorXd::Zero(rows));
        for (std::size_t s = 0; s < lot.evidence.size(); ++s)
            row = add(lot.evidence[s], static_cast<Index>(2 + s), row, shares, lot_effect, doubts);
        const double lot_share = 1 - shares.plant - shares.mill;
        variance_ += lot_share * spread_ * spread_ * lot_effect * lot_effect.transpose();
        for (const auto& doubt : doubts)
            variance_ += doubt * doubt.transpose();
    }

    [[nodiscard]] Lesson lesson() const {
        const Eigen::LLT<MatrixXd> solver(variance_);
        const MatrixXd weighed = solver.solve(slope_);
        const MatrixXd precision = slope_.transpose() * weighed;
        const VectorXd pull = weighed.transpose() * (residual_ + slope_ * at_);
        Lesson lesson{lot_.lot, lot_.group, lot_.estimate->flour().flour_class, {}, {}, {}};
        for (const auto& series : lot_.evidence)
            lesson.properties.push_back(series.property);
        for (Index r = 0; r < precision.rows(); ++r)
            for (Index c = 0; c < precision.cols(); ++c)
                lesson.precision.push_back((precision(r, c) + precision(c, r)) / 2);
        lesson.pull.assign(pull.data(), pull.data() + pull.size());
        return lesson;
    }

private:
    Index add(const Series& series, Index change, Index row, const LearningShares& shares,
              VectorXd& lot_effect, std::array<VectorXd, RunSlope::doubts>& doubts) {
        const auto& test = *maturing_test(series.property);
        const bool is_share = test.change == ChangeKind::share;
        const double amplitude = std::max(test.published.mean + at_(change), -0.98);
        // The rate of what goes its own way is no unknown of the plant's: its doubt is each lot's.
        const bool is_own = series.follows == Follows::own_rate;
        const double base_log_rate = is_own ? std::log(series.own_rate.median) : log_rate_;
        VectorXd by_own_rate = VectorXd::Zero(variance_.rows());
        const Index first = row;
        VectorXd by_amplitude = VectorXd::Zero(variance_.rows());
        for (const auto& observation : series.observations) {
            const auto slope = observation.is_fresh ? RunSlope{} : lot_.estimate->run_slope(observation);
            const double theta = observation.is_fresh
                                     ? 0
                                     : std::exp(base_log_rate + slope.log_run + slope.by_log_q10 * at_(1));
            const double maturity = -std::expm1(-theta);
            const double level = is_share ? 1 + amplitude * maturity : 1;
            const double by_log_rate = amplitude * theta * std::exp(-theta) / level;
            residual_(row) = (is_share ? std::log(observation.value) - std::log(level)
                                       : observation.value - amplitude * maturity);
            slope_(row, 0) = is_own ? 0 : spread_ * by_log_rate;
            slope_(row, 1) = slope.by_log_q10 * by_log_rate;
            slope_(row, change) = maturity / level;
            by_amplitude(row) = maturity / level;
            (is_own ? by_own_rate : lot_effect)(row) = by_log_rate;
            for (std::size_t d = 0; d < RunSlope::doubts; ++d)
                doubts[d](row) = slope.by_doubt[d] * by_log_rate;
            variance_(row, row) += series.error * series.error;
            ++row;
        }
        // The baseline: the first value tells where it may lie, nothing tells how far from there.
        const double base = residual_(first);
        for (Index i = first; i < row; ++i) {
            residual_(i) -= base;
            for (Index j = first; j < row; ++j)
                variance_(i, j) += boundless * boundless * series.error * series.error;
        }
        const double lot_change = (1 - shares.change_plant) * test.published.sd * test.published.sd;
        variance_ += lot_change * by_amplitude * by_amplitude.transpose();
        const double own_doubt = std::log(series.own_rate.gsd);
        variance_ += own_doubt * own_doubt * by_own_rate * by_own_rate.transpose();
        return row;
    }

    const TaughtBy& lot_;
    const VectorXd& at_;
    double spread_ = 0, log_rate_ = 0;
    VectorXd residual_;
    MatrixXd slope_, variance_;
};

bool teaches(const TaughtBy& lot) {
    return std::any_of(lot.evidence.begin(), lot.evidence.end(),
                       [](const Series& series) { return series.observations.size() > 1; });
}

Lesson straightened(const TaughtBy& lot, const LearningShares& shares, const Layout& layout,
                    std::size_t group, const VectorXd& at) {
    VectorXd own(static_cast<Index>(2 + lot.evidence.size()));
    own(0) = at(Layout::plant) + at(layout.group(group));
    own(1) = at(Layout::q10);
    for (std::size_t s = 0; s < lot.evidence.size(); ++s)
        own(static_cast<Index>(2 + s)) = at(layout.change(lot.evidence[s].property));
    return Straightened(lot, shares, own).lesson();
}

} // namespace

LearningShares published_learning_shares() {
    return {lit::aging_rate_share_plant.value, lit::aging_rate_share_mill.value,
            lit::aging_change_share_plant.value};
}

std::vector<Lesson> learn(std::span<const TaughtBy> all, const LearningShares& shares) {
    std::vector<FlourGroup> groups;
    std::vector<TaughtBy> lots(all.begin(), all.end());
    for (auto& lot : lots)
        std::erase_if(lot.evidence, [](const Series& series) { return series.follows == Follows::drift; });
    for (const auto& lot : lots)
        groups.push_back(lot.group);
    std::sort(groups.begin(), groups.end());
    groups.erase(std::unique(groups.begin(), groups.end()), groups.end());
    const Layout layout{groups.size()};
    const VectorXd spread = prior_precision(layout, shares).cwiseSqrt().cwiseInverse();
    VectorXd at = VectorXd::Zero(layout.size());
    std::vector<Lesson> lessons;
    for (int turn = 0; turn < most_turns; ++turn) {
        lessons.clear();
        for (const auto& lot : lots)
            if (teaches(lot))
                lessons.push_back(straightened(lot, shares, layout, place_in(groups, lot.group), at));
        // Groups without a lesson keep their place, so that a row means the same in every turn.
        const Sum sum = sum_of(lessons, groups, shares);
        const VectorXd next = sum.precision.llt().solve(sum.pull);
        const VectorXd step = (next - at).cwiseMin(spread).cwiseMax(-spread);
        at += step;
        if ((step.array() / spread.array()).abs().maxCoeff() < settled)
            break;
    }
    return lessons;
}

struct Learned::Belief {
    VectorXd mean;
    MatrixXd covariance;
};

Learned::Learned(std::vector<Lesson> lessons, const LearningShares& shares)
    : lessons_(std::move(lessons)), shares_(shares), groups_(groups_of(lessons_)) {
    const Sum sum = sum_of(lessons_, groups_, shares_);
    const MatrixXd covariance =
        sum.precision.llt().solve(MatrixXd::Identity(sum.precision.rows(), sum.precision.cols()));
    const VectorXd mean = covariance * sum.pull;
    mean_.assign(mean.data(), mean.data() + mean.size());
    covariance_.assign(covariance.data(), covariance.data() + covariance.size());
}

bool Learned::taught(LotId lot) const {
    return std::any_of(lessons_.begin(), lessons_.end(),
                       [&](const Lesson& lesson) { return lesson.lot == lot; });
}

Learned::Belief Learned::belief_without(LotId lot) const {
    const auto n = static_cast<Index>(mean_.size());
    if (!taught(lot))
        return {Eigen::Map<const VectorXd>(mean_.data(), n),
                Eigen::Map<const MatrixXd>(covariance_.data(), n, n)};
    std::vector<Lesson> others;
    std::copy_if(lessons_.begin(), lessons_.end(), std::back_inserter(others),
                 [&](const Lesson& lesson) { return lesson.lot != lot; });
    const Sum sum = sum_of(others, groups_, shares_);
    const MatrixXd covariance = sum.precision.llt().solve(MatrixXd::Identity(n, n));
    return {covariance * sum.pull, covariance};
}

std::optional<std::size_t> Learned::place_of(FlourGroup group) const {
    const auto at = std::lower_bound(groups_.begin(), groups_.end(), group);
    if (at == groups_.end() || *at != group)
        return {};
    return static_cast<std::size_t>(at - groups_.begin());
}

Lognormal Learned::rate(const Belief& belief, FlourClass flour_class, std::optional<std::size_t> group,
                        double further_share) const {
    const Layout layout{groups_.size()};
    VectorXd pick = VectorXd::Zero(layout.size());
    pick(Layout::plant) = 1;
    if (group)
        pick(layout.group(*group)) = 1;
    const double variance = pick.dot(belief.covariance * pick) + further_share;
    const double spread = rate_spread(flour_class);
    const auto& published = published_priors(flour_class).k20;
    return {published.median * std::exp(spread * pick.dot(belief.mean)),
            std::exp(spread * std::sqrt(variance))};
}

Lognormal Learned::plant_rate(FlourClass flour_class) const {
    return rate(belief_without({}), flour_class, {}, 0);
}

Lognormal Learned::group_rate(FlourClass flour_class, FlourGroup group) const {
    const auto place = place_of(group);
    return rate(belief_without({}), flour_class, place, place ? 0 : shares_.mill);
}

Amplitude Learned::plant_change(Property property) const {
    const Layout layout{groups_.size()};
    const auto belief = belief_without({});
    const auto at = layout.change(property);
    return {maturing_test(property)->published.mean + belief.mean(at), std::sqrt(belief.covariance(at, at))};
}

Priors Learned::priors(FlourClass flour_class, FlourGroup group, LotId lot) const {
    auto priors = published_priors(flour_class);
    if (lessons_.empty())
        return priors;
    const auto place = place_of(group);
    const double lot_share = 1 - shares_.plant - shares_.mill;
    priors.k20 = rate(belief_without(lot), flour_class, place, lot_share + (place ? 0 : shares_.mill));
    return priors;
}

AmplitudePriors Learned::changes(LotId lot) const {
    AmplitudePriors priors;
    if (lessons_.empty())
        return priors;
    const Layout layout{groups_.size()};
    const auto belief = belief_without(lot);
    for (const auto& test : maturing_tests()) {
        const auto at = layout.change(test.property);
        const double lot_change = (1 - shares_.change_plant) * test.published.sd * test.published.sd;
        priors.learned.emplace_back(test.property,
                                    Amplitude{test.published.mean + belief.mean(at),
                                              std::sqrt(belief.covariance(at, at) + lot_change)});
    }
    return priors;
}

std::vector<LotId> Learned::lots_of(FlourGroup group) const {
    std::vector<LotId> lots;
    for (const auto& lesson : lessons_)
        if (lesson.group == group)
            lots.push_back(lesson.lot);
    return lots;
}

std::vector<LotId> Learned::lots_of(Property property) const {
    std::vector<LotId> lots;
    for (const auto& lesson : lessons_)
        if (std::find(lesson.properties.begin(), lesson.properties.end(), property) !=
            lesson.properties.end())
            lots.push_back(lesson.lot);
    return lots;
}

} // namespace mellowbin::aging
