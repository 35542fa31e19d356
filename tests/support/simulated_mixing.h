#pragma once

#include <cstdint>
#include <string_view>

namespace mellowbin::testing {

/// What is odd about an invented plant's doughs, beside what is odd about every plant's.
enum class MixingOddity {
    none,
    probe_exchanged, ///< half way the thermometer gives way to one that reads 2 K lower or higher
    rough,           ///< doughs scatter by 2 to 3 K
    season,          ///< the flour is 8 K colder at the end than at the beginning, and nobody says so
};
std::string_view name_of(MixingOddity oddity);

/// How often the card's range of the dough's temperature held, over plants and batches.
struct MixingCover {
    int plants = 0;
    int batches = 0;
    double cover = 0;           ///< of what the line's own thermometer read
    double worst_twentieth = 0; ///< 5 % quantile of the plants' own shares
    double truly = 0;           ///< cover of the dough's true temperature, which nobody knows
    double width = 0;           ///< mean, K: from the lower end to the upper
    double first = 0;           ///< cover of each line's second to fifth batch
};

/// Plants of the seeds from `first_seed` on: one or two mixers, two or three products on each, batches of 60
/// to 250 kg; thermometers of dough and of water off by a constant (0.5 to 1 K), a meter of water off by 1 %,
/// readings rounded to 0.1, 0.5 or 1 K; flour whose temperature is guessed, off by a constant and by what
/// weeks do; 20 days with six batches each.
MixingCover mixing_cover(MixingOddity oddity, int plants, std::uint64_t first_seed);

} // namespace mellowbin::testing
