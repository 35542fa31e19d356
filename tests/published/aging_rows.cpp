#include "aging/clocks.h"
#include "aging/estimate.h"
#include "aging/flour_keeping.h"
#include "aging/flour_moisture.h"
#include "aging/outlook.h"
#include "aging/storage_watch.h"
#include "aging/uncertain_clock.h"
#include "published/published.h"
#include "support/aging_formulas.h"

#include <cmath>
#include <sstream>
#include <stdexcept>
#include <vector>

namespace mellowbin::published {
namespace {

using namespace aging;

Celsius celsius(const Row& row, const std::string& key) { return Celsius{row.number(key)}; }

Rates rates_of(const Row& row) {
    auto rates = medians_of(published_priors(FlourClass::white));
    rates.k20 = row.number("k20");
    rates.q10 = row.number("q10");
    return rates;
}

/// "3@12 10@20": days at degrees.
std::vector<Piece> profile_of(const Row& row) {
    std::istringstream words{row.text("profile")};
    std::vector<Piece> pieces;
    char at = 0;
    double temperature = 0;
    for (Piece piece; words >> piece.days >> at >> temperature;) {
        piece.temperature = Celsius{temperature};
        pieces.push_back(piece);
    }
    return pieces;
}

/// The rate at which this share of the change is gone through within these days.
double rate_of(double share, double days) { return theta_for(Maturity{share}) / days; }

/// A property on its way from one value to another, at 20 C.
double course(double start, double end, double rate, double days) {
    auto rates = medians_of(published_priors(FlourClass::white));
    rates.k20 = rate;
    const Piece piece{days, Celsius{20}, Air::breathable_bag};
    return start + (end - start) * maturity(theta({&piece, 1}, rates)).value();
}

Answer kinetics(const Row& row) {
    const auto& what = row.text("what");
    if (what == "rate from share")
        return rate_of(row.number("share"), row.number("days"));
    if (what == "course")
        return course(row.number("start"), row.number("end"), row.number("k20"), row.number("days"));
    const auto rates = rates_of(row);
    if (what == "rate")
        return rates.k20 * speed_at(celsius(row, "temperature"), rates.q10);
    if (what == "days to 0.9")
        return days_to(Maturity{0.9}, celsius(row, "temperature"), Air::breathable_bag, rates);
    const double sum = theta(profile_of(row), rates);
    if (what == "theta")
        return sum;
    if (what == "maturity")
        return maturity(sum).value();
    if (what == "equivalent days")
        return equivalent_days(sum, rates);
    throw std::runtime_error(row.id + ": not known: " + what);
}

Answer temperature(const Row& row) {
    const auto& what = row.text("what");
    if (what == "q10")
        return q10_from_activation_energy(row.number("energy"), celsius(row, "from"), celsius(row, "to"));
    if (what == "energy")
        return activation_energy(row.number("rate1"), celsius(row, "at1"), row.number("rate2"),
                                 celsius(row, "at2"));
    if (what == "energy from retention")
        return activation_energy(-std::log(row.number("left1")), celsius(row, "at1"),
                                 -std::log(row.number("left2")), celsius(row, "at2"));
    throw std::runtime_error(row.id + ": not known: " + what);
}

Answer third_temperature(const Row& row) {
    const double energy =
        activation_energy(row.number("rate1"), celsius(row, "at1"), row.number("rate2"), celsius(row, "at2"));
    return arrhenius(row.number("rate1"), celsius(row, "at1"), celsius(row, "at3"), energy);
}

/// First-order loss at one temperature, carried to another by the model's own factor.
Answer retention(const Row& row) {
    const double q10 = published_priors(FlourClass::white).q10.median;
    const double faster = speed_at(celsius(row, "to"), q10) / speed_at(celsius(row, "at"), q10);
    return std::pow(row.number("left"), faster);
}

Answer glutathione(const Row& row) {
    return course(row.number("start"), row.number("end"), rate_of(row.number("share"), row.number("within")),
                  row.number("day"));
}

Answer damp_life(const Row& row) {
    const auto rates = medians_of(published_priors(FlourClass::white));
    return life_at(celsius(row, "temperature"), rates) *
           life_share_at(Moisture{row.number("moisture")}, rates);
}

/// One place at one temperature, in bags, from the calendar's day 0 on.
StoragePath in_bags_at(Celsius temperature) {
    Place place;
    place.temperature = temperature;
    return {{std::make_shared<ClimateCourse>(place), days_of(Day{})}};
}

/// Milled, delivered and put into bags on the calendar's day 0, at a temperature taken as known.
Estimate stored(const Row& row) {
    const auto flour_class = flour_class_from_key(row.text("flour")).value();
    return Estimate{
        {flour_class, Day{}, Day{}, in_bags_at(celsius(row, "temperature")), Moisture{13}, CelsiusStep{0}}};
}

Answer prior_probability(const Row& row) {
    return stored(row).probability_of(Maturity{0.9}, Day{Days{static_cast<int>(row.number("day"))}});
}

Answer past_best(const Row& row) {
    const auto from = turns(stored(row), row.number("confidence")).past_best_from;
    return static_cast<double>(from.value().time_since_epoch().count());
}

Answer equilibrium(const Row& row) {
    const RelativeHumidity humidity{row.number("humidity")};
    const auto t = celsius(row, "temperature");
    const auto& law = row.text("law");
    if (law == "soft" || law == "hard")
        return modified_henderson(law == "soft" ? Wheat::soft : Wheat::hard, humidity, t).value();
    if (law == "chung-pfost")
        return chung_pfost(humidity, t).value();
    if (law == "flour")
        return flour_law(humidity, t).value();
    if (law == "best")
        return equilibrium_moisture(humidity, t).moisture.value();
    throw std::runtime_error(row.id + ": not known: " + law);
}

/// "glutathione=1:140 8:105;glutathione a=-0.43 0.10;glutathione cv=0.05": results by day, mean and sd of the
/// amplitude, error of a test. Every property is taken as if it followed the dough, by the row's own priors:
/// what is checked is the arithmetic, not which property is evidence of what.
Evidence results_of(const Row& row) {
    Evidence evidence;
    for (const auto& test : maturing_tests()) {
        const std::string key{traits(test.property).key};
        if (!row.has(key))
            continue;
        Series series{test.property, {}, row.number(key + " cv"), {}};
        std::istringstream(row.text(key + " a")) >> series.amplitude.mean >> series.amplitude.sd;
        std::istringstream words{row.text(key)};
        double day = 0, value = 0;
        for (char at = 0; words >> day >> at >> value;)
            series.observations.push_back({value, day, false, {}});
        evidence.push_back(series);
    }
    return evidence;
}

/// White flour at 20 C, its rate updated by results.
Answer retest(const Row& row) {
    const auto priors = published_priors(FlourClass::white);
    ClockPath path;
    path.factor = priors.maturing_factor();
    path.air = priors.air;
    path.path = in_bags_at(Celsius{20});
    Lognormal rate;
    std::istringstream(row.text("rate")) >> rate.median >> rate.gsd;
    const UncertainClock clock{rate, path, results_of(row)};
    const auto& what = row.text("what");
    if (what == "mean ln k20")
        return clock.log_rate().mean;
    if (what == "sd ln k20")
        return clock.log_rate().sd;
    const double day = row.number("day");
    const double mean = clock.mean_of([](double theta) { return maturity(theta).value(); }, day);
    if (what == "mean M")
        return mean;
    if (what == "sd M")
        return std::sqrt(
            clock.mean_of([&](double theta) { return std::pow(maturity(theta).value() - mean, 2); }, day));
    throw std::runtime_error(row.id + ": not known: " + what);
}

Answer dew(const Row& row) {
    return dew_point(celsius(row, "temperature"), RelativeHumidity{row.number("humidity")}).value();
}

Answer keeping(const Row& row) {
    const auto& what = row.text("what");
    if (what == "drift")
        return drifted(Moisture{row.number("start")}, Moisture{row.number("equilibrium")}, row.number("days"),
                       row.number("time constant"))
            .value();
    if (what == "fat acidity")
        return to_fat_acidity(FattyAcids{row.number("fatty acids")}).value();
    if (what == "days to limit")
        return days_until(fat_acidity_limit(), FatAcidity{row.number("now")}, FatAcidity{row.number("rise")})
            .value();
    throw std::runtime_error(row.id + ": not known: " + what);
}

const Registered kinetics_rows{"aging kinetics", kinetics};
const Registered temperature_rows{"aging temperature", temperature};
const Registered third_temperature_rows{"aging rate at a third temperature", third_temperature};
const Registered retention_rows{"aging retention by the model's temperature factor", retention};
const Registered glutathione_rows{"aging glutathione course", glutathione};
const Registered damp_life_rows{"aging life of damp white flour", damp_life};
const Registered prior_rows{"aging prior probability", prior_probability};
const Registered past_best_rows{"aging past best", past_best};
const Registered equilibrium_rows{"aging equilibrium moisture", equilibrium};
const Registered retest_rows{"aging retest", retest};
const Registered dew_rows{"aging dew point", dew};
const Registered keeping_rows{"aging flour keeping", keeping};

} // namespace
} // namespace mellowbin::published
