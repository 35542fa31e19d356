#include "exchange/plant_file.h"
#include "support/refusal_words.h"

namespace mellowbin::exchange {

TEST_CASE("A place of a plant file may say how humid its air is, in percent") {
    const auto file = [](const std::string& humidity) {
        return read_plant_file(R"({"plant": "Small plant", "places": [{"name": "Bay 1", "kind": "bay",
            "air": "breathable_bag", "temperature_c": 18)" +
                               humidity + "}]}");
    };
    REQUIRE(file(R"(, "humidity_percent": 62.5)"));
    CHECK(file(R"(, "humidity_percent": 62.5)")->places.at(0).humidity == RelativeHumidity{0.625});
    CHECK_FALSE(file("")->places.at(0).humidity);
    const auto refused = file(R"(, "humidity_percent": 162)");
    REQUIRE_FALSE(refused);
    CHECK(testing::says(testing::all_words(refused.refusals()),
                        "places[0].humidity_percent: 162 was read; a number from 0 to 100 is expected"));
}

} // namespace mellowbin::exchange
