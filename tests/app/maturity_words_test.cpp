#include "aging/clocks.h"
#include "app/models/maturity_words.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::app;

namespace {

/// Of white flour as published: 0.082 a day.
const double rate = aging::published_priors(FlourClass::white).k20.median;

} // namespace

TEST_CASE("Maturity is told as a percentage and as days at 20 °C") {
    CHECK(maturity_words(Maturity{0.84}, rate) == "84 %, about 22 days at 20 °C");
    CHECK(maturity_words(Maturity{0.9}, rate) == "90 %, about 28 days at 20 °C");
    CHECK(maturity_words(Maturity{0.08}, rate) == "8 %, about 1 day at 20 °C");
    CHECK(maturity_words(Maturity{0.01}, rate) == "1 %, under a day at 20 °C");
}

TEST_CASE("Where no days can be said of a maturity, its percentage stands alone") {
    CHECK(maturity_words(Maturity{0}, rate) == "0 %");
    CHECK(maturity_words(Maturity{0.998}, rate) == "over 99 %");
    CHECK(maturity_words(Maturity{1}, rate) == "100 %");
    CHECK(maturity_words(Maturity{0.84}, 0) == "84 %");
}

TEST_CASE("What is missing is told in the days it takes, and only where something is") {
    CHECK(days_missing_words(Maturity{0.66}, Maturity{0.9}, rate) == "about 15 days at 20 °C");
    CHECK(days_missing_words(Maturity{0.9}, Maturity{0.9}, rate).empty());
    CHECK(days_missing_words(Maturity{0.5}, Maturity{1}, rate).empty());
}

TEST_CASE("A maturity that fails stands beside what is asked for, and never reads like it") {
    CHECK(of_words(Maturity{0.84}, Maturity{0.85}) == "84 of 85 %");
    CHECK(of_words(Maturity{0.846}, Maturity{0.85}) == "84.6 of 85.0 %");
    CHECK(maturity_range_words(Maturity{0.702}, Maturity{0.997}) == "70 to over 99 % in 80 of 100");
}
