#include "aging/flour.h"
#include "aging/storage_path.h"
#include "support/catch.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

/// A lot of 10 t that came into place 1; moves are written as they are made.
struct Journey {
    std::vector<Movement> movements;
    std::vector<ClimatePtr> climates{climate_at(Celsius{10}), climate_at(Celsius{20}),
                                     climate_at(Celsius{30})};

    Journey() { add(MovementKind::receipt, {}, PlaceId{1}, 10, 0); }

    Movement& add(MovementKind kind, std::optional<PlaceId> from, std::optional<PlaceId> to, int tonnes,
                  int on) {
        Movement m;
        m.id = MovementId{static_cast<std::int64_t>(movements.size()) + 1};
        m.kind = kind;
        m.from = from;
        m.to = to;
        m.mass = Grams{tonnes * 1000000LL};
        m.at = day(on);
        movements.push_back(m);
        return movements.back();
    }
    Movement& move(int from, int to, int tonnes, int on) {
        return add(MovementKind::move, PlaceId{from}, PlaceId{to}, tonnes, on);
    }
    LotPaths follow(std::span<const SampleWish> wishes = {}) const {
        std::vector<const Movement*> pointers;
        for (const auto& m : movements)
            pointers.push_back(&m);
        return follow_lot(
            day(0), PlaceId{1}, pointers,
            [this](PlaceId id) { return climates[static_cast<std::size_t>(id.number() - 1)]; }, wishes);
    }
    /// Share of the flour that lies in a place on a day, by the path.
    double share(const StoragePath& path, int place, double on) const {
        double sum = 0;
        for (const auto& stay : path)
            if (stay.climate == climates[static_cast<std::size_t>(place - 1)] &&
                stay.from <= days_of(day(0)) + on && days_of(day(0)) + on < stay.until)
                sum += stay.share;
        return sum;
    }
};

void shares_add_up(const Journey& journey, const StoragePath& path) {
    for (double on : {0.0, 3.5, 11.0, 25.0, 400.0})
        CHECK(journey.share(path, 1, on) + journey.share(path, 2, on) + journey.share(path, 3, on) ==
              Approx(1));
}

} // namespace

TEST_CASE("A lot that stays has one stay, from its delivery on for ever") {
    const auto path = Journey{}.follow().whole;
    REQUIRE(path.size() == 1);
    CHECK(path[0].from == days_of(day(0)));
    CHECK(path[0].until == for_ever);
    CHECK(path[0].share == 1);
}

TEST_CASE("A receipt that was written days after the delivery still begins on the delivery") {
    Journey journey;
    journey.movements[0].at = day(4);
    CHECK(journey.follow().whole.front().from == days_of(day(0)));
}

TEST_CASE("A lot moved as a whole lies in one place at a time") {
    Journey journey;
    journey.move(1, 2, 10, 5);
    const auto path = journey.follow().whole;
    CHECK(path.size() == 2);
    CHECK(journey.share(path, 1, 4.9) == 1);
    CHECK(journey.share(path, 2, 5) == 1);
    shares_add_up(journey, path);
}

TEST_CASE("A split lot is followed in each place, and as a whole by mass") {
    Journey journey;
    journey.move(1, 2, 4, 5);
    journey.move(2, 3, 2, 10);
    const auto paths = journey.follow();
    CHECK(journey.share(paths.whole, 1, 20) == Approx(0.6));
    CHECK(journey.share(paths.whole, 2, 20) == Approx(0.2));
    CHECK(journey.share(paths.whole, 3, 20) == Approx(0.2));
    CHECK(journey.share(paths.whole, 2, 7) == Approx(0.4));
    shares_add_up(journey, paths.whole);
    REQUIRE(paths.by_place.size() == 3);
    const auto& third = paths.by_place[2].second;
    CHECK(journey.share(third, 1, 2) == Approx(1));
    CHECK(journey.share(third, 2, 7) == Approx(1));
    CHECK(journey.share(third, 3, 12) == Approx(1));
}

TEST_CASE("Flour poured together is taken out evenly") {
    Journey journey;
    journey.move(1, 2, 5, 5);
    journey.move(1, 2, 5, 15);
    journey.move(2, 3, 5, 20);
    const auto paths = journey.follow();
    CHECK(journey.share(paths.by_place[1].second, 2, 10) == Approx(0.5));
    CHECK(journey.share(paths.by_place[1].second, 1, 10) == Approx(0.5));
    shares_add_up(journey, paths.whole);
}

TEST_CASE("What was used no longer counts: the path is that of what is left") {
    Journey journey;
    journey.move(1, 3, 5, 5);
    journey.add(MovementKind::use, PlaceId{1}, {}, 5, 8);
    const auto path = journey.follow().whole;
    CHECK(journey.share(path, 3, 7) == Approx(1));
    CHECK(journey.share(path, 1, 3) == Approx(1));
}

TEST_CASE("A lot used up keeps the path it had last") {
    Journey journey;
    journey.move(1, 2, 10, 5);
    journey.add(MovementKind::use, PlaceId{2}, {}, 10, 8);
    CHECK(journey.share(journey.follow().whole, 2, 9) == Approx(1));
}

TEST_CASE("A movement that was taken back never happened") {
    Journey journey;
    journey.move(1, 3, 10, 5);
    auto& back = journey.move(3, 1, 10, 9);
    back.counters = MovementId{2};
    const auto path = journey.follow().whole;
    CHECK(path.size() == 1);
    CHECK(journey.share(path, 1, 7) == Approx(1));
}

TEST_CASE("A sample has the past of the place it was taken from") {
    Journey journey;
    journey.move(1, 3, 5, 5);
    const double then = days_of(day(9));
    const SampleWish wishes[] = {
        {then, {}}, {then, PlaceId{3}}, {then, PlaceId{2}}, {days_of(day(3)), PlaceId{3}}};
    const auto samples = journey.follow(wishes).samples;
    REQUIRE(samples[0]);
    CHECK(journey.share(*samples[0], 3, 8) == Approx(0.5));
    REQUIRE(samples[1]);
    CHECK(journey.share(*samples[1], 3, 8) == Approx(1));
    CHECK_FALSE(samples[2]); // nothing of it ever lay there
    CHECK_FALSE(samples[3]); // nor there yet
}

TEST_CASE("A sample taken before flour was used has the past of all of it") {
    Journey journey;
    journey.move(1, 3, 5, 5);
    journey.add(MovementKind::use, PlaceId{3}, {}, 5, 12);
    const SampleWish wishes[] = {{days_of(day(9)), {}}};
    CHECK(journey.share(*journey.follow(wishes).samples[0], 3, 8) == Approx(0.5));
}
