#pragma once

#include "core/batch.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

/// Invented words of mixer and laboratory for the demo book.
namespace mellowbin::app {

/// A loaf of a bake ladder; days count back from today.
struct DemoLoaf {
    const char* lot;
    int before;
    const char* dose; ///< mg/kg of ascorbic acid
    const char* ml;
    const char* note;
};
std::span<const DemoLoaf> demo_loaves();

/// What bread of a product did; days count back from today.
struct DemoKept {
    const char* product;
    const char* kind;
    int baked_before;
    const char* days;
    const char* finding;
    const char* firmness;
    const char* ph;
    const char* note;
};
std::span<const DemoKept> demo_kept();

/// What the operator says of the n-th dough of a product that was mixed; empty words for those nobody spoke
/// of. `points` is the water it was given beside its farinograph, where that is known.
ResultDraft demo_result(const std::string& product, int dough, double aimed_at, std::optional<double> points);

} // namespace mellowbin::app
