#include "app/models/ladders.h"

#include "app/book/station.h"
#include "core/decimal.h"
#include "dough/law.h"
#include "dough/oxidant.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace mellowbin::app {
namespace {

constexpr int curve_points = 41;

/// The tightest room that a product of the lot's flour leaves for the substance, and where.
struct Tightest {
    OxidantPpm room{1000};
    std::string words; ///< empty: no product doses it
};

Tightest tightest_room(const Station& s, const Lot& lot, Substance substance) {
    Tightest tightest;
    for (const auto& product : s.book.products) {
        if (product.oxidant != substance || !part_of(product, lot.flour))
            continue;
        const auto room =
            dough::room_for({s.book.limits, s.book.markets}, {product.market, product.food, s.today()},
                            substance, lot.mill_additions, product.house_maximum);
        if (!tightest.words.empty() && room.room >= tightest.room)
            continue;
        tightest = {room.room, fmt::format("{}: {}", product.name, room.words)};
    }
    return tightest;
}

std::string ppm(OxidantPpm dose) { return fixed(dose.value(), dose.value() < 10 ? 1 : 0); }

std::string best_words(const dough::BestDose& best) {
    const auto own = fmt::format("{} {} of its own", best.loaves, best.loaves == 1 ? "loaf" : "loaves");
    const auto others = best.lots > 1 ? fmt::format(", {} other {} behind them", best.lots - 1,
                                                    best.lots == 2 ? "lot" : "lots")
                                      : ", no other lot behind them";
    return fmt::format("Best at {} mg/kg ({} to {}, 80 %): {}{}", ppm(best.dose), ppm(best.low),
                       ppm(best.high), own, others);
}

std::string next_words(const dough::NextDose& next) {
    auto words = fmt::format(
        "Bake {} mg/kg next: the best dose, known to {} mg/kg now, is then known to about {}", ppm(next.dose),
        ppm(OxidantPpm{next.interval_now}), ppm(OxidantPpm{next.interval_expected}));
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

void add_notes(const dough::BestDose& best, const Tightest& room, Substance substance, LadderModel& model) {
    if (best.is_at_the_end)
        model.notes.push_back(
            fmt::format("The best dose may lie above {} mg/kg, the highest baked: it is not known",
                        ppm(best.highest_baked)));
    if (best.is_cut_by_law)
        model.notes.push_back("The loaves would like more than is permitted: " + room.words);
    else if (!room.words.empty())
        model.notes.push_back(room.words);
    model.notes.push_back(fmt::format("{}: {}", name_of(substance), dough::speed_and_stage(substance)));
    model.notes.emplace_back("Beside what the mill put in. Curves of lots are taken to be alike in shape: an "
                             "assumption that more ladders test");
}

LadderModel ladder_of(const Station& s, const Lot& lot, Substance substance, LoafMeasure measure) {
    LadderModel model;
    model.substance = name_of(substance);
    model.unit = unit_of(measure);
    list_loaves(s, lot.id, substance, measure, model);
    const auto* response = s.doughs.response(substance, measure);
    if (!response || model.loaves.empty())
        return model;
    const auto room = tightest_room(s, lot, substance);
    const auto best = response->best_dose(lot.id, room.room);
    model.best_words = best_words(best);
    model.gain_words = fmt::format("{} {} over none ({} to {})", fixed(best.gain, 0), model.unit,
                                   fixed(best.gain_low, 0), fixed(best.gain_high, 0));
    if (const auto next = response->next_doses(lot.id, room.room); !next.empty())
        model.next_words = next_words(next.front());
    for (const auto& point : response->curve(lot.id, curve_points))
        model.curve.push_back({point.dose.value(), point.low, point.likely, point.high});
    add_notes(best, room, substance, model);
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
