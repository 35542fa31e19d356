#pragma once

#include <array>
#include <cmath>
#include <numbers>

/// The little mathematics that estimates need: the normal distribution and fixed quadratures. The figures
/// here are mathematics, not findings.
namespace mellowbin {

/// Share of a standard normal variable that lies at or below x.
inline double normal_share(double x) { return 0.5 * std::erfc(-x * (std::numbers::sqrt2 / 2)); }

/// The x that a share (between 0 and 1, exclusive) of a standard normal variable lies at or below, to 0.0005:
/// enough to choose the next step of a search. Hastings 1955, as in Abramowitz & Stegun 26.2.23.
inline double rough_normal_point(double share) {
    const double tail = share > 0.5 ? 1 - share : share;
    const double t = std::sqrt(-2 * std::log(tail));
    const double x =
        t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
    return share > 0.5 ? x : -x;
}

/// The same to 1e-12: two steps of Halley's method on the rough one.
inline double normal_point(double share) {
    double x = rough_normal_point(share);
    for (int step = 0; step < 2; ++step) {
        const double density = std::exp(-x * x / 2) / std::sqrt(2 * std::numbers::pi);
        const double miss = (normal_share(x) - share) / density;
        x -= miss / (1 + x * miss / 2);
    }
    return x;
}

/// Standard deviations to either side of the mean between which 80 % of a normal belief lie: its 10 and 90 %.
inline constexpr double to_10_and_90 = 1.2815515655446004;
/// The same for 50 % (quartiles) and for 90 %.
inline constexpr double to_25_and_75 = 0.6744897501960817, to_5_and_95 = 1.6448536269514722;

template <std::size_t N> struct Quadrature {
    std::array<double, N> points;
    std::array<double, N> weights; ///< add up to 1
};

/// Mean of f(z) over a standard normal z: exact for polynomials up to degree 9.
inline constexpr Quadrature<5> over_normal{
    {-2.8569700138728056, -1.3556261799742659, 0, 1.3556261799742659, 2.8569700138728056},
    {0.011257411327720689, 0.22207592200561266, 0.53333333333333333, 0.22207592200561266,
     0.011257411327720689}};

/// The same up to degree 5.
inline constexpr Quadrature<3> over_normal_roughly{{-1.7320508075688772, 0, 1.7320508075688772},
                                                   {1.0 / 6, 2.0 / 3, 1.0 / 6}};

/// Mean of f(u) over u uniform in 0..1 (Gauss-Legendre): exact for polynomials up to degree 15.
inline constexpr Quadrature<8> over_uniform{
    {0.019855071751231884, 0.10166676129318664, 0.2372337950418355, 0.4082826787521751, 0.5917173212478249,
     0.7627662049581645, 0.8983332387068134, 0.9801449282487681},
    {0.050614268145188130, 0.11119051722668724, 0.15685332293894364, 0.18134189168918100, 0.18134189168918100,
     0.15685332293894364, 0.11119051722668724, 0.050614268145188130}};

} // namespace mellowbin
