#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace mellowbin::ui {

/// A figure held against its specification.
struct Measured {
    std::optional<double> value;
    bool fails = false;
    std::string_view words = {}; ///< why there is none: it cannot be compared
};

/// A property, and what the mill and the plant measured of it.
struct SpecificationRow {
    std::string_view label, unit;
    int decimals = 1;
    std::optional<double> low, high; ///< either may be open
    Measured mill, own;
};

struct SpecificationBars {
    std::string_view mill_day; ///< "13 Nov"; empty: not known
    std::string_view own_day;  ///< of the newest; empty: nothing was measured here
    std::string_view basis;    ///< "All on 14 % moisture"
    std::span<const SpecificationRow> rows;
};

/// Every specification on the same stretch of its bar, the mill's mark hollow above, the plant's own solid
/// beneath, so that two near figures never hide each other; only what fails is coloured.
void specification_bars(const SpecificationBars& bars);

} // namespace mellowbin::ui
