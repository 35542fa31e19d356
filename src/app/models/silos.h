#pragma once

#include "app/models/figure.h"
#include "core/id.h"
#include "core/quantity.h"

#include <optional>
#include <string>
#include <vector>

/// Silos: what lies in them, what a draw would hold, and what was done to them.
namespace mellowbin::app {

/// Of one lot, in a silo or in a draw from it.
struct SiloPart {
    LotId lot;
    std::string code;
    double kg = 0;
    double percent = 0;    ///< of all of it
    std::string certainty; ///< "contains", "may contain"; empty where it lies there
};

struct SiloRow {
    PlaceId place;
    std::string name;
    std::string zone;       ///< how it gives its flour, in words
    std::string zone_typed; ///< as it would be typed: "all", "none", "2500"
    std::optional<double> capacity_kg;
    double kg = 0;
    std::vector<SiloPart> layers; ///< the lowest first
    double draw_kg = 0;           ///< so much was asked about; less where less lies there
    std::vector<SiloPart> draw;
    std::vector<Figure> figures;   ///< of the draw, by the rules for blends, and its maturity
    std::vector<std::string> care; ///< "cleaned on 2026-11-20 by Tomas: brushed", the newest first
};

struct Station;

/// By the movements of the lots that are live; a draw of so much from each.
std::vector<SiloRow> make_silos(const Station& station, Grams draw);

} // namespace mellowbin::app
