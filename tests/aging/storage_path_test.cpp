#include "aging/storage_path.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

const Day first{date::year{2026} / 10 / 1};

std::vector<Place> places() {
    Place bay{PlaceId{1}, "Bay", PlaceKind::bay, Air::breathable_bag, Celsius{18}, {}};
    Place silo{PlaceId{2}, "Silo", PlaceKind::silo, Air::moved_silo, Celsius{22}, {}};
    silo.climate = {{first + Days{5}, Celsius{24}}, {first + Days{30}, Celsius{20}}};
    return {bay, silo};
}

} // namespace

TEST_CASE("A lot that never moves has its place's temperature for ever") {
    const auto all = places();
    CHECK(storage_path(first, PlaceId{1}, {}, all) == StoragePath{{first, Celsius{18}, Air::breathable_bag}});
}

TEST_CASE("The climate of a place counts from the day on which the lot comes there") {
    const auto all = places();
    const MoveTo moves[] = {{first + Days{10}, PlaceId{2}}};
    CHECK(storage_path(first, PlaceId{1}, moves, all) ==
          StoragePath{{first, Celsius{18}, Air::breathable_bag},
                      {first + Days{10}, Celsius{24}, Air::moved_silo},
                      {first + Days{30}, Celsius{20}, Air::moved_silo}});
}

TEST_CASE("A lot that leaves does not see the climate of the place it left") {
    const auto all = places();
    const MoveTo moves[] = {{first + Days{3}, PlaceId{1}}};
    CHECK(storage_path(first, PlaceId{2}, moves, all) ==
          StoragePath{{first, Celsius{22}, Air::moved_silo},
                      {first + Days{3}, Celsius{18}, Air::breathable_bag}});
}

TEST_CASE("The last move of a day counts") {
    const auto all = places();
    const MoveTo moves[] = {{first, PlaceId{2}}, {first, PlaceId{1}}};
    CHECK(storage_path(first, PlaceId{2}, moves, all) ==
          StoragePath{{first, Celsius{18}, Air::breathable_bag}});
}

TEST_CASE("A move to a place of the same temperature and air starts no new piece") {
    auto all = places();
    all.push_back({PlaceId{3}, "Bay 2", PlaceKind::bay, Air::breathable_bag, Celsius{18}, {}});
    const MoveTo moves[] = {{first + Days{4}, PlaceId{3}}};
    CHECK(storage_path(first, PlaceId{1}, moves, all).size() == 1);
}
