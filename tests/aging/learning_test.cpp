#include "aging/flour.h"
#include "aging/learning.h"
#include "support/catch.h"

#include <cmath>
#include <random>

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

constexpr FlourGroup strong{MillId{1}, FlourId{1}}, other{MillId{2}, FlourId{1}};

/// A plant whose flour matures at its own rate and changes by its own amplitude; two or three tests a lot.
struct Plant {
    double rate = 0.082, change = 0.15, error = 0.02;
    Property property = Property::extensograph_resistance;
    std::mt19937 random{7};
    std::vector<Estimate> estimates;
    std::vector<TaughtBy> lots;

    Plant() { estimates.reserve(200); }

    double drawn(double sd) {
        std::normal_distribution<double> normal;
        return sd * normal(random);
    }
    void test_lots(int count, FlourGroup group = strong, double faster = 1) {
        for (int i = 0; i < count; ++i) {
            estimates.emplace_back(stored_flour());
            const double k = rate * faster * std::exp(drawn(0.15));
            Series series{property, maturing_test(property)->published, error, {}};
            for (int day : {1, 8, 16, 30})
                series.observations.push_back(
                    {300 * (1 + change * (1 - std::exp(-k * day))) * std::exp(drawn(error)),
                     days_of(milled) + day,
                     false,
                     {}});
            lots.push_back(
                {LotId{static_cast<std::int64_t>(lots.size()) + 1}, group, &estimates.back(), {series}});
        }
    }
    Learned learned() const { return Learned(learn(lots)); }
};

double sd_of(Lognormal rate) { return std::log(rate.gsd); }

} // namespace

TEST_CASE("Without lessons what is published holds, to the last bit") {
    const Learned nothing;
    CHECK(nothing.priors(FlourClass::white, strong, LotId{1}) == published_priors(FlourClass::white));
    CHECK(nothing.changes(LotId{1}).of(*maturing_test(Property::glutathione)) ==
          maturing_test(Property::glutathione)->published);
}

TEST_CASE("Levels add up: a lot of a group never seen is believed as widely as published") {
    const Learned nothing{std::vector<Lesson>{}};
    const auto group = nothing.group_rate(FlourClass::white, strong);
    const double lot_share = 1 - published_learning_shares().plant - published_learning_shares().mill;
    CHECK(std::hypot(sd_of(group), std::sqrt(lot_share) * std::log(2.0)) == Approx(std::log(2.0)));
}

TEST_CASE("Ten lots' rates pool with the class prior by their precisions") {
    // Normal mean with known spreads: 1/v = 1/s2 + n/sw2, mean v (mu/s2 + n x/sw2); worked by hand for the
    // prior of ln 0.082 and ln 2, ten lots averaging ln 0.12 with a scatter of 0.5.
    const double s = std::log(2.0);
    std::vector<Lesson> lessons;
    for (int i = 0; i < 10; ++i) {
        const double precision = s * s / (0.5 * 0.5);
        lessons.push_back({LotId{i + 1},
                           strong,
                           FlourClass::white,
                           {},
                           {precision, 0, 0, 0},
                           {precision * std::log(0.12 / 0.082) / s, 0}});
    }
    const Learned learned(lessons, {1, 0, 1});
    CHECK(learned.plant_rate(FlourClass::white).median == Approx(0.11776).epsilon(1e-4));
    CHECK(sd_of(learned.plant_rate(FlourClass::white)) == Approx(0.1542).epsilon(1e-3));
}

TEST_CASE("A plant with fast flour learns that it is fast, and is surer of it than what is published") {
    Plant plant;
    plant.rate = 0.16;
    plant.property = Property::glutathione;
    plant.change = -0.43;
    plant.test_lots(12);
    const auto learned = plant.learned();
    const auto rate = learned.plant_rate(FlourClass::white);
    CHECK(rate.median > 0.12);
    CHECK(rate.median < 0.21);
    CHECK(sd_of(learned.priors(FlourClass::white, strong, LotId{99}).k20) < std::log(2.0));
}

TEST_CASE("What goes at a rate of its own teaches its change and nothing of the dough's rate; a drift "
          "nothing at all") {
    Plant plant;
    plant.property = Property::glutathione;
    plant.rate = 0.30;
    plant.change = -0.30;
    plant.test_lots(12);
    for (auto& lot : plant.lots)
        for (auto& series : lot.evidence) {
            series.follows = Follows::own_rate;
            series.own_rate = maturing_test(Property::glutathione)->own_rate;
        }
    const auto learned = plant.learned();
    CHECK(learned.plant_rate(FlourClass::white).median ==
          Approx(published_priors(FlourClass::white).k20.median));
    CHECK(learned.plant_change(Property::glutathione).mean == Approx(-0.30).margin(0.05));
    for (auto& lot : plant.lots)
        for (auto& series : lot.evidence)
            series.follows = Follows::drift;
    CHECK(learn(plant.lots).empty());
}

TEST_CASE("A plant whose flour does not improve sees that") {
    Plant plant;
    plant.change = 0;
    plant.test_lots(15);
    const auto change = plant.learned().plant_change(Property::extensograph_resistance);
    CHECK(std::abs(change.mean) < 0.03);
    CHECK(change.sd < 0.04);
    // And then nothing can be said of its rate.
    CHECK(sd_of(plant.learned().plant_rate(FlourClass::white)) > 0.4);
}

TEST_CASE("Two mills of one plant are told apart") {
    Plant plant;
    plant.property = Property::glutathione;
    plant.change = -0.43;
    plant.error = 0.01;
    plant.test_lots(10, strong, 1.5);
    plant.test_lots(10, other, 0.7);
    const auto learned = plant.learned();
    CHECK(learned.group_rate(FlourClass::white, strong).median >
          1.4 * learned.group_rate(FlourClass::white, other).median);
    CHECK(learned.lots_of(strong).size() == 10);
}

TEST_CASE("What a class learned moves the other classes of the plant with it") {
    Plant plant;
    plant.rate = 0.16;
    plant.property = Property::glutathione;
    plant.change = -0.43;
    plant.test_lots(10);
    CHECK(plant.learned().plant_rate(FlourClass::wholemeal).median >
          published_priors(FlourClass::wholemeal).k20.median);
}

TEST_CASE("A lot does not count its own lesson twice") {
    Plant plant;
    plant.property = Property::glutathione;
    plant.change = -0.43;
    plant.test_lots(6);
    auto without = plant.lots;
    without.erase(without.begin());
    auto lessons = learn(plant.lots);
    const Learned all(lessons);
    lessons.erase(lessons.begin());
    const Learned others(lessons);
    const auto believed = all.priors(FlourClass::white, strong, LotId{1}).k20;
    CHECK(believed.median == Approx(others.priors(FlourClass::white, strong, LotId{99}).k20.median));
    CHECK(believed.gsd == Approx(others.priors(FlourClass::white, strong, LotId{99}).k20.gsd));
    CHECK(believed.gsd > all.priors(FlourClass::white, strong, LotId{99}).k20.gsd);
}

TEST_CASE("Lessons do not depend on the order of the lots") {
    Plant plant;
    plant.test_lots(5);
    const auto before = plant.learned().plant_change(Property::extensograph_resistance);
    std::reverse(plant.lots.begin(), plant.lots.end());
    const auto after = plant.learned().plant_change(Property::extensograph_resistance);
    CHECK(before.mean == Approx(after.mean).epsilon(1e-6));
    CHECK(before.sd == Approx(after.sd).epsilon(1e-6));
}
