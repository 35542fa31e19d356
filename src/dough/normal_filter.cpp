#include "dough/normal_filter.h"

#include "core/promised.h"

#include <algorithm>

namespace mellowbin::dough {

using Eigen::Index;
using Eigen::VectorXd;

NormalFilter::NormalFilter(const NormalState& state) {
    const auto count = static_cast<Index>(state.mean.size());
    promised(static_cast<Index>(state.covariance.size()) == count * (count + 1) / 2);
    mean_ = VectorXd::Zero(count);
    covariance_ = Eigen::MatrixXd::Zero(count, count);
    count_ = count;
    auto next = state.covariance.begin();
    for (Index row = 0; row < count; ++row) {
        mean_(row) = state.mean[static_cast<std::size_t>(row)];
        for (Index column = 0; column <= row; ++column)
            covariance_(row, column) = *next++;
    }
}

NormalState NormalFilter::state() const {
    NormalState state;
    for (Index row = 0; row < count_; ++row) {
        state.mean.push_back(mean_(row));
        for (Index column = 0; column <= row; ++column)
            state.covariance.push_back(covariance_(row, column));
    }
    return state;
}

void NormalFilter::make_room() {
    if (count_ < mean_.size())
        return;
    const Index room = std::max<Index>(16, 2 * mean_.size());
    mean_.conservativeResizeLike(VectorXd::Zero(room));
    covariance_.conservativeResizeLike(Eigen::MatrixXd::Zero(room, room));
}

Index NormalFilter::add(double mean, double variance) {
    promised(variance >= 0);
    make_room();
    mean_(count_) = mean;
    covariance_(count_, count_) = variance;
    return count_++;
}

Index NormalFilter::drop(Index unknown) {
    promised(unknown < count_);
    const Index last = --count_;
    mean_(unknown) = mean_(last);
    covariance_.row(unknown).head(unknown) = covariance_.row(last).head(unknown);
    for (Index between = unknown + 1; between < last; ++between)
        covariance_(between, unknown) = covariance_(last, between);
    covariance_(unknown, unknown) = covariance_(last, last);
    covariance_.row(last).setZero();
    return last;
}

void NormalFilter::widen(Index unknown, double variance) {
    promised(unknown < count_ && variance >= 0);
    covariance_(unknown, unknown) += variance;
}

VectorXd NormalFilter::covariance_with(const Terms& sum) const {
    VectorXd all = VectorXd::Zero(count_);
    for (const auto& [unknown, factor] : sum) {
        const Index below = count_ - unknown;
        all.head(unknown) += factor * covariance_.row(unknown).head(unknown).transpose();
        all.tail(below) += factor * covariance_.col(unknown).segment(unknown, below);
    }
    return all;
}

void NormalFilter::observe(const Terms& sum, double value, double error_variance) {
    promised(error_variance > 0);
    const double surprise = error_variance + variance(sum);
    update(sum, (value - mean(sum)) / surprise, 1 / surprise);
}

void NormalFilter::update(const Terms& sum, double slope, double bend) {
    const VectorXd with = covariance_with(sum);
    mean_.head(count_) += with * slope;
    covariance_.topLeftCorner(count_, count_).selfadjointView<Eigen::Lower>().rankUpdate(with, -bend);
}

double NormalFilter::mean(const Terms& sum) const {
    double all = 0;
    for (const auto& [unknown, factor] : sum)
        all += factor * mean_(unknown);
    return all;
}

double NormalFilter::variance(const Terms& sum) const {
    double all = 0;
    for (const auto& a : sum)
        for (const auto& b : sum)
            all += a.factor * b.factor *
                   covariance_(std::max(a.unknown, b.unknown), std::min(a.unknown, b.unknown));
    return std::max(0.0, all); // below 0 only by the last bits
}

} // namespace mellowbin::dough
