#pragma once

#include "planning/problem.h"

#include <cstdint>
#include <string>

namespace mellowbin::planning {

/// How large a made instance is.
struct MadeSize {
    std::string name;
    int lots = 0;
    int runs = 0;
    int lines = 0;
    int days = 0;      ///< the horizon
    double plenty = 1; ///< stock as a multiple of the demand
};

/// S 20 x 30, M 60 x 100, L 150 x 300 or XL 400 x 1200 lots x runs, lines, horizon and plenty as in the
/// reference instances (XL: assumption). Nothing else is a size; null then.
const MadeSize* made_size(const std::string& name);

/// A planning instance in the form exchange::read_instance() reads: twelve products, lots made for them with
/// figures, ages and prices that spread as in the reference instances. Every kind of flour comes in time and
/// in the amount its runs need, so that a plan without shortage is near. The same seed gives the same bytes
/// on any machine.
std::string made_instance(const MadeSize& size, std::uint64_t seed);

/// made_instance(), read.
Problem made_problem(const MadeSize& size, std::uint64_t seed);

} // namespace mellowbin::planning
