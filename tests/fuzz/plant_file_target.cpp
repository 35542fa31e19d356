#include "exchange/plant_file.h"
#include "fuzz/target.h"

namespace mellowbin::fuzz {
namespace {

using namespace exchange;

void take(std::string_view bytes) {
    const auto plant = read_plant_file(bytes);
    if (!plant)
        return expect_well_said(plant.refusals(), bytes);
    const auto written = write_plant_file(*plant);
    expect_text(written);
    const auto again = read_plant_file(written);
    expect(again && *again == *plant, "a plant that is written reads back the same");
    expect(write_plant_file(*again) == written, "the same plant is written the same");
}

const Registered target{"plant_file", take};

} // namespace
} // namespace mellowbin::fuzz
