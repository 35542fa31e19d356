#include "app/plan/bans.h"

#include "app/book/settings.h"
#include "app/plan/expected.h"
#include "app/plan/reserved.h"
#include "app/plan/runs.h"
#include "app/plan/units.h"
#include "core/lot_words.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

using planning::Ban;

/// A figure that the product has a window for and the lot does not have, or has by another method.
BanWords missing_figure(const Lot& lot, const Specification& windows) {
    for (const auto& judgement : judge(lot.certificate, windows)) {
        const Property property = judgement.window.property;
        const bool is_planned = std::find(planned_properties.begin(), planned_properties.end(), property) !=
                                planned_properties.end();
        const bool is_known =
            judgement.verdict != Verdict::missing && judgement.verdict != Verdict::not_comparable;
        if (is_planned && !is_known)
            return {Ban::not_measured, fmt::format("{}: {}", traits(property).name, judgement.words)};
    }
    return {};
}

} // namespace

std::string blocked(const Book& book, LotId id, Day day) {
    const Lot* lot = book.lot(id);
    if (lot && stands_on_hold(*lot, day))
        return "that one's concession is over";
    switch (lot ? lot->state : LotState::released) {
    case LotState::awaiting_judgement:
        return "nobody has judged that one yet";
    case LotState::held:
        return "that one is on hold";
    case LotState::rejected:
        return "that one is rejected";
    case LotState::released:
    case LotState::used_up:
        break;
    }
    return {};
}

dough::Judged law_on(const Book& book, const Lot& lot, const Run& run, const Product& product) {
    const Flour* flour = book.flour(lot.flour);
    return dough::judge_lot({book.limits, book.markets}, {product.market, product.food, run.day},
                            flour ? flour->flour_class : FlourClass::white, lot.mill_additions);
}

Bans::Bans(const Book& book, Day today)
    : book_(book), least_chance_(Choices(book.settings).number("least_chance_to_plan")) {
    for (const auto& run : book.runs) {
        const Product* product = book.product(run.product);
        if (!product || run.day < today)
            continue;
        const Grams open = std::max(Grams{0}, run.flour - book.used_for(run.id));
        drawn_until_[product->flour][run.day] += grams_of(*product, FlourPart::main, open);
        if (product->second_flour)
            drawn_until_[product->second_flour->flour][run.day] +=
                grams_of(*product, FlourPart::second, open);
    }
    for (auto& [flour, days] : drawn_until_) {
        Grams sum;
        for (auto& [day, grams] : days) {
            sum += grams;
            grams = sum;
        }
    }
}

Grams Bans::could_draw(FlourId flour, Day until) const {
    const auto of_flour = drawn_until_.find(flour);
    if (of_flour == drawn_until_.end())
        return {};
    const auto after = of_flour->second.upper_bound(until);
    return after == of_flour->second.begin() ? Grams{} : std::prev(after)->second;
}

/// First in, first out: a lot is forbidden while what lies below it is more than every run up to and
/// including that day could draw, or is flour that nobody may draw. That is no more than can be known before
/// there is a plan; what the plan then really draws from below is the planner's own matter. Of one mixture
/// nothing comes while a lot in it may be drawn by nobody.
BanWords Bans::layers_over(const PlanFlour& flour, const Run& run) const {
    BanWords first;
    for (const auto& silo : flour.buried) {
        std::map<FlourId, Grams> below;
        std::string why;
        for (const auto& layer : silo.below) {
            const Lot* lot = book_.lot(layer.lot);
            const FlourId kind = lot ? lot->flour : FlourId{};
            below[kind] += layer.mass;
            const auto state = blocked(book_, layer.lot, run.day);
            const bool is_too_much = !silo.is_mixed && below[kind] > could_draw(kind, run.day);
            if (!why.empty() || (state.empty() && !is_too_much))
                continue;
            const auto code = lot ? lot->code : "?";
            why = silo.is_mixed
                      ? fmt::format("it is one mixture with {} in {}, and {}", code, silo.silo, state)
                      : fmt::format("it lies above {} in {}, which must be drawn first{}{}", code, silo.silo,
                                    state.empty() ? "" : ", and ", state);
        }
        if (why.empty())
            return {};
        if (first.words.empty())
            first = {Ban::other, why};
    }
    return first;
}

/// Flour of a silo may not go in where one of its lots may not. One that is used up by name lies there all
/// the same; how ready it is they say together.
BanWords Bans::of_mixture(const PlanFlour& flour, const Run& run, const Product& product,
                          FlourPart part) const {
    for (const auto& one : flour.holds) {
        auto why = of(one, run, product, part);
        if (why.ban == Ban::none || why.ban == Ban::used_up || why.ban == Ban::not_ready)
            continue;
        if (flour.holds.size() > 1 && !why.words.empty())
            why.words = fmt::format("of {} {}", one.lot.code, why.words);
        else if (flour.holds.size() > 1)
            why.words = fmt::format("it holds {}, which is {}", one.lot.code, in_words(one.lot.state));
        return why;
    }
    if (auto why = readiness_of(flour, run, product, part); why.ban != Ban::none)
        return why;
    return layers_over(flour, run);
}

BanWords Bans::readiness_of(const PlanFlour& flour, const Run& run, const Product& product,
                            FlourPart part) const {
    const Maturity half{aging::published_cut_points().usable_maturity};
    const double usable = has_target(book_, product, part) ? probability_of(flour, half, run.day) : 1;
    if (usable >= least_chance_)
        return {};
    return {Ban::not_ready,
            fmt::format("too young: only {:.0f} % likely to be half matured by then", usable * 100)};
}

/// Over, it stands as on hold; for other products it is ruled out as if it were kept for them.
BanWords Bans::concession_of(const Lot& lot, const Run& run, const Product& product) const {
    const auto why = against_by_concession(lot, product, run.day);
    if (why.empty())
        return {};
    if (stands_on_hold(lot, run.day))
        return {Ban::held, why};
    return {Ban::other,
            fmt::format("{}, only for {}", why, products_in_words(*lot.concession, book_.products))};
}

BanWords Bans::state_of(const PlanFlour& flour, const Run& run, const Product& product) const {
    const Lot& lot = flour.lot;
    if (flour.usable_from && run.day < *flour.usable_from)
        return {Ban::not_arrived,
                fmt::format("it is still to come and can be used from {} on", short_day(*flour.usable_from))};
    if (lot.state == LotState::awaiting_judgement)
        return {Ban::not_released, "nobody has judged it yet"};
    if (lot.state == LotState::held)
        return {Ban::held, fmt::format("it is on hold: {}", lot.state_reason)};
    if (lot.state == LotState::rejected)
        return {Ban::rejected, ""};
    if (lot.state == LotState::used_up)
        return {Ban::used_up, ""};
    if (auto why = concession_of(lot, run, product); why.ban != Ban::none)
        return why;
    if (const auto words = kept_for_others(book_, lot.id, product); !words.empty())
        return {Ban::other, words};
    if (const auto last = last_day(lot); last && *last < run.day)
        return {Ban::past_use_by, lot.extension ? "past the day that quality extended it to"
                                                : "past the supplier's best-before day"};
    return {};
}

BanWords Bans::law_of(const Lot& lot, const Run& run, const Product& product) const {
    if (!lot.mill_additions.empty() && !product.oxidant)
        return {Ban::other, "the mill added an oxidant, and the product goes without"};
    const auto judged = law_on(book_, lot, run, product);
    if (!judged.is_permitted())
        return {Ban::market_forbids_oxidant, judged.words};
    return {};
}

BanWords Bans::of(const PlanFlour& flour, const Run& run, const Product& product, FlourPart part) const {
    if (flour.lot.flour != flour_of(product, part))
        return {Ban::wrong_flour, ""};
    if (!flour.holds.empty())
        return of_mixture(flour, run, product, part);
    if (auto why = state_of(flour, run, product); why.ban != Ban::none)
        return why;
    if (auto why = law_of(flour.lot, run, product); why.ban != Ban::none)
        return why;
    if (auto why = readiness_of(flour, run, product, part); why.ban != Ban::none)
        return why;
    if (auto why = layers_over(flour, run); why.ban != Ban::none)
        return why;
    return missing_figure(flour.lot, windows_of(product, part));
}

} // namespace mellowbin::app
