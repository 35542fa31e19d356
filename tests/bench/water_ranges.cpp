// How often the range that a card tells of its water holds the true water, over plants that are made up, as
// assumed and where the model is wrong. Usage: water_ranges [PLANTS [SEED]]; 200 plants and seed 1.
#include "support/water_plants.h"

#include <fmt/format.h>

#include <cstdlib>
#include <string>

using namespace mellowbin::simulated;

namespace {

struct Study {
    const char* name;
    WaterTurns turns;
    std::function<WaterPlant(Dice&)> make = random_water_plant;
    int from = -1, until = -1; ///< lots scored
};

WaterPlant with(Dice& dice, double band, double noise, double centre = 0) {
    auto plant = random_water_plant(dice);
    plant.band = band;
    plant.noise = noise;
    plant.band_centre = centre;
    return plant;
}

std::vector<Study> studies() {
    WaterTurns plain, silent, silent_when_right, jump, odd, long_lots, change;
    silent.silent_when_right = silent.silent_else = 0.3;
    silent_when_right.silent_when_right = 0.36;
    silent_when_right.silent_else = 0.15;
    jump.jump_at = 12;
    jump.jump = 1.5;
    odd.odd_lot = 14;
    odd.odd = 3;
    long_lots.batches = 60;
    change.new_operator_at = 11;
    change.new_band = 1.4;
    change.new_noise = 0.6;
    return {
        {"as assumed", plain},
        {"30 % silent", silent},
        {"36 % silent when right, 15 % else", silent_when_right},
        {"crop +1.5 at lot 12: lots 12 to 14", jump, random_water_plant, 12, 14},
        {"... lots 18 to 21", jump, random_water_plant, 18, 21},
        {"lot 14's certificate off by 3: that lot", odd, random_water_plant, 14, 14},
        {"... the four lots after", odd, random_water_plant, 15, 18},
        {"band -0.5 to +1.5", plain,
         [](Dice& dice) { return with(dice, 1.0, uniform(dice, 0.2, 1.0), 0.5); }},
        {"band 2.0, noise 0.3", plain, [](Dice& dice) { return with(dice, 2.0, 0.3); }},
        {"band 1.5, noise 0.1", plain, [](Dice& dice) { return with(dice, 1.5, 0.1); }},
        {"band 1.0, noise 1.5", plain, [](Dice& dice) { return with(dice, 1.0, 1.5); }},
        {"operator 0.6/0.3, from lot 11 on 1.4/0.6: lots 11 to 16", change,
         [](Dice& dice) { return with(dice, 0.6, 0.3); }, 11, 16},
        {"60 batches a lot", long_lots},
    };
}

} // namespace

int main(int argc, char** argv) {
    const int plants = argc > 1 ? std::atoi(argv[1]) : 200;
    const auto seed = static_cast<unsigned>(argc > 2 ? std::atoi(argv[2]) : 1);
    fmt::print("{} plants, seed {}; held: of 100 doughs; plants: worst / 5 % / 50 %; points\n", plants, seed);
    fmt::print("{:58} {:>5} {:>14} {:>9} {:>9} {:>16}\n", "", "held", "plants", "rms first", "rms fifth",
               "half width 1 / 5");
    for (const auto& study : studies()) {
        const auto worked = mellowbin::simulated::study(plants, seed, study.turns, study.make);
        const auto s = score(worked, study.turns, study.from, study.until);
        fmt::print("{:58} {:5.1f} {:4.0f} {:4.0f} {:4.0f} {:9.3f} {:9.3f} {:8.2f} {:7.2f}\n", study.name,
                   100 * s.cover, 100 * s.plants_at(0), 100 * s.plants_at(0.05), 100 * s.plants_at(0.5),
                   s.rms.front(), s.rms[4], s.half_width.front(), s.half_width[4]);
    }
}
