#include "aging/priors.h"

#include "core/literature/constants.h"

namespace mellowbin::aging {
namespace {

namespace lit = literature;

constexpr Lognormal from(const lit::Constant& median, const lit::Constant& gsd) {
    return {median.value, gsd.value};
}

constexpr std::array air_factors{
    from(lit::aging_air_breathable_bag, lit::aging_air_breathable_bag_gsd),
    from(lit::aging_air_moved_silo, lit::aging_air_moved_silo_gsd),
    from(lit::aging_air_sealed_liner, lit::aging_air_sealed_liner_gsd),
    from(lit::aging_air_inert, lit::aging_air_inert_gsd),
};
constexpr Lognormal q10 = from(lit::aging_q10, lit::aging_q10_gsd);
constexpr Lognormal cold_q10 = from(lit::aging_cold_q10, lit::aging_cold_q10_gsd);

constexpr std::array by_class{
    Priors{from(lit::aging_k20_white, lit::aging_k20_white_gsd), q10, cold_q10, air_factors,
           from(lit::aging_life20_white, lit::aging_life20_white_gsd),
           from(lit::aging_life_q10_white, lit::aging_life_q10_gsd)},
    Priors{from(lit::aging_k20_high_extraction, lit::aging_k20_high_extraction_gsd), q10, cold_q10,
           air_factors, from(lit::aging_life20_high_extraction, lit::aging_life20_high_extraction_gsd),
           from(lit::aging_life_q10_high_extraction, lit::aging_life_q10_gsd)},
    Priors{from(lit::aging_k20_wholemeal, lit::aging_k20_wholemeal_gsd), q10, cold_q10, air_factors,
           from(lit::aging_life20_wholemeal, lit::aging_life20_wholemeal_gsd),
           from(lit::aging_life_q10_wholemeal, lit::aging_life_q10_gsd)},
};

} // namespace

Priors published_priors(FlourClass flour_class) { return by_class[static_cast<std::size_t>(flour_class)]; }

CutPoints published_cut_points() {
    return {lit::aging_usable_from.value, lit::aging_mature_from.value, lit::aging_use_first_from.value,
            lit::aging_past_best_from.value};
}

} // namespace mellowbin::aging
