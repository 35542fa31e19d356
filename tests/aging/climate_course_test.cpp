#include "aging/climate_course.h"
#include "aging/clocks.h"
#include "aging/flour.h"
#include "support/catch.h"

#include <cmath>

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

constexpr double q10 = 1.85;
const double log_q10 = std::log(q10);

/// One line of a log: hours after midnight of the milling day.
struct Logged {
    int hour;
    double temperature;
    std::optional<double> humidity;
};
std::vector<ClimateReading> log_of(const std::vector<Logged>& lines) {
    std::vector<ClimateReading> readings;
    for (const auto& line : lines) {
        readings.push_back({Instant{milled} + std::chrono::hours{line.hour}, Celsius{line.temperature}, {}});
        if (line.humidity)
            readings.back().humidity = RelativeHumidity{*line.humidity};
    }
    return readings;
}
/// Hourly readings of one temperature, from one hour on to another.
std::vector<Logged> hourly(int from, int until, double temperature, std::optional<double> humidity = {}) {
    std::vector<Logged> lines;
    for (int hour = from; hour <= until; ++hour)
        lines.push_back({hour, temperature, humidity});
    return lines;
}
std::vector<Logged> operator+(std::vector<Logged> a, const std::vector<Logged>& b) {
    a.insert(a.end(), b.begin(), b.end());
    return a;
}

Place place_at(double temperature, std::optional<double> humidity = {}) {
    Place place;
    place.temperature = Celsius{temperature};
    if (humidity)
        place.humidity = RelativeHumidity{*humidity};
    return place;
}

/// Hours after midnight of the milling day, as the course counts.
double at_hour(double hour) { return days_of(milled) + hour / 24; }

double hot(double temperature) { return speed_at(Celsius{temperature}, q10); }

/// Days at 20 C of a straight line within the clamp, from its antiderivative.
double line(double days, double a, double b) { return days * (hot(b) - hot(a)) / (log_q10 * (b - a) / 10); }

/// The middle node: the published median, 1.85.
double middle(const ClockRun& run, bool of_assumed = false) {
    return of_assumed ? run.assumed[1] : run.all[1];
}
double maturing(const ClimateCourse& course, double from_hour, double until_hour) {
    return middle(course.run(Clock::maturing, at_hour(from_hour), at_hour(until_hour)));
}

} // namespace

TEST_CASE("The middle of the clock's three Q10s is the published one") {
    const auto nodes = nodes_of(published_priors(FlourClass::white).q10);
    CHECK(nodes.count == 3);
    CHECK(std::exp(nodes.log_q10[nodes.middle()]) == Approx(q10));
}

TEST_CASE("Along a straight line of temperature the days at 20 C are the exact integral") {
    // By hand: (1.85 - 1/1.85)/(2 ln 1.85)
    CHECK(days_at_20(1, Celsius{10}, Celsius{30}, log_q10) == Approx(1.0642799).epsilon(1e-7));
    CHECK(days_at_20(1, Celsius{30}, Celsius{10}, log_q10) == Approx(1.0642799).epsilon(1e-7));
    CHECK(days_at_20(4, Celsius{30}, Celsius{30}, log_q10) == Approx(4 * 1.85).epsilon(1e-12));
    CHECK(days_at_20(2, Celsius{0}, Celsius{35}, log_q10) == Approx(line(2, 0, 35)).epsilon(1e-12));
    CHECK(days_at_20(0, Celsius{5}, Celsius{25}, log_q10) == 0);
}

TEST_CASE("A line that hardly rises loses no figures") {
    const double nearly = days_at_20(1, Celsius{25}, Celsius{25 + 1e-9}, log_q10);
    CHECK(nearly == Approx(hot(25)).epsilon(1e-10));
    CHECK(days_at_20(1, Celsius{25}, Celsius{25.001}, log_q10) == Approx(hot(25.0005)).epsilon(1e-9));
}

TEST_CASE("A line that crosses 35 C is cut where it crosses, from either side; in the frost none is") {
    const auto days = [](double span, double a, double b) {
        return days_at_20(span, Celsius{a}, Celsius{b}, log_q10);
    };
    const double warm = line(1, 30, 35) + 1 * hot(35);
    CHECK(days(2, 30, 40) == Approx(warm).epsilon(1e-12));
    CHECK(days(2, 40, 30) == Approx(warm).epsilon(1e-12));
    CHECK(days(55, -10, 45) == Approx(line(45, -10, 35) + 10 * hot(35)).epsilon(1e-12));
    CHECK(days(3, -20, -5) == Approx(line(3, -20, -5)).epsilon(1e-12));
    CHECK(days(3, 50, 36) == Approx(3 * hot(35)).epsilon(1e-12));
}

TEST_CASE(
    "Below 10 C maturing is summed by a steepness of its own, cut where the line crosses, from either side") {
    const double cold = std::log(2.5);
    const auto in_the_cold = [&](double days, double a, double b) { // from its antiderivative
        const auto speed = [&](double t) { return std::exp(cold * (t - 10) / 10); };
        return a == b ? days * speed(a) : days * 10 / (cold * (b - a)) * (speed(b) - speed(a));
    };
    CHECK(days_at_the_join(2, Celsius{10}, Celsius{-5}, cold) ==
          Approx(in_the_cold(2, 10, -5)).epsilon(1e-12));
    for (const auto& [first, second] : {std::pair{22.0, 4.0}, {4.0, 22.0}}) {
        const ClimateCourse course{place_at(15), log_of({{0, first, {}}, {6, second, {}}})};
        const auto run = course.run(Clock::maturing, at_hour(0), at_hour(6));
        CHECK(run.all[1] == Approx(line(0.25 * 12 / 18, 22, 10)).epsilon(1e-9)); // 12 of 18 K lie above
        CHECK(run.cold[2] == Approx(in_the_cold(0.25 * 6 / 18, 10, 4)).epsilon(1e-9));
        CHECK(run.cold_assumed[2] == 0);
        // The age clock has one steepness all the way.
        CHECK_FALSE(course.run(Clock::life, at_hour(0), at_hour(6)).is_cold());
    }
    const ClimateCourse cellar{place_at(4)};
    const auto run = cellar.run(Clock::maturing, at_hour(0), at_hour(48));
    CHECK(run.all[1] == 0);
    CHECK(run.cold_assumed[2] == Approx(2 * std::pow(2.5, -0.6)));
}

TEST_CASE("Between readings the temperature goes in a straight line, and the sum is exact at every moment") {
    const ClimateCourse course{place_at(15), log_of({{0, 10, {}}, {6, 22, {}}, {12, 16, {}}})};
    CHECK(course.temperature_at(at_hour(3)).value() == Approx(16));
    CHECK(course.temperature_at(at_hour(10)).value() == Approx(18));
    CHECK(maturing(course, 0, 6) == Approx(line(0.25, 10, 22)).epsilon(1e-9));
    CHECK(maturing(course, 0, 12) == Approx(line(0.25, 10, 22) + line(0.25, 22, 16)).epsilon(1e-9));
    CHECK(maturing(course, 2, 10) == Approx(line(4 / 24.0, 14, 22) + line(4 / 24.0, 22, 18)).epsilon(1e-9));
    const auto seen = course.temperature(at_hour(2), at_hour(10));
    CHECK(seen.low.value() == Approx(14));
    CHECK(seen.high.value() == Approx(22));
    CHECK(seen.mean.value() == Approx(19)); // 18 on the way up, 20 on the way down
}

TEST_CASE("The life clock has its own factors: 2 a 10 K for white flour, 2.5 for wholemeal") {
    const ClimateCourse course{place_at(30)};
    const auto run = [&](Clock clock) {
        const auto nodes = nodes_of(course.factor(clock).q10);
        return course.run(clock, at_hour(0), at_hour(24)).all[nodes.middle()];
    };
    CHECK(run(Clock::maturing) == Approx(1.85));
    CHECK(run(Clock::life) == Approx(2.0));
    CHECK(run(Clock::wholemeal_life) == Approx(2.5));
}

TEST_CASE("Before the first reading and after the last the place's own temperature holds") {
    const ClimateCourse course{place_at(12), log_of(hourly(0, 24, 25))};
    CHECK(maturing(course, -48, 0) == Approx(2 * hot(12)).epsilon(1e-9));
    CHECK(maturing(course, 24, 96) == Approx(3 * hot(12)).epsilon(1e-9));
    CHECK(maturing(course, -24, 48) == Approx(hot(12) + hot(25) + hot(12)).epsilon(1e-9));
    CHECK(course.temperature_at(at_hour(500)) == Celsius{12});
    CHECK(course.gaps().empty());
}

TEST_CASE("In a gap the place's own temperature holds, not a line between the readings beside it") {
    const ClimateCourse course{place_at(12), log_of(hourly(0, 24, 25) + hourly(72, 96, 25))};
    REQUIRE(course.gaps().size() == 1);
    CHECK(course.gaps()[0].from == Approx(at_hour(24)));
    CHECK(course.gaps()[0].until == Approx(at_hour(72)));
    CHECK(course.temperature_at(at_hour(48)) == Celsius{12});
    CHECK(maturing(course, 0, 96) == Approx(2 * hot(25) + 2 * hot(12)).epsilon(1e-9));
    const auto run = course.run(Clock::maturing, at_hour(0), at_hour(96));
    CHECK(middle(run, true) == Approx(2 * hot(12)).epsilon(1e-9));
}

TEST_CASE("Readings up to three usual steps apart, and up to six hours, still join") {
    CHECK(longest_joined(log_of(hourly(0, 24, 20))) == Approx(0.25));
    CHECK(longest_joined(log_of({{0, 20, {}}, {24, 20, {}}, {48, 20, {}}})) == Approx(3));
    CHECK(longest_joined({}) == Approx(0.25));
    const ClimateCourse six{place_at(12), log_of(hourly(0, 24, 25) + hourly(30, 54, 25))};
    CHECK(six.gaps().empty());
    const ClimateCourse seven{place_at(12), log_of(hourly(0, 24, 25) + hourly(31, 54, 25))};
    CHECK(seven.gaps().size() == 1);
}

TEST_CASE("The steps of a place's own climate hold in gaps, before the log and after it") {
    auto place = place_at(10);
    place.climate = {
        {milled - Days{2}, Celsius{14}}, {milled + Days{2}, Celsius{18}}, {milled + Days{6}, Celsius{22}}};
    const ClimateCourse course{place, log_of(hourly(0, 24, 25) + hourly(72, 96, 25))};
    CHECK(maturing(course, -72, 0) == Approx(hot(10) + 2 * hot(14)).epsilon(1e-9));
    CHECK(maturing(course, 24, 72) == Approx(hot(14) + hot(18)).epsilon(1e-9));
    CHECK(maturing(course, 96, 168) == Approx(2 * hot(18) + hot(22)).epsilon(1e-9));
    CHECK(course.temperature_at(at_hour(-60)) == Celsius{10});
    CHECK(course.temperature_at(at_hour(47.9)) == Celsius{14});
    CHECK(course.temperature_at(at_hour(48)) == Celsius{18});
    CHECK(course.temperature_at(at_hour(1000)) == Celsius{22});
}

TEST_CASE("A step of the place's climate on the day a gap begins holds from that moment on") {
    auto place = place_at(10);
    place.climate = {{milled + Days{1}, Celsius{18}}};
    const ClimateCourse course{place, log_of(hourly(0, 24, 25) + hourly(72, 96, 25))};
    CHECK(maturing(course, 24, 72) == Approx(2 * hot(18)).epsilon(1e-9));
}

TEST_CASE("Only what lies between joined readings is measured") {
    const ClimateCourse course{place_at(12), log_of(hourly(0, 24, 25) + hourly(72, 96, 25))};
    const auto measured = [&](double from, double until) {
        return course.measured_days(at_hour(from), at_hour(until));
    };
    CHECK(measured(0, 96) == Approx(2));
    CHECK(measured(-100, 12) == Approx(0.5));
    CHECK(measured(24, 72) == Approx(0).margin(1e-9));
    CHECK(measured(12, 84) == Approx(1));
    CHECK(measured(-1000, 1000) == Approx(2));
    CHECK(ClimateCourse{place_at(12)}.measured_days(at_hour(0), at_hour(1000)) == 0);
}

TEST_CASE("A log of one reading measures nothing, and two readings measure what is between them") {
    const ClimateCourse one{place_at(12), log_of({{0, 25, {}}})};
    CHECK(one.measured_days(at_hour(-50), at_hour(50)) == 0);
    CHECK(maturing(one, -24, 24) == Approx(2 * hot(12)).epsilon(1e-9));
    const ClimateCourse two{place_at(12), log_of({{0, 25, {}}, {2, 25, {}}})};
    CHECK(two.measured_days(at_hour(-50), at_hour(50)) == Approx(2 / 24.0));
}

TEST_CASE("The air's humidity is the logger's where it measured one, else the place's, else not known") {
    const auto lines = hourly(0, 24, 20, 0.6) + hourly(72, 96, 20);
    const ClimateCourse known{place_at(20, 0.5), log_of(lines)};
    CHECK(known.humidity_at(at_hour(12))->value() == Approx(0.6));
    CHECK(known.humidity_at(at_hour(48))->value() == Approx(0.5));
    CHECK(known.humidity_at(at_hour(80))->value() == Approx(0.5));
    const ClimateCourse unknown{place_at(20), log_of(lines)};
    CHECK(unknown.humidity_at(at_hour(12))->value() == Approx(0.6));
    CHECK_FALSE(unknown.humidity_at(at_hour(48)));
    CHECK_FALSE(unknown.humidity_at(at_hour(80)));
}

TEST_CASE("Moisture in a bag at 20 C and 55 % drifts from 14.5 % to 13.8592 % in 14 days") {
    // Worked apart from this program: towards 12.782 %, time constant 30 d.
    const ClimateCourse course{place_at(20, 0.55)};
    const auto after = course.moisture(Moisture{14.5}, at_hour(0), at_hour(14 * 24));
    REQUIRE(after);
    CHECK(after->value() == Approx(13.8592).margin(0.0005));
    CHECK(course.moisture(Moisture{14.5}, at_hour(0), at_hour(0)) == Moisture{14.5});
}

TEST_CASE("Moisture follows each hour's air, as drift from hour to hour does") {
    std::vector<Logged> lines;
    for (int hour = 0; hour <= 240; ++hour)
        lines.push_back({hour, 20 + 5 * std::sin(hour * 0.2), 0.65 + 0.08 * std::cos(hour * 0.13)});
    const ClimateCourse course{place_at(20, 0.6), log_of(lines)};
    double plain = 13;
    for (int hour = 0; hour < 240; ++hour) {
        const auto at = static_cast<std::size_t>(hour);
        const double rh = (*lines[at].humidity + *lines[at + 1].humidity) / 2;
        const double t = (lines[at].temperature + lines[at + 1].temperature) / 2;
        const auto target = equilibrium_moisture(RelativeHumidity{rh}, Celsius{t}).moisture;
        plain = drifted(Moisture{plain}, target, 1 / 24.0, 30).value();
    }
    CHECK(course.moisture(Moisture{13}, at_hour(0), at_hour(240))->value() == Approx(plain).epsilon(1e-9));
    // On the way, too: in two leaps as in one.
    const auto half = course.moisture(Moisture{13}, at_hour(0), at_hour(100.5));
    CHECK(course.moisture(*half, at_hour(100.5), at_hour(240))->value() == Approx(plain).epsilon(1e-9));
}

TEST_CASE("Moisture is not known once the air's humidity was not known for some of the time") {
    const ClimateCourse course{place_at(20), log_of(hourly(0, 48, 20, 0.6) + hourly(96, 120, 20, 0.6))};
    const auto knows = [&](double from, double until) {
        return course.moisture(Moisture{14}, at_hour(from), at_hour(until)).has_value();
    };
    CHECK(knows(0, 48));
    CHECK(knows(96, 120));
    CHECK_FALSE(knows(0, 49));
    CHECK_FALSE(knows(0, 120));
    CHECK_FALSE(knows(-5, 20));
    CHECK_FALSE(knows(110, 130));
}

TEST_CASE("In a sealed liner moisture drifts ten times slower than in a bag") {
    auto place = place_at(20, 0.55);
    place.air = Air::sealed_liner;
    const ClimateCourse liner{place};
    const auto after = liner.moisture(Moisture{14.5}, at_hour(0), at_hour(140 * 24));
    CHECK(after->value() == Approx(13.8592).margin(0.0005));
}

TEST_CASE("Flour follows the air's temperature with a lag of two days") {
    const ClimateCourse course{place_at(20)};
    const auto after = [&](double hours) {
        return course.flour_temperature(Celsius{5}, at_hour(0), at_hour(hours)).value();
    };
    CHECK(after(0) == 5);
    CHECK(after(48) == Approx(20 - 15 * std::exp(-1)));
    CHECK(after(24 * 60) == Approx(20));
}
