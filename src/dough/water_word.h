#pragma once

#include "core/batch.h"

#include <optional>

namespace mellowbin::dough {

/// How an operator feels a dough. Points of absorption.
struct OperatorHabit {
    double band = 1;    ///< within so far of the optimum, to either side, a dough is called right; above 0
    double noise = 0.5; ///< how far the feeling scatters around the dough, standard deviation; above 0
};

/// How far words are to be trusted.
struct WordTrust {
    double lapse = 0; ///< share of words that mean nothing: every word is then as likely; 0..1
    double silence =
        1; ///< so many times likelier is it that nobody speaks where the dough was right; 1 or above
};

/// What one word says of a dough's optimum that was normal before it: how likely the word was, and the first
/// and second derivative of the logarithm of that by the optimum's mean (1/points, 1/points squared; `bend`
/// with its sign turned). A sum of unknowns with covariances c to the optimum then moves by c · slope, and
/// its variances fall by c c' · bend. The mean and the variance after it are exact, the shape is not normal.
struct WordCut {
    double likelihood = 1;
    double slope = 0;
    double bend = 0; ///< below 0: the word was a surprise, and widens
};

/// The operator feels `ahead` points plus the noise, where `ahead` is what the dough was given less its
/// optimum: normal, with this mean and variance (0 or above). Below minus the band is stiff, above the band
/// is slack, between is right; nobody spoke: as right, but weaker. An ordered probit.
WordCut cut_by_word(double ahead, double variance, const OperatorHabit& habit, std::optional<Feel> word,
                    const WordTrust& trust);

} // namespace mellowbin::dough
