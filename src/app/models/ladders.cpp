#include "app/models/ladders.h"

#include "app/book/station.h"
#include "app/models/dose_maturity.h"
#include "core/decimal.h"
#include "dough/law.h"
#include "dough/oxidant.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

namespace mellowbin::app {
namespace {

constexpr int curve_points = 41;
constexpr OxidantPpm most_of_a_loaf{1000}; ///< that a loaf is logged with

std::string ppm(OxidantPpm dose) { return fixed(dose.value(), dose.value() < 10 ? 1 : 0); }

std::string best_words(const dough::BestDose& best) {
    const auto own = fmt::format("{} {} of its own", best.loaves, best.loaves == 1 ? "loaf" : "loaves");
    const auto others = best.lots > 1 ? fmt::format(", {} other {} behind them", best.lots - 1,
                                                    best.lots == 2 ? "lot" : "lots")
                                      : ", no other lot behind them";
    return fmt::format("Best at {} mg/kg ({} to {}, to hold in 80 of 100): {}{}", ppm(best.dose),
                       ppm(best.low), ppm(best.high), own, others);
}

std::string mg(double dose) { return fixed(dose, std::abs(dose) < 10 ? 1 : 0); }

std::string fall_words(const dough::BestDose& best) {
    if (!best.dosed_at)
        return {};
    return fmt::format(
        "Baked at {} % matured, today {} %: {} mg/kg less than the {} that were best then ({} to "
        "{} in 80 of 100)",
        fixed(100 * best.baked_at->value(), 0), fixed(100 * best.dosed_at->value(), 0),
        mg(best.fallen.likely), ppm(best.when_baked), mg(best.fallen.low), mg(best.fallen.high));
}

/// What all ladders say of how the dose falls as flour matures.
std::string fall_of_all(const dough::DoseResponse& response) {
    const auto fall = response.fall();
    const double over = response.maturity_baked_over();
    return fmt::format(
        "From fresh to mature the best dose is taken to fall by {} mg/kg ({} to {} in 80 of 100): {}",
        mg(fall.likely), mg(fall.low), mg(fall.high),
        over > 0 ? fmt::format("by what is assumed and test bake series {} % of maturity apart",
                               fixed(100 * over, 0))
                 : std::string("assumed; no test bake series was baked of flour that differed in maturity"));
}

std::string next_words(const dough::NextDose& next) {
    auto words = fmt::format(
        "Bake {} mg/kg next: the best dose, known to {} mg/kg now (in 80 of 100), is then known to about {}",
        ppm(next.dose), ppm(OxidantPpm{next.interval_now}), ppm(OxidantPpm{next.interval_expected}));
    return words;
}

void list_loaves(const Station& s, LotId lot, Substance substance, LoafMeasure measure, LadderModel& model) {
    for (const auto& bake : s.book.bakes) {
        if (bake.lot != lot || bake.substance != substance || bake.measure != measure)
            continue;
        model.rows.insert(model.rows.begin(), {bake.id, bake.baked_on, bake.dose.value(), bake.size,
                                               bake.note, bake.who, bake.is_withdrawn});
        if (!bake.is_withdrawn)
            model.loaves.emplace_back(bake.dose.value(), bake.size);
    }
}

std::string permit_words(const LadderPermit& permit, const dough::Room& room) {
    if (!room.words.empty() && room.permission != dough::Permission::permitted)
        return fmt::format("{}: none is permitted. {}", permit.product, room.words);
    return fmt::format("{}: up to {} mg/kg{}. {}", permit.product, ppm(room.room),
                       permit.is_cut ? ", less than the loaves would like" : "", room.words);
}

/// How far the lot has matured by today; nothing where that is not known of its newest loaf.
std::optional<MaturityRange> today(const Station& s, const Lot& lot, Substance substance) {
    const Bake* baked = s.doughs.newest_loaf(lot.id, substance);
    if (!baked || s.book.is_aside(lot.id))
        return {};
    return matured_since(*baked, s.estimates.of(lot.id), s.today());
}

/// What law and house leave of the oxidant to each product of the lot's flour that takes it.
std::vector<LadderPermit> permits_of(const Station& s, const Lot& lot, Substance substance,
                                     const dough::DoseResponse& response,
                                     const std::optional<MaturityRange>& now) {
    std::vector<LadderPermit> permits;
    for (const auto& product : s.book.products) {
        if (product.oxidant != substance || !part_of(product, lot.flour))
            continue;
        const auto room =
            dough::room_for({s.book.limits, s.book.markets}, {product.market, product.food, s.today()},
                            substance, lot.mill_additions, product.house_maximum);
        const auto best = response.best_dose(lot.id, room.room, now);
        LadderPermit permit{product.name, room.room.value(), best.dose.value(), best.is_cut_by_law, ""};
        permit.words = permit_words(permit, room);
        permits.push_back(std::move(permit));
    }
    return permits;
}

/// Up to which dose a further loaf is proposed, and why no further.
struct TrialBound {
    OxidantPpm most;
    std::string words;
};

/// A trial loaf is not for sale, so no product's limit bounds it: what was baked before may be baked again,
/// and beyond that no dose that no market's law, read in its source, takes for one of bread or flour.
TrialBound trial_bound(const Station& s, Substance substance, OxidantPpm highest_baked) {
    const auto read = dough::highest_read(s.book.limits, substance);
    if (!read)
        return {most_of_a_loaf, ""};
    if (*read >= highest_baked)
        return {*read,
                fmt::format("No loaf above {} mg/kg is proposed: the highest figure of any market's law "
                            "that was read in its source",
                            ppm(*read))};
    return {highest_baked,
            read->value() > 0
                ? fmt::format("No higher loaf is proposed: no law that was read in its source goes beyond {} "
                              "mg/kg",
                              ppm(*read))
                : std::string("No higher loaf is proposed: no law that was read in its source permits any")};
}

/// The bound bites: without it a higher loaf were among them.
bool reaches(const std::vector<dough::NextDose>& doses, OxidantPpm most) {
    return std::any_of(doses.begin(), doses.end(),
                       [&](const dough::NextDose& next) { return next.dose >= most; });
}

void add_notes(const dough::BestDose& best, Substance substance, LadderModel& model) {
    if (best.is_at_the_end)
        model.notes.push_back(
            fmt::format("The best dose may lie above {} mg/kg, the highest baked: it is not known",
                        ppm(best.highest_baked)));
    if (model.permits.empty())
        model.notes.emplace_back("No product of this flour takes this oxidant");
    if (std::any_of(model.permits.begin(), model.permits.end(),
                    [&](const LadderPermit& permit) { return permit.room < best.highest_baked.value(); }))
        model.notes.emplace_back("Trial bread with more than a product's law permits is not for sale as that "
                                 "product");
    model.notes.push_back(fmt::format("{}: {}", name_of(substance), dough::speed_and_stage(substance)));
    model.notes.emplace_back("Beside what the mill put in. Curves of lots are taken to be alike in shape: an "
                             "assumption that more test bake series put to the test");
}

LadderModel ladder_of(const Station& s, const Lot& lot, Substance substance, LoafMeasure measure) {
    LadderModel model;
    model.substance = name_of(substance);
    model.unit = unit_of(measure);
    list_loaves(s, lot.id, substance, measure, model);
    const auto* response = s.doughs.response(substance, measure);
    if (!response || model.loaves.empty())
        return model;
    const auto now = today(s, lot, substance);
    const auto best = response->best_dose(lot.id, most_of_a_loaf, now);
    const auto bound = trial_bound(s, substance, best.highest_baked);
    model.best_words = best_words(best);
    model.fall_words = fall_words(best);
    model.gain_words = fmt::format("{} {} over none ({} to {} in 80 of 100)", fixed(best.gain, 0), model.unit,
                                   fixed(best.gain_low, 0), fixed(best.gain_high, 0));
    const auto next = response->next_doses(lot.id, bound.most, now);
    if (!next.empty())
        model.next_words = next_words(next.front());
    if (!bound.words.empty() && reaches(next, bound.most))
        model.notes.push_back(bound.words);
    for (const auto& point : response->curve(lot.id, curve_points))
        model.curve.push_back({point.dose.value(), point.low, point.likely, point.high});
    model.permits = permits_of(s, lot, substance, *response, now);
    add_notes(best, substance, model);
    model.notes.push_back(fall_of_all(*response));
    return model;
}

} // namespace

std::vector<LadderModel> make_ladders(const Station& s, LotId id) {
    std::vector<LadderModel> ladders;
    const Lot* lot = s.book.lot(id);
    if (!lot)
        return ladders;
    std::set<std::pair<Substance, LoafMeasure>> kinds;
    for (const auto& bake : s.book.bakes)
        if (bake.lot == id)
            kinds.emplace(bake.substance, bake.measure);
    for (const auto& [substance, measure] : kinds)
        ladders.push_back(ladder_of(s, *lot, substance, measure));
    return ladders;
}

} // namespace mellowbin::app
