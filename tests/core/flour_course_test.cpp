#include "core/flour_course.h"
#include "support/catch.h"

#include <random>

using namespace mellowbin;

namespace {

const LotId a{1}, b{2}, c{3};
const PlaceId silo{1}, bay{2}, tote{3}, second_silo{4};
const RunId run{1};

/// A book of movements, each entered as it is written.
struct Plant {
    FlourCourse course;
    StockBook book;
    std::vector<Movement> all;

    explicit Plant(MixingZone zone = {}) : course({{silo, zone}, {second_silo, zone}}) {}

    MovementId move(LotId lot, MovementKind kind, std::optional<PlaceId> from, std::optional<PlaceId> to,
                    std::int64_t grams, std::optional<RunId> of = {}) {
        Movement m;
        m.lot = lot;
        m.kind = kind;
        m.from = from;
        m.to = to;
        m.mass = Grams{grams};
        m.run = of;
        return write(m);
    }
    MovementId write(Movement m) {
        m.id = MovementId{static_cast<std::int64_t>(all.size()) + 1};
        REQUIRE(book.check(m));
        book.enter(m);
        course.enter(m);
        all.push_back(m);
        return m.id;
    }
    MovementId comes(LotId lot, PlaceId to, std::int64_t grams) {
        return move(lot, MovementKind::receipt, {}, to, grams);
    }
    MovementId use(LotId lot, PlaceId from, std::int64_t grams) {
        return move(lot, MovementKind::use, from, {}, grams, run);
    }
    MovementId counter(MovementId id) {
        return write(countering(all[static_cast<std::size_t>(id.number()) - 1], "", {}, ""));
    }
    std::int64_t in(MovementId id, LotId lot) const {
        for (const auto& part : course.moved_by(id))
            if (part.lot == lot)
                return part.mass.count();
        return 0;
    }
    std::int64_t lies(LotId lot, LotId named, PlaceId place) const {
        for (const auto& part : course.lying(named, place))
            if (part.lot == lot)
                return part.mass.count();
        return 0;
    }
};

} // namespace

TEST_CASE("A draw from a silo holds what lay there, whatever lot was named") {
    Plant plant;
    plant.comes(a, silo, 600);
    plant.comes(b, silo, 400);
    const auto draw = plant.use(a, silo, 100);
    CHECK(plant.course.moved_by(draw) == std::vector{DrawnPart{a, Grams{60}, Certainty::may_contain},
                                                     DrawnPart{b, Grams{40}, Certainty::may_contain}});
    CHECK(plant.lies(a, b, silo) == 540);
    CHECK(plant.lies(b, a, silo) == 360);
}

TEST_CASE("Elsewhere a lot lies apart, and its draws hold nothing else") {
    Plant plant;
    plant.comes(a, bay, 600);
    plant.comes(b, bay, 400);
    const auto draw = plant.use(b, bay, 100);
    CHECK(plant.course.moved_by(draw) == std::vector{DrawnPart{b, Grams{100}, Certainty::contains}});
}

TEST_CASE("What comes out of a silo into a tote stays a mixture there, and in the next silo") {
    Plant plant;
    plant.comes(a, silo, 500);
    plant.comes(b, silo, 500);
    plant.move(a, MovementKind::move, silo, tote, 200);
    CHECK(plant.lies(b, a, tote) == 100);
    const auto draw = plant.use(a, tote, 50);
    CHECK(plant.in(draw, b) == 25);
    plant.comes(c, second_silo, 100);
    plant.move(a, MovementKind::move, tote, second_silo, 100);
    const auto later = plant.use(c, second_silo, 100);
    CHECK(plant.in(later, c) == 50);
    CHECK(plant.in(later, a) == 25);
    CHECK(plant.in(later, b) == 25);
}

TEST_CASE("Flour that only may be of a lot stays so when it lies in the next silo alone") {
    Plant plant(MixingZone{Grams{0}}); // first in, first out: what leaves would be sure
    plant.course = FlourCourse({{silo, MixingZone{}}, {second_silo, MixingZone{Grams{0}}}});
    plant.comes(a, silo, 500);
    plant.comes(b, silo, 500);
    plant.move(a, MovementKind::move, silo, second_silo, 200);
    const auto draw = plant.use(a, second_silo, 100);
    CHECK(plant.course.moved_by(draw) == std::vector{DrawnPart{a, Grams{100}, Certainty::may_contain}});
}

TEST_CASE("A draw that is taken back puts back what it took, below") {
    Plant plant(MixingZone{Grams{0}});
    plant.comes(a, silo, 100);
    plant.comes(b, silo, 100);
    const auto draw = plant.use(b, silo, 100); // named B, and A is what lies lowest
    CHECK(plant.in(draw, a) == 100);
    plant.counter(draw);
    const auto again = plant.use(a, silo, 100);
    CHECK(plant.in(again, a) == 100);
}

TEST_CASE("A receipt that is taken back takes its own flour away, or what is left of it") {
    Plant plant;
    plant.comes(a, silo, 100);
    const auto mistake = plant.comes(b, silo, 100);
    plant.counter(mistake);
    CHECK(plant.lies(a, a, silo) == 100);
    CHECK(plant.lies(b, a, silo) == 0);
}

TEST_CASE("Flour that comes back from a run is the mixture that went to it") {
    Plant plant;
    plant.comes(a, silo, 500);
    plant.comes(b, silo, 500);
    plant.use(a, silo, 200);
    plant.move(a, MovementKind::give_back, {}, bay, 50, run);
    CHECK(plant.lies(b, a, bay) == 25);
    CHECK(plant.lies(a, a, bay) == 25);
}

TEST_CASE("A count takes of the lot itself what it found less, and gives it what it found more") {
    Plant plant;
    plant.comes(a, silo, 500);
    plant.comes(b, silo, 500);
    plant.move(b, MovementKind::count, silo, {}, 100);
    CHECK(plant.lies(a, a, silo) == 500);
    CHECK(plant.lies(b, a, silo) == 400);
    plant.move(a, MovementKind::count, {}, silo, 30);
    CHECK(plant.lies(a, a, silo) == 530);
}

TEST_CASE("Whatever is moved, what lies in a place weighs what the book says, and no lot is made or lost") {
    for (unsigned seed = 1; seed <= 40; ++seed) {
        std::mt19937 random(seed);
        const auto whole = [&](int low, int high) {
            return std::uniform_int_distribution<int>(low, high)(random);
        };
        const MixingZone zone = seed % 3 == 0   ? MixingZone{Grams{0}}
                                : seed % 3 == 1 ? MixingZone{}
                                                : MixingZone{Grams{whole(1, 3000)}};
        Plant plant(zone);
        std::map<LotId, std::int64_t> came;
        for (int i = 0; i < 150; ++i) {
            const LotId lot{whole(1, 4)};
            const PlaceId at{whole(1, 4)}, to{whole(1, 4)};
            const auto there = plant.book.at(lot, at).count();
            if (whole(0, 3) == 0) {
                const int mass = whole(1, 2000);
                plant.comes(lot, at, mass);
                came[lot] += mass;
            } else if (there > 0 && at != to && whole(0, 1) == 0) {
                plant.move(lot, MovementKind::move, at, to, 1 + random() % there);
            } else if (there > 0) {
                const auto taken = plant.use(lot, at, 1 + random() % there);
                if (whole(0, 4) == 0)
                    plant.counter(taken);
            }
        }
        std::map<LotId, std::int64_t> left;
        for (const auto& m : plant.all)
            if (m.kind == MovementKind::use)
                for (const auto& part : plant.course.moved_by(m.id))
                    left[part.lot] += m.from ? part.mass.count() : -part.mass.count();
        std::map<LotId, std::int64_t> lying;
        for (const auto place : {silo, bay, tote, second_silo}) {
            std::int64_t booked = 0, held = 0;
            const bool is_silo = place == silo || place == second_silo;
            for (int lot = 1; lot <= 4; ++lot) {
                booked += plant.book.at(LotId{lot}, place).count();
                if (is_silo && lot > 1)
                    continue;
                for (const auto& part : plant.course.lying(LotId{lot}, place)) {
                    held += part.mass.count();
                    lying[part.lot] += part.mass.count();
                }
            }
            CHECK(held == booked);
        }
        INFO("seed " << seed);
        for (const auto& [lot, mass] : came)
            CHECK(lying[lot] + left[lot] == mass);
    }
}
