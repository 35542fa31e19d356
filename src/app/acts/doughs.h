#pragma once

#include "app/acts/act.h"

#include <string>

/// A product's dough.
namespace mellowbin::app {

/// How a product's dough may be helped and its bread kept, as typed; empty: as it stands.
struct ChangeDough {
    std::string product;                   ///< name
    std::string process = {};              ///< name of the dough process
    std::string most_fermentation = {};    ///< minutes
    std::string maturity_per_hour = {};    ///< %, by the plant's own bakes; "none": not calibrated
    std::string water_offset = {};         ///< points against the farinograph
    std::string preservative = {};         ///< name
    std::string preservative_percent = {}; ///< of flour
    std::string cultured_acid = {};        ///< % propionic acid in the cultured wheat
    std::string erh = {};                  ///< % of the crumb, as measured; "none"
    std::string enzyme = {};               ///< in words; "none"
    std::string sold_as = {};              ///< key or name of how its bread is put on sale; "none"
    std::string market = {};               ///< key of the market whose limits it must meet
    std::string house_maximum = {};        ///< mg/kg of its oxidant, mill and bakery together; 0: none is set
    bool is_offset_assumed = false;        ///< the offset given is nobody's own: what is put back may be
};

Result<Told> carry_out(State& state, const ChangeDough& act);

} // namespace mellowbin::app
