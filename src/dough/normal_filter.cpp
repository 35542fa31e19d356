#include "dough/normal_filter.h"

#include "core/promised.h"

#include <algorithm>

namespace mellowbin::dough {

using Eigen::Index;
using Eigen::VectorXd;

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
    covariance_.col(unknown) = covariance_.col(last);
    covariance_.row(unknown) = covariance_.row(last);
    covariance_(unknown, unknown) = covariance_(last, last);
    covariance_.col(last).setZero();
    covariance_.row(last).setZero();
    return last;
}

void NormalFilter::widen(Index unknown, double variance) {
    promised(unknown < count_ && variance >= 0);
    covariance_(unknown, unknown) += variance;
}

VectorXd NormalFilter::covariance_with(const Terms& sum) const {
    VectorXd all = VectorXd::Zero(count_);
    for (const auto& [unknown, factor] : sum)
        all += factor * covariance_.col(unknown).head(count_);
    return all;
}

void NormalFilter::observe(const Terms& sum, double value, double error_variance) {
    promised(error_variance > 0);
    const VectorXd with = covariance_with(sum);
    double surprise = error_variance;
    for (const auto& [unknown, factor] : sum)
        surprise += factor * with(unknown);
    const VectorXd gain = with / surprise;
    mean_.head(count_) += gain * (value - mean(sum));
    covariance_.topLeftCorner(count_, count_).noalias() -= gain * with.transpose();
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
            all += a.factor * b.factor * covariance_(a.unknown, b.unknown);
    return std::max(0.0, all); // below 0 only by the last bits
}

} // namespace mellowbin::dough
