#pragma once

#include "app/plan/problem.h"

#include <array>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

/// The parts that plan_problem() is put together from.
namespace mellowbin::app {

/// Properties that blend linearly and that products have windows for; falling number by its liquefaction
/// number. Strength values do not blend: they are never planned on.
inline constexpr std::array planned_properties{Property::protein,        Property::absorption,
                                               Property::falling_number, Property::ash,
                                               Property::wet_gluten,     Property::starch_damage};

inline double day_of(Day day, PlanSpan span) { return static_cast<double>((day - span.from).count()); }
inline double tonnes(Grams g) { return static_cast<double>(g.count()) * 1e-6; }
double liquefaction(double falling_number);
/// mg/kg of the substance that do what one mg/kg of ascorbic acid does, for a flour of usual protein.
double ppm_per_counted(Substance substance);

/// What has to leave a silo before a lot in it can.
struct Buried {
    std::string silo;
    std::vector<Layer> below;
};

/// Flour a plan may draw on: a lot, or a delivery to come as the lot it is expected to be.
struct PlanFlour {
    Lot lot;             ///< of a delivery: what is expected of it; it has no number
    ExpectedId delivery; ///< known of a delivery
    std::shared_ptr<const aging::Estimate> estimate;
    std::optional<Day> past_best;
    std::optional<Day> usable_from; ///< of a delivery: has arrived and been judged by then
    std::vector<Buried> buried;     ///< one for each place it lies in; empty where some can be drawn now
};

/// A delivery that should have come and has not: the plan takes it for tomorrow's.
bool is_late(const ExpectedDelivery& delivery, Day today);
/// The day a delivery can be used from: its arrival, or tomorrow where it is late, and the days quality
/// needs.
Day usable_from(const Book& book, const ExpectedDelivery& delivery, Day today);

/// What is expected of a delivery, and in words what that rests on: "figures as the mean of its last 3 lots".
struct Expectation {
    PlanFlour flour;
    std::string figures;
};
/// The mean of the newest lots of its mill and flour; what those do not say, the middle of the flour's
/// specification; what neither says is not known. The mill's additions are those of its newest lot. It ages
/// as fresh flour of its class where the newest such lot was received.
Expectation expectation_of(const Book& book, const Estimates& estimates, const ExpectedDelivery& delivery,
                           Day today);

/// A lot of the book; the estimates must outlive what is given back.
PlanFlour flour_of_lot(const Book& book, const Estimates& estimates, LotId lot);
/// Lots with flour left, or locked to a run of the span, and deliveries to come.
std::vector<PlanFlour> flours_to_plan(const Book& book, const Estimates& estimates, PlanSpan span);
planning::Lot planned_lot(const Book& book, const PlanFlour& flour, PlanSpan span);

/// Runs, products and oxidants of the problem: one need a flour of each run's formula.
void fill_runs(const Book& book, PlanProblem& problem);

struct BanWords {
    planning::Ban ban = planning::Ban::none;
    std::string words;
};

/// Says which flour may not go into which run, and why.
class Bans {
public:
    Bans(const Book& book, Day today);
    [[nodiscard]] BanWords of(const PlanFlour& flour, const Run& run, const Product& product,
                              FlourPart part) const;

private:
    [[nodiscard]] BanWords state_of(const PlanFlour& flour, const Run& run, const Product& product) const;
    [[nodiscard]] BanWords law_of(const Lot& lot, const Run& run, const Product& product) const;
    [[nodiscard]] BanWords layers_over(const PlanFlour& flour, const Run& run) const;
    [[nodiscard]] Grams could_draw(FlourId flour, Day until) const;

    const Book& book_;
    double least_chance_;
    std::map<FlourId, std::map<Day, Grams>> drawn_until_; ///< what all runs until a day could draw
};

/// The part's need has a target of maturity; see runs.cpp for why the second flour's may have none.
bool has_target(const Book& book, const Product& product, FlourPart part);

/// Flour of the lot kept back from every plan.
Grams kept_back(const Book& book, LotId lot);
/// Why the lot is not for this product, in words; empty: it may be.
std::string kept_for_others(const Book& book, LotId lot, const Product& product);

} // namespace mellowbin::app
