// What one word teaches. The figures marked "second implementation" were computed from the model's
// description by a program of its own; integrals are done here by plain sums.
#include "core/normal.h"
#include "dough/water_word.h"
#include "support/catch.h"

#include <cmath>
#include <limits>
#include <vector>

using namespace mellowbin;
using namespace mellowbin::dough;

namespace {

constexpr WordTrust trust{0.01, 1.5};

/// Before the word the optimum is normal around 0.
struct Moments {
    double likelihood, mean, variance;
};

/// The word's likelihood where the optimum is known.
double likelihood_at(double optimum, double given, const OperatorHabit& habit, std::optional<Feel> word) {
    const double low = normal_share((-habit.band - (given - optimum)) / habit.noise);
    const double high = normal_share((habit.band - (given - optimum)) / habit.noise);
    const double share = word == Feel::stiff ? low : word == Feel::slack ? 1 - high : high - low;
    return word ? trust.lapse / 3 + (1 - trust.lapse) * share : 1 + (trust.silence - 1) * share;
}

Moments by_summing(double variance, double given, const OperatorHabit& habit, std::optional<Feel> word) {
    const double sd = std::sqrt(variance), step = sd / 2000;
    double all = 0, first = 0, second = 0;
    for (double u = -9 * sd; u <= 9 * sd; u += step) {
        const double weight = step * std::exp(-u * u / (2 * variance)) /
                              std::sqrt(2 * 3.14159265358979 * variance) *
                              likelihood_at(u, given, habit, word);
        all += weight;
        first += weight * u;
        second += weight * u * u;
    }
    return {all, first / all, second / all - first / all * first / all};
}

} // namespace

TEST_CASE("A word moves the optimum as a second implementation says, to its last digit") {
    struct Row {
        double variance, given;
        OperatorHabit habit;
        std::optional<Feel> word;
        double likelihood, slope, bend, mean, after;
    };
    for (const auto& row : {
             Row{1, 0.5, {1, 0.75}, Feel::stiff, 0.117252, 1.311662, 0.461261, 1.31166, 0.53874},
             Row{1, 0.5, {1, 0.25}, Feel::slack, 0.314008, -1.084792, 0.666283, -1.08479, 0.33372},
             Row{1, 0.5, {1, 0.75}, std::nullopt, 1.270176, 0.054822, 0.098824, 0.05482, 0.90118},
             Row{0.25, 3, {0.5, 0.25}, Feel::stiff, 0.003333, 0.000001, -0.000007, 0, 0.25},
         }) {
        const auto cut = cut_by_word(row.given, row.variance, row.habit, row.word, trust);
        CHECK(cut.likelihood == Approx(row.likelihood).margin(6e-7));
        CHECK(cut.slope == Approx(row.slope).margin(6e-7));
        CHECK(cut.bend == Approx(row.bend).margin(6e-7));
        CHECK(row.variance * cut.slope == Approx(row.mean).margin(6e-6));
        CHECK(row.variance - row.variance * row.variance * cut.bend == Approx(row.after).margin(6e-6));
    }
}

TEST_CASE("Mean, variance and likelihood after a word are those of the integral") {
    for (const double variance : {0.04, 0.5, 4.0, 10.0})
        for (const double given : {-6.0, -1.2, 0.0, 0.7, 3.0, 8.0})
            for (const OperatorHabit habit : {OperatorHabit{0.5, 0.25}, {1, 0.75}, {2, 0.25}})
                for (const std::optional<Feel> word : {std::optional{Feel::stiff}, std::optional{Feel::right},
                                                       std::optional{Feel::slack}, std::optional<Feel>{}}) {
                    const auto cut = cut_by_word(given, variance, habit, word, trust);
                    const auto exact = by_summing(variance, given, habit, word);
                    INFO(variance << " " << given << " " << habit.band << " " << habit.noise);
                    CHECK(cut.likelihood == Approx(exact.likelihood).margin(1e-6));
                    CHECK(variance * cut.slope == Approx(exact.mean).margin(2e-5));
                    CHECK(variance - variance * variance * cut.bend == Approx(exact.variance).margin(2e-5));
                }
}

TEST_CASE("However far out a dough lay, a word gives finite figures and no variance below nothing") {
    for (const double given : {-1e3, -60.0, -12.0, 12.0, 60.0, 1e3})
        for (const auto word : {Feel::stiff, Feel::right, Feel::slack}) {
            const auto cut = cut_by_word(given, 0.3, {0.5, 0.25}, word, WordTrust{0, 1});
            const auto trusted_less = cut_by_word(given, 0.3, {0.5, 0.25}, word, trust);
            for (const auto& one : {cut, trusted_less}) {
                CHECK(std::isfinite(one.slope));
                CHECK(std::isfinite(one.bend));
                CHECK(0.3 - 0.3 * 0.3 * one.bend > -1e-12);
            }
        }
}

TEST_CASE("A dough a little too wet that is called right pulls the optimum less than one called slack") {
    const OperatorHabit habit{1, 0.5};
    const auto right = cut_by_word(0.5, 1, habit, Feel::right, trust);
    const auto slack = cut_by_word(0.5, 1, habit, Feel::slack, trust);
    CHECK(right.slope > 0); // right says: the optimum is near what was given
    CHECK(slack.slope < 0);
    CHECK(std::abs(slack.slope) > right.slope);
}
