#include "dough/weigh.h"

#include "core/literature/constants.h"
#include "core/promised.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::dough {
namespace {

constexpr double grams_per_kilogram = 1000;
/// Of a step: 7.5 g in steps of 0.1 g is 75 steps although 7.5/0.1 is a little less in doubles.
constexpr double hair = 1e-9;

struct Steps {
    double count = 0;
    bool is_down = false;
};

/// The nearest whole number of steps, or the most that stay within `most` when the error is added.
Steps to_steps(double exact, double step, double error, double most) {
    Steps steps{std::floor(exact / step + 0.5 + hair), false};
    const double fitting = std::floor((most - error) / step + hair);
    if (steps.count > fitting) {
        steps.count = std::max(0.0, fitting);
        steps.is_down = true;
    }
    return steps;
}

} // namespace

double smallest_weighable_g(OxidantScale scale) {
    return scale.error_g / literature::dough_weighing_tolerance.value;
}

Weighing weigh(OxidantPpm dose, Kilograms flour, double purity, OxidantScale scale, OxidantPpm room) {
    promised(purity > 0 && purity <= 1 && scale.step_g > 0 && flour.value() > 0);
    Weighing weighing;
    weighing.exact_g = dose_grams(dose, flour) / purity;
    const double most_g = dose_grams(room, flour) / purity;
    const auto steps = to_steps(weighing.exact_g, scale.step_g, scale.error_g, most_g);
    weighing.rounded_g = steps.count * scale.step_g;
    weighing.is_rounded_down = steps.is_down;
    weighing.resulting = OxidantPpm{weighing.rounded_g * purity * grams_per_kilogram / flour.value()};
    weighing.smallest_g = smallest_weighable_g(scale);
    weighing.is_too_small = dose.value() > 0 && weighing.rounded_g < weighing.smallest_g * (1 - hair);
    return weighing;
}

Pouring pour(OxidantPpm dose, Kilograms flour, double grams_per_litre, OxidantPpm room) {
    promised(grams_per_litre > 0 && flour.value() > 0);
    Pouring pouring;
    pouring.exact = Millilitres{dose.value() * flour.value() / grams_per_litre};
    const double most = room.value() * flour.value() / grams_per_litre;
    const auto steps = to_steps(pouring.exact.value(), 1, 0, most);
    pouring.rounded = Millilitres{steps.count};
    pouring.is_rounded_down = steps.is_down;
    pouring.resulting = OxidantPpm{steps.count * grams_per_litre / flour.value()};
    pouring.water = Kilograms{steps.count / grams_per_kilogram};
    return pouring;
}

} // namespace mellowbin::dough
