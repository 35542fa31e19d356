#include "aging/flour.h"
#include "aging/learning.h"
#include "aging/uncertain_clock.h"
#include "published/row_file.h"
#include "support/catch.h"

#include <cmath>
#include <fstream>
#include <map>
#include <sstream>

// The posteriors of fixtures/jags, sampled by JAGS from its own description of the model, against ours by
// quadrature.

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

constexpr double zero = 20000; // days from 1970

struct Sampled {
    double mean, mean_error, sd;
};

std::map<std::string, Sampled> sampled_of(const std::string& id) {
    std::ifstream file(MELLOWBIN_FIXTURES "/jags/posteriors.csv");
    std::map<std::string, Sampled> found;
    for (std::string line; std::getline(file, line);) {
        std::istringstream cells(line);
        std::string its, what, mean, mean_error, sd;
        std::getline(cells, its, ',');
        std::getline(cells, what, ',');
        std::getline(cells, mean, ',');
        std::getline(cells, mean_error, ',');
        std::getline(cells, sd, ',');
        if (its == id)
            found[what] = {std::stod(mean), std::stod(mean_error), std::stod(sd)};
    }
    return found;
}

std::vector<double> numbers(const std::string& text) {
    std::istringstream words(text);
    std::vector<double> found;
    for (double number = 0; words >> number;)
        found.push_back(number);
    return found;
}

using Case = std::map<std::string, std::string>;

Lognormal lognormal(const std::string& text) {
    const auto both = numbers(text);
    return {both.at(0), both.at(1)};
}

/// "2:300 12:330"
std::vector<Observation> observations(const std::string& text) {
    std::istringstream words(text);
    std::vector<Observation> found;
    double day = 0, value = 0;
    for (char colon = 0; words >> day >> colon >> value;)
        found.push_back({value, zero + day, false, {}});
    return found;
}

Amplitude amplitude(const std::string& text) {
    const auto both = numbers(text);
    return {both.at(0), both.at(1)};
}

ClimatePtr climate(Celsius temperature, Air air, Lognormal q10) {
    Place place;
    place.temperature = temperature;
    place.air = air;
    auto factors = published_clock_factors();
    factors[static_cast<std::size_t>(Clock::maturing)] = q10;
    return std::make_shared<ClimateCourse>(place, std::vector<ClimateReading>{}, factors);
}

ClockPath path_of(Case& given) {
    ClockPath path;
    path.zero = zero;
    path.factor = lognormal(given["q10"]);
    path.air = published_priors(FlourClass::white).air;
    if (given.contains("moved"))
        path.air[static_cast<std::size_t>(Air::moved_silo)] = lognormal(given["moved"]);
    if (given.contains("head"))
        path.most_head_start = numbers(given["head"]).at(0);
    std::istringstream stays(given["path"]), airs(given["air"]);
    double days = 0, temperature = 0, from = zero;
    for (char at = 0; stays >> days >> at >> temperature;) {
        std::string air = "bag";
        airs >> air;
        path.path.push_back({climate(Celsius{temperature},
                                     air == "moved" ? Air::moved_silo : Air::breathable_bag, path.factor.q10),
                             from, from + days});
        from += days;
    }
    path.path.back().until = for_ever;
    return path;
}

Evidence evidence_of(Case& given) {
    Evidence evidence;
    for (const auto& test : maturing_tests()) {
        const std::string key(traits(test.property).key);
        if (given.contains(key))
            evidence.push_back({test.property, amplitude(given[key + " a"]),
                                numbers(given[key + " cv"]).at(0), observations(given[key])});
    }
    return evidence;
}

void agree(const std::string& what, const std::map<std::string, Sampled>& sampled, MeanAndSpread ours) {
    INFO(what);
    const auto& theirs = sampled.at(what);
    CHECK(ours.mean == Approx(theirs.mean).margin(3 * theirs.mean_error));
    CHECK(ours.sd == Approx(theirs.sd).epsilon(0.05));
}

MeanAndSpread maturity_on(const UncertainClock& clock, double day) {
    const auto moment = [&](int power) {
        return clock.mean_of([&](double theta) { return std::pow(-std::expm1(-theta), power); }, zero + day);
    };
    const double mean = moment(1);
    return {mean, std::sqrt(moment(2) - mean * mean)};
}

std::vector<published::Row> rows() {
    return published::read_row_file(MELLOWBIN_FIXTURES "/jags/cases.csv").rows;
}

} // namespace

TEST_CASE(
    "Posteriors of one lot agree with a sampler: means within three of its errors, spreads within 5 %") {
    int cases = 0;
    for (const auto& row : rows()) {
        auto given = row.inputs;
        if (!given.contains("path"))
            continue; // the hierarchy
        ++cases;
        INFO(row.id);
        const auto sampled = sampled_of(row.id);
        const auto evidence = evidence_of(given);
        const UncertainClock clock(lognormal(given["rate"]), path_of(given), evidence);
        agree("ln_k20", sampled, clock.log_rate());
        agree("M12", sampled, maturity_on(clock, 12));
        agree("M20", sampled, maturity_on(clock, 20));
        for (const auto& series : evidence)
            agree("a_" + std::string(traits(series.property).key), sampled,
                  clock.property(series, {}).amplitude);
    }
    CHECK(cases == 10);
}

TEST_CASE("What six lots teach together agrees with a sampler of the whole hierarchy") {
    // Ours straightens each lot's results, theirs draws from the model itself: means agree within a quarter
    // of a spread, spreads within a fifth.
    for (const auto& row : rows()) {
        auto given = row.inputs;
        if (given.contains("path"))
            continue;
        const double spread = std::log(2.0);
        const auto variance = [&](const char* key) {
            return std::pow(numbers(given[key]).at(0) / spread, 2);
        };
        const auto change = amplitude(given["a"]);
        const LearningShares shares{variance("plant sd"), variance("group sd"),
                                    0.64}; // 0.08 and 0.06 of 0.10
        CHECK(shares.change_plant * 0.01 == Approx(change.sd * change.sd));
        const auto flour = stored_flour();
        const Estimate estimate(flour);
        std::vector<TaughtBy> lots;
        for (int lot = 1; given.contains("lot" + std::to_string(lot)); ++lot) {
            Series series{Property::glutathione, change, numbers(given["cv"]).at(0),
                          observations(given["lot" + std::to_string(lot)])};
            for (auto& observation : series.observations)
                observation.at += days_of(milled) - zero;
            lots.push_back({LotId{lot}, {MillId{1}, FlourId{1}}, &estimate, {series}});
        }
        const Learned learned(learn(lots, shares), shares);
        const auto sampled = sampled_of(row.id);
        const auto near = [&](const char* what, double mean, double sd) {
            INFO(what);
            CHECK(mean == Approx(sampled.at(what).mean).margin(0.25 * sampled.at(what).sd));
            CHECK(sd == Approx(sampled.at(what).sd).epsilon(0.2));
        };
        const auto plant = learned.plant_rate(FlourClass::white);
        const auto group = learned.group_rate(FlourClass::white, {MillId{1}, FlourId{1}});
        near("ln_k20_plant", std::log(plant.median), std::log(plant.gsd));
        near("ln_k20_group", std::log(group.median), std::log(group.gsd));
        near("a_plant", learned.plant_change(Property::glutathione).mean,
             learned.plant_change(Property::glutathione).sd);
    }
}
