#include "cgc_bakes.h"
#include "core/literature/constants.h"
#include "dough/water_belief.h"
#include "support/catch.h"
#include "support/iso.h"
#include "water_spreads.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

// Flours of Canadian wheat, as the Canadian Grain Commission's quality reports print them (harvest 2013 and
// 2014, exports 2014 to 2021): farinograph absorption, absorption of the baked dough, protein, damaged
// starch. Rows 4 and 8 are means of ten years and no flours.

using namespace mellowbin;
using namespace mellowbin::dough;
using mellowbin::testing::cgc_bakes;
using mellowbin::testing::CgcBake;
using mellowbin::testing::Regression;
using mellowbin::testing::regression;

namespace {

constexpr double eighty_percent = 1.2815515655446004; // standard deviations to either side

using Choice = std::function<bool(const CgcBake&)>;
using Columns = std::function<std::vector<double>(const CgcBake&)>;

std::vector<double> protein_and_damage(const CgcBake& bake) { return {bake.protein, bake.starch_damage}; }
std::vector<double> gluten_and_damage(const CgcBake& bake) { return {bake.wet_gluten, bake.starch_damage}; }

std::vector<CgcBake> chosen(const std::vector<CgcBake>& all, const Choice& choice) {
    std::vector<CgcBake> some;
    for (const auto& bake : all)
        if (choice(bake))
            some.push_back(bake);
    return some;
}

Regression of_farinograph(const std::vector<CgcBake>& flours, const Columns& columns) {
    std::vector<std::vector<double>> rows;
    std::vector<double> answers;
    for (const auto& flour : flours) {
        rows.push_back(columns(flour));
        answers.push_back(flour.farinograph);
    }
    return regression(rows, answers);
}

/// Bake absorption from composition alone.
Regression of_bake(const std::vector<CgcBake>& flours) {
    std::vector<std::vector<double>> rows;
    std::vector<double> answers;
    for (const auto& flour : flours) {
        rows.push_back(protein_and_damage(flour));
        answers.push_back(flour.bake);
    }
    return regression(rows, answers);
}

std::size_t process_of(const CgcBake& bake) {
    return bake.process == "A" ? 0 : bake.process == "B60" ? 1 : 2;
}

SeasonedOffsets learned_from(const std::vector<CgcBake>& flours) {
    std::vector<OffsetSeen> seen;
    for (const auto& flour : flours)
        seen.push_back({process_of(flour), flour.crop, AbsorptionPoints{flour.offset()}, 0});
    return SeasonedOffsets(seen);
}

double mean_offset(const std::vector<CgcBake>& flours) {
    double sum = 0;
    for (const auto& flour : flours)
        sum += flour.offset();
    return sum / static_cast<double>(flours.size());
}

struct Contest {
    double learned = 0, constant = 0, composition = 0; ///< root mean square of the errors, points
    double inside = 0;                                 ///< share of bakes in the learned interval of 80 %
    std::size_t bakes = 0;
};

double squared(double x) { return x * x; }

/// Each season foretold from all the others, in the three ways.
Contest contest(const std::vector<CgcBake>& flours,
                const std::function<std::string(const CgcBake&)>& season_of_bake) {
    std::set<std::string> seasons;
    for (const auto& flour : flours)
        seasons.insert(season_of_bake(flour));
    Contest result;
    for (const auto& season : seasons) {
        const auto others = chosen(flours, [&](const CgcBake& b) { return season_of_bake(b) != season; });
        const auto learned = learned_from(others);
        const auto composition = of_bake(others);
        for (const auto& bake :
             chosen(flours, [&](const CgcBake& b) { return season_of_bake(b) == season; })) {
            const auto forecast = learned.in_a_new_season(process_of(bake));
            const double off = bake.offset() - forecast.offset.value();
            result.learned += squared(off);
            result.inside += std::abs(off) <= eighty_percent * forecast.sd ? 1 : 0;
            result.constant += squared(bake.offset() - mean_offset(others));
            result.composition += squared(bake.bake - composition.at(protein_and_damage(bake)));
            ++result.bakes;
        }
    }
    const auto n = static_cast<double>(result.bakes);
    return {std::sqrt(result.learned / n), std::sqrt(result.constant / n), std::sqrt(result.composition / n),
            result.inside / n, result.bakes};
}

void check(const std::string& left_out, const Contest& result) {
    WARN("bake absorption, each " << left_out << " left out, root mean square error in points: learned "
                                  << result.learned << ", one constant offset " << result.constant
                                  << ", composition only " << result.composition << "; "
                                  << 100 * result.inside << " % inside the 80 % interval");
    CHECK(result.bakes == 54);
    CHECK(result.learned < result.constant);
    CHECK(result.learned < result.composition);
    CHECK(result.inside >= 0.74);
    CHECK(result.inside <= 0.86);
}

} // namespace

TEST_CASE(
    "A crop that was left out is foretold better by learned offsets than by one offset or composition") {
    const auto all = cgc_bakes();
    if (!all)
        return;
    const auto flours = chosen(*all, [](const CgcBake& b) { return !b.is_mean_of_years(); });
    check("crop", contest(flours, [](const CgcBake& b) { return std::to_string(b.crop); }));
}

TEST_CASE("So is a period of the reports that was left out") {
    const auto all = cgc_bakes();
    if (!all)
        return;
    const auto flours = chosen(*all, [](const CgcBake& b) { return !b.is_mean_of_years(); });
    check("period", contest(flours, [](const CgcBake& b) { return b.period; }));
}

TEST_CASE("Batch by batch, the belief in the dough's water beats the mean of all that was seen before") {
    const auto all = cgc_bakes();
    if (!all)
        return;
    auto flours = chosen(*all, [](const CgcBake& b) { return !b.is_mean_of_years(); });
    std::stable_sort(flours.begin(), flours.end(),
                     [](const CgcBake& a, const CgcBake& b) { return a.crop < b.crop; });
    WaterBelief belief;
    double learned = 0, constant = 0, sum = 0;
    int seen = 0;
    for (const auto& flour : flours) {
        const ProductId product{static_cast<std::int64_t>(process_of(flour)) + 1};
        const std::vector<LotShare> lot{{LotId{flour.id}, 1}};
        const auto day = day_from_iso(std::to_string(flour.crop) + "-11-01");
        const auto told = belief.predict(product, LineId{1}, lot, day);
        if (seen > 0) {
            learned += squared(flour.offset() - told.offset.value() - told.deviation.value());
            constant += squared(flour.offset() - sum / seen);
        }
        belief.observe({product, LineId{1}, day, lot, Absorption14{flour.farinograph},
                        Absorption14{flour.bake}, Feel::right});
        sum += flour.offset();
        ++seen;
    }
    INFO("learned " << std::sqrt(learned / (seen - 1)) << ", mean so far "
                    << std::sqrt(constant / (seen - 1)));
    CHECK(learned < constant);
}

TEST_CASE("Regressions of farinograph absorption on composition come out as the reference library says") {
    const auto all = cgc_bakes();
    if (!all)
        return;
    struct Set {
        const char* name;
        Choice choice;
        Columns columns;
        std::size_t flours;
        std::vector<double> coefficients;
        double r_squared, residual_sd;
        double last_digit;
    };
    const std::set<int> one_season{19, 20, 22, 24, 25, 27, 28, 30, 31, 33, 34};
    const std::vector<Set> sets{
        {"one season, one mill",
         [&](const CgcBake& b) { return one_season.contains(b.id); },
         protein_and_damage,
         11,
         {39.60007, 1.15145, 1.24653},
         0.97171,
         0.26539,
         0.00001},
        {"mill B, straight grade",
         [](const CgcBake& b) { return b.process == "B74"; },
         protein_and_damage,
         39,
         {42.89885, 1.15465, 0.87439},
         0.49261,
         0.98558,
         0.00001},
        {"both mills",
         [](const CgcBake&) { return true; },
         protein_and_damage,
         56,
         {40.55157, 0.72212, 1.95015},
         0.62348,
         1.28210,
         0.00001},
        {"mill B, wet gluten",
         [](const CgcBake& b) { return b.process != "A"; },
         gluten_and_damage,
         46,
         {41.415, 0.480, 0.803},
         0.624,
         0.835,
         0.001},
    };
    for (const auto& set : sets) {
        INFO(set.name);
        const auto flours = chosen(*all, set.choice);
        REQUIRE(flours.size() == set.flours);
        const auto fit = of_farinograph(flours, set.columns);
        for (std::size_t i = 0; i < 3; ++i)
            CHECK(fit.coefficients[i] == Approx(set.coefficients[i]).margin(0.51 * set.last_digit));
        CHECK(fit.r_squared == Approx(set.r_squared).margin(0.51 * set.last_digit));
        CHECK(fit.residual_sd == Approx(set.residual_sd).margin(0.51 * set.last_digit));
    }
}

TEST_CASE("The program's slopes are those of one season, and tell the flour of row 22 as they do") {
    const auto all = cgc_bakes();
    if (!all)
        return;
    const std::set<int> one_season{19, 20, 22, 24, 25, 27, 28, 30, 31, 33, 34};
    const auto fit = of_farinograph(chosen(*all, [&](const CgcBake& b) { return one_season.contains(b.id); }),
                                    protein_and_damage);
    CHECK(literature::dough_water_protein_slope.value == Approx(fit.coefficients[1]).margin(0.005));
    CHECK(literature::dough_water_damage_slope.value == Approx(fit.coefficients[2]).margin(0.005));
    CHECK(fit.at({12.1, 8.0}) == Approx(63.505).margin(0.0006));
    const auto row_22 = chosen(*all, [](const CgcBake& b) { return b.id == 22; }).front();
    CHECK(row_22.farinograph == Approx(63.9));
}

TEST_CASE(
    "In crops that no slope was taken from, composition tells a flour better than the lot before does") {
    const auto all = cgc_bakes();
    if (!all)
        return;
    const auto certificate = [](const CgcBake& bake, bool with_absorption) {
        Certificate made;
        const auto at_14 = Basis::at(Moisture{14});
        made.set({Property::protein, bake.protein, at_14, "", wheat_nitrogen_factor});
        made.set({Property::starch_damage, bake.starch_damage, at_14, "76-31", wheat_nitrogen_factor});
        if (with_absorption)
            made.set({Property::absorption, bake.farinograph, at_14, "", wheat_nitrogen_factor});
        return made;
    };
    // straight-grade flour of one mill; each told from every other of its crop
    const auto flours = chosen(*all, [](const CgcBake& b) { return b.process == "B74" && b.crop != 2014; });
    double told = 0, unchanged = 0;
    int pairs = 0;
    for (const auto& last : flours)
        for (const auto& flour : flours) {
            if (last.crop != flour.crop || last.id == flour.id)
                continue;
            const auto known = certificate(last, true);
            const auto start = absorption_start(certificate(flour, false), &known, "the last");
            REQUIRE(start);
            told += squared(start->absorption.value() - flour.farinograph);
            unchanged += squared(last.farinograph - flour.farinograph);
            ++pairs;
        }
    INFO("told " << std::sqrt(told / pairs) << ", unchanged " << std::sqrt(unchanged / pairs));
    CHECK(pairs > 50);
    CHECK(told < unchanged);
}
