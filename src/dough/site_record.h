#pragma once

#include "core/bake.h"
#include "core/plant.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace mellowbin::dough {

/// What a site's own records say of mould on a product's bread. A bake is all that was baked on one day; the
/// day mould came on lies between the last look that found none and the first that found it.
struct SiteMould {
    int bakes = 0;
    int bakes_with_mould = 0;
    std::optional<int> earliest; ///< day on which mould was seen first in any bake
    std::optional<int> free_to;  ///< last day that every bake looked at then was free of it, three at least
    std::optional<Day> newest;   ///< bake
    std::optional<int>
        newest_mould; ///< day mould was seen on in the newest bake that was kept to its end or moulded
    std::optional<double> ph; ///< of the crumb, newest
    std::optional<Day> ph_of; ///< bake it was measured of
};

/// Of one product; withdrawn records and firmness count for nothing here.
SiteMould site_mould(std::span<const KeepingRecord> records, ProductId product);

/// Whether mould on this day after the bake is early: then cleaning comes before the dose (common practice,
/// no source).
bool is_early_mould(int day);

/// What to do about early mould, in order: sanitation first, then pH, then cultured wheat or the dose. Empty
/// where no mould came early. `ph`: of crumb or dough.
std::vector<std::string> keeping_advice(const SiteMould& mould, std::optional<double> ph,
                                        bool has_preservative);

/// What the trade says of keeping bread where no publication does: each marked "common practice, no source".
std::vector<std::string> keeping_practice(FlourClass flour);

struct FirmnessDay {
    int days = 0;
    double low = 0;
    double mean = 0;
    double high = 0;
    int loaves = 0;
};
/// The firmness records of a product by days after the bake. No course is drawn through them: none that holds
/// for any bread was found.
std::vector<FirmnessDay> firmness_by_day(std::span<const KeepingRecord> records, ProductId product);

} // namespace mellowbin::dough
