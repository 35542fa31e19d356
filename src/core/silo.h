#pragma once

#include "core/id.h"
#include "core/quantity.h"
#include "core/result.h"
#include "core/stock.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// How a silo gives its flour: its lowest grams are one mixture from which everything leaves, and what lies
/// above enters that mixture as it falls. 0 is first in, first out; none said is the whole silo, one mixture.
/// Funnels, rat holes and segregation have no figure that was read: common practice, no source.
struct MixingZone {
    std::optional<Grams> mass; ///< 0 or more; nothing: all that lies there
    friend bool operator==(const MixingZone&, const MixingZone&) = default;
};
/// "first in, first out", "all of it is one mixture", "its lowest 2500 kg are one mixture".
std::string in_words(const MixingZone& zone);
/// Reads "all", "none" (first in, first out) or kilograms, 0 to 1,000 t.
Result<MixingZone> read_mixing_zone(std::string_view typed);

/// How surely a lot is in what was drawn.
enum class Certainty { contains, may_contain };
std::string_view key_of(Certainty certainty);
std::string_view in_words(Certainty certainty); ///< "contains", "may contain"

/// What a draw holds of one lot.
struct DrawnPart {
    LotId lot;
    Grams mass; ///< above 0
    Certainty certainty{};
    friend bool operator==(const DrawnPart&, const DrawnPart&) = default;
};

/// What a draw from layers (the bottom one first, as StockBook::layers() gives them) holds of each lot, in
/// the order in which the lots lie there. The grams add up exactly to the mass drawn, cut to whole ones by
/// largest remainder, and are never more than lies there of a lot. A lot is contained where it left unmixed
/// (first in, first out) or was alone in all that mixed; else the draw may contain it. In the zone of Z grams
/// dx/dm = inflow - x/Z as long as something lies above, after that it empties in proportion. Refused where
/// more is drawn than lies there, or less than nothing. A draw of nothing holds nothing.
Result<std::vector<DrawnPart>> drawn(std::span<const Layer> layers, const MixingZone& zone, Grams mass);

/// Takes the parts of a draw out of the layers, of each lot its oldest first.
void take_out(std::vector<Layer>& layers, std::span<const DrawnPart> parts);

/// Whole grams in the proportion of the weights that add up exactly to `whole`, by largest remainder (the
/// first of equal ones gets it); none above its own `most`, whose sum is `whole` at least: the others then
/// get what one cannot give, in turns.
std::vector<Grams> shared_out(Grams whole, std::span<const double> weights, std::span<const Grams> most);

} // namespace mellowbin
