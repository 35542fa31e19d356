// How often the program's ranges hold what they say, over invented plants whose truth is known: the best dose
// of bakes (--doses) and the temperature of doughs by the learned heat of mixing (--mixing). Not a
// micro-benchmark. --plants N (200) plants a row, of the seeds from --seed S (1) on. A range is told to hold
// in 80 of 100.

#include "support/simulated_bakes.h"
#include "support/simulated_mixing.h"

#include <fmt/format.h>

#include <cstdint>
#include <cstdlib>
#include <exception>
#include <string>
#include <string_view>

namespace {

using namespace mellowbin::testing;

struct Asked {
    bool doses = false;
    bool mixing = false;
    int plants = 200;
    std::uint64_t seed = 1;
};

Asked read(int count, char** words) {
    Asked asked;
    for (int i = 1; i < count; ++i) {
        const std::string_view word = words[i];
        if (word == "--doses")
            asked.doses = true;
        else if (word == "--mixing")
            asked.mixing = true;
        else if (word == "--plants" && i + 1 < count)
            asked.plants = std::stoi(words[++i]);
        else if (word == "--seed" && i + 1 < count)
            asked.seed = std::stoull(words[++i]);
    }
    if (!asked.doses && !asked.mixing)
        asked.doses = asked.mixing = true;
    return asked;
}

void show_doses(const Asked& asked, bool matures) {
    fmt::print("best dose of bakes{}; width and miss are shares of the highest dose baked\n",
               matures ? " of lots that have matured since, by 6 mg/kg (2 to 20) from fresh to mature" : "");
    fmt::print("{:<10} {:>6} {:>8} {:>9} {:>6} {:>6} {:>7} {:>6} {:>6}\n", "response", "cover", "5% plant",
               "by chance", "width", "miss", "plants", "lots", "seed");
    double held = 0;
    int lots = 0;
    for (const auto shape : {DoseShape::rising, DoseShape::falling, DoseShape::curved, DoseShape::flat}) {
        const auto cover = dose_cover({.shape = shape, .matures = matures}, asked.plants, asked.seed);
        held += cover.cover * cover.lots;
        lots += cover.lots;
        fmt::print("{:<10} {:>6.3f} {:>8.2f} {:>9.2f} {:>6.2f} {:>6.2f} {:>7} {:>6} {:>6}\n", name_of(shape),
                   cover.cover, cover.worst_twentieth, cover.by_chance, cover.width, cover.miss, cover.plants,
                   cover.lots, asked.seed);
    }
    fmt::print("{:<10} {:>6.3f}\n", "all", held / lots);
}

void show_mixing(const Asked& asked) {
    fmt::print("temperature of doughs by the learned heat of mixing; width in K from end to end\n");
    fmt::print("{:<16} {:>6} {:>8} {:>9} {:>6} {:>6} {:>7} {:>8} {:>6}\n", "plants", "cover", "5% plant",
               "2nd-5th", "truly", "width", "plants", "batches", "seed");
    for (const auto oddity :
         {MixingOddity::none, MixingOddity::probe_exchanged, MixingOddity::rough, MixingOddity::season}) {
        const auto cover = mixing_cover(oddity, asked.plants, asked.seed);
        fmt::print("{:<16} {:>6.3f} {:>8.2f} {:>9.3f} {:>6.3f} {:>6.2f} {:>7} {:>8} {:>6}\n", name_of(oddity),
                   cover.cover, cover.worst_twentieth, cover.first, cover.truly, cover.width, cover.plants,
                   cover.batches, asked.seed);
    }
}

} // namespace

int main(int count, char** words) {
    try {
        const auto asked = read(count, words);
        if (asked.doses)
            for (const bool matures : {false, true})
                show_doses(asked, matures);
        if (asked.mixing)
            show_mixing(asked);
    } catch (const std::exception& e) {
        fmt::print(stderr, "{}\n", e.what());
        return 1;
    }
}
