#include "core/plant.h"
#include "support/catch.h"

#include <set>

namespace mellowbin {

TEST_CASE("Every class of flour, way of air and kind of place has a key of its own") {
    for (const auto value : {FlourClass::white, FlourClass::high_extraction, FlourClass::wholemeal})
        CHECK(flour_class_from_key(key_of(value)) == value);
    for (const auto value : {Air::breathable_bag, Air::moved_silo, Air::sealed_liner, Air::inert})
        CHECK(air_from_key(key_of(value)) == value);
    for (const auto value : {PlaceKind::bay, PlaceKind::rack, PlaceKind::tote, PlaceKind::silo})
        CHECK(place_kind_from_key(key_of(value)) == value);
    CHECK(!flour_class_from_key("rye"));
    CHECK(!air_from_key(""));
    CHECK(!place_kind_from_key("Bay"));
    CHECK(name_of(FlourClass::wholemeal) == "Wholemeal");
    CHECK(name_of(Air::inert) == "Vacuum, nitrogen or absorber");
}

TEST_CASE("A place has the temperature of the last step that began, and its own before the first") {
    const auto day = [](unsigned d) { return Day{date::year{2026} / 11 / d}; };
    const Place place{PlaceId{1},
                      "Bay 1",
                      PlaceKind::bay,
                      Air::breathable_bag,
                      Celsius{18},
                      {},
                      {{day(10), Celsius{22}}, {day(20), Celsius{25}}}};
    CHECK(place.temperature_on(day(9)) == Celsius{18});
    CHECK(place.temperature_on(day(10)) == Celsius{22});
    CHECK(place.temperature_on(day(19)) == Celsius{22});
    CHECK(place.temperature_on(day(30)) == Celsius{25});
}

} // namespace mellowbin
