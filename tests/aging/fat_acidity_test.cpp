#include "aging/fat_acidity.h"
#include "aging/flour.h"
#include "support/aging_formulas.h"
#include "support/catch.h"

#include <cmath>

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

FatAcidityTest test_on(int on, double value) { return {FatAcidity{value}, day(on)}; }

/// Days after the milling on which the limit of 80 is likely reached.
int likely(const FatAcidityLine& line) {
    REQUIRE(line.limit_on.likely);
    return static_cast<int>((*line.limit_on.likely - milled).count());
}
/// Between the early and the late day; a late day beyond the studied time is two years.
int width(const FatAcidityLine& line) {
    REQUIRE(line.limit_on.early);
    return static_cast<int>((line.limit_on.late.value_or(day(730)) - *line.limit_on.early).count());
}

const Estimate wholemeal{stored_flour(FlourClass::wholemeal)};

} // namespace

TEST_CASE("10.7 umol of fatty acids in a gram of flour are 60.03 mg KOH/100 g") {
    // Rose & Weier 2016, whole-wheat flour after 6 months at 22 C; 56.1 g/mol
    CHECK(to_fat_acidity(FattyAcids{10.7}).value() == Approx(60.03).margin(0.02));
}

TEST_CASE("From 20 at 0.60 a day the limit of 80 comes after 100 days") {
    CHECK(*days_until(fat_acidity_limit(), FatAcidity{20}, FatAcidity{0.60}) == Approx(100).margin(0.1));
}

TEST_CASE("Determinations that tell the rise well give the date of the limit: (limit - A)/r days on") {
    // Errors of 5 % leave the class's belief a pull of a percent or so; a day or two here.
    const FatAcidityTest tests[] = {test_on(0, 20), test_on(50, 50), test_on(80, 68)};
    const auto line = fat_acidity_line(wholemeal, tests, day(80));
    CHECK(line.determinations == 3);
    CHECK(line.rise.value() == Approx(0.60).epsilon(0.02));
    CHECK(line.now.value() == Approx(68).epsilon(0.02));
    CHECK(likely(line) == Approx(100).margin(3));
}

TEST_CASE("A rise a little steeper makes the date a little earlier: the answer moves without jumps") {
    int before = 1000;
    for (double rise = 0.50; rise < 0.70; rise += 0.02) {
        const FatAcidityTest tests[] = {test_on(0, 20), test_on(50, 20 + 50 * rise),
                                        test_on(80, 20 + 80 * rise)};
        const int limit = likely(fat_acidity_line(wholemeal, tests, day(80)));
        INFO("rise " << rise << ": " << limit);
        CHECK(limit < before);
        CHECK(limit == Approx(60 / rise).epsilon(0.03));
        before = limit;
    }
}

TEST_CASE("The more determinations, the narrower the days of the limit, and never no width at all") {
    std::vector<FatAcidityTest> tests;
    const auto width_now = [&] { return width(fat_acidity_line(wholemeal, tests, day(120))); };
    const int none = width_now();
    tests = {test_on(0, 25), test_on(40, 41)};
    const int two = width_now();
    tests.push_back(test_on(80, 57));
    const int three = width_now();
    tests.push_back(test_on(115, 71));
    const int four = width_now();
    CHECK(none > two);
    CHECK(two > three);
    CHECK(three >= four);
    CHECK(four > 0);
}

TEST_CASE("One determination moves the line and leaves the rise as wide as it was") {
    const FatAcidityTest tests[] = {test_on(10, 35)};
    const auto line = fat_acidity_line(wholemeal, tests, day(10));
    CHECK(line.determinations == 1);
    CHECK(line.now.value() == Approx(35).epsilon(0.02));
    CHECK(line.rise.value() == Approx(fat_acidity_line(wholemeal, {}, day(10)).rise.value()).epsilon(0.02));
}

TEST_CASE("The published rise of stored wholemeal lies within what is believed with no determination") {
    // Rose & Weier 2016: 4.58 and 10.7 umol/g, a frozen control and 6 months at 22 C: 0.188 a day at that
    // warmth
    const auto control = to_fat_acidity(FattyAcids{4.58}), stored = to_fat_acidity(FattyAcids{10.7});
    auto flour = stored_at(Celsius{22});
    flour.flour_class = FlourClass::wholemeal;
    const Estimate estimate{flour};
    const FatAcidityTest tests[] = {{control, day(0)}, {stored, day(182)}};
    const auto measured = fat_acidity_line(estimate, tests, day(182));
    const double warmer = std::pow(2.5, 0.2); // the age clock's factor for wholemeal
    CHECK(measured.rise.value() == Approx(0.188 / warmer).epsilon(0.03));
    const auto believed = fat_acidity_line(estimate, {}, day(0));
    CHECK(believed.limit_on.early <= measured.limit_on.likely);
    CHECK(believed.limit_on.late.value_or(day(730)) >= measured.limit_on.likely);
}

TEST_CASE("A determination after the day asked about does not count") {
    const FatAcidityTest tests[] = {test_on(0, 20), test_on(50, 50), test_on(80, 90)};
    const auto then_known = fat_acidity_line(wholemeal, tests, day(60));
    const auto only_two = fat_acidity_line(wholemeal, {tests, 2}, day(60));
    CHECK(then_known.determinations == 2);
    CHECK(then_known.limit_on.likely == only_two.limit_on.likely);
    CHECK(then_known.now == only_two.now);
}

TEST_CASE("Warm flour reaches the limit sooner, and wholemeal much sooner than white") {
    auto warm = stored_at(Celsius{28});
    warm.flour_class = FlourClass::wholemeal;
    CHECK(likely(fat_acidity_line(Estimate{warm}, {}, day(0))) <
          likely(fat_acidity_line(wholemeal, {}, day(0))));
    const auto white = fat_acidity_line(Estimate{stored_flour()}, {}, day(0));
    CHECK(white.limit_on.likely.value_or(day(730)) >
          *fat_acidity_line(wholemeal, {}, day(0)).limit_on.likely);
}

TEST_CASE("The age clock's speed, not the days, carries fat acidity: cold months count for little") {
    auto cold = stored_flour(FlourClass::wholemeal);
    cold.path = then(stay_from(milled, climate_at(Celsius{5})), day(100), climate_at(Celsius{20}));
    const auto line = fat_acidity_line(Estimate{cold}, {}, day(100));
    const double rise = line.rise.value() * 100 * std::pow(2.5, -1.5);
    CHECK(line.now.value() == Approx(25.7 + rise).margin(0.1));
}

TEST_CASE(
    "Readings by two methods are never mixed: the newest one's count, from the lot's own first one on") {
    const auto by = [](int on, double value, const char* method) {
        return FatAcidityTest{FatAcidity{value}, day(on), method};
    };
    // By ISO 7305 fresh flours often stand above 50 mg KOH/100 g of dry matter (Szafranska 2015): another
    // level.
    const FatAcidityTest mixed[] = {by(0, 55, "ISO 7305"), by(5, 21, "extraction"), by(30, 33, "Extraction"),
                                    by(20, 62, "iso-7305")};
    const FatAcidityTest alone[] = {mixed[1], mixed[2]};
    const auto line = fat_acidity_line(wholemeal, mixed, day(40));
    CHECK(line.determinations == 2);
    CHECK(line.set_aside == 2);
    CHECK(line.method == "Extraction");
    REQUIRE(line.first);
    CHECK(line.first->value() == 21);
    const auto same = fat_acidity_line(wholemeal, alone, day(40));
    CHECK(line.now == same.now);
    CHECK(line.limit_on.likely == same.limit_on.likely);
    CHECK(same.set_aside == 0);
}

TEST_CASE(
    "The mill's figure without a method is set aside once the plant has measured, and stands until then") {
    FatAcidityTest mill{FatAcidity{40}, day(0), "", true};
    CHECK(fat_acidity_line(wholemeal, {&mill, 1}, day(5)).first == FatAcidity{40});
    const FatAcidityTest both[] = {mill, test_on(5, 22)};
    const auto line = fat_acidity_line(wholemeal, both, day(5));
    CHECK(line.set_aside == 1);
    CHECK(line.first == FatAcidity{22});
}

TEST_CASE("With no determination the class's usual fresh value stands in, and none is called the lot's own") {
    const auto line = fat_acidity_line(wholemeal, {}, day(0));
    CHECK_FALSE(line.first);
    CHECK(line.now.value() == Approx(25.7));
}
