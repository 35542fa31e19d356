#include "app/setting_table.h"
#include "app/state.h"
#include "core/blend.h"
#include "core/decimal.h"
#include "dough/oxidant.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace mellowbin::app {
namespace {

/// What a planned run gets, from the book or from a proposal.
struct Given {
    LotId lot;
    Grams mass;
    bool is_locked = false;
    std::string reason;
};

double kilograms(Grams g) { return to_kilograms(g).value(); }

std::vector<BlendPart> blend_of(const Book& book, const std::vector<Given>& given) {
    std::vector<BlendPart> parts;
    for (const auto& g : given)
        if (const Lot* lot = book.lot(g.lot))
            parts.push_back({&lot->certificate, to_kilograms(g.mass)});
    return parts;
}

/// How the blend stands in the product's windows: the worst property decides.
void judge_windows(const Book& book, const Product& product, const std::vector<Given>& given,
                   PlannedRun& run) {
    const auto parts = blend_of(book, given);
    for (const auto& window : product.windows) {
        const auto blended = blend_value(parts, window.property);
        const auto& kind = traits(window.property);
        if (!blended) {
            run.windows_words +=
                fmt::format("{}{} not known of every lot", run.windows_words.empty() ? "" : "; ", kind.name);
            run.windows_fill = std::max(run.windows_fill, 1.0);
            continue;
        }
        const double half = window.half_width();
        const double middle = window.low && window.high ? (*window.low + *window.high) / 2
                              : window.low              ? *window.low + half
                                                        : *window.high - half;
        const bool is_harmless =
            (!window.high && blended->value > middle) || (!window.low && blended->value < middle);
        const double off = is_harmless ? 0 : std::abs(blended->value - middle) / half;
        run.windows_fill = std::max(run.windows_fill, off);
        const double missing = window.low ? *window.low - blended->value : -1;
        const double over = window.high ? blended->value - *window.high : -1;
        // A blend planned to the very edge is inside.
        const double slack = std::pow(10.0, -kind.decimals) / 2;
        if (missing > slack || over > slack) {
            run.windows_words += fmt::format("{}{} {} {} {}", run.windows_words.empty() ? "" : "; ",
                                             kind.name, fixed(std::max(missing, over), kind.decimals),
                                             kind.unit, missing > slack ? "below" : "above");
        }
    }
}

/// Maturity of the blend as the plan counts it, the oxidant that makes up the rest, and what the law leaves
/// of it.
void judge_strength(const App::State& s, const Run& run, const Product& product,
                    const std::vector<Given>& given, PlannedRun& planned) {
    double mass = 0;
    double sum = 0;
    std::vector<dough::FlourPart> parts;
    for (const auto& g : given) {
        const Lot* lot = s.book.lot(g.lot);
        if (!lot)
            continue;
        sum += counted_maturity(s.estimates, g.lot, run.day).value() * kilograms(g.mass);
        mass += kilograms(g.mass);
        parts.push_back({lot->mill_additions, to_kilograms(g.mass)});
    }
    planned.maturity_target = product.maturity_target.value();
    if (mass <= 0)
        return;
    planned.maturity = sum / mass;
    if (!product.oxidant)
        return;
    planned.oxidant = name_of(*product.oxidant);
    const auto carried = dough::carried_over(parts);
    const auto room =
        dough::room_for({s.book.limits, s.book.markets}, {product.market, product.food, run.day},
                        *product.oxidant, carried, product.house_maximum);
    planned.law_words = room.words;
    std::optional<Protein14> protein;
    if (const auto blended = blend_value(blend_of(s.book, given), Property::protein))
        protein = Protein14{blended->value};
    const auto need = dough::oxidant_for(*product.oxidant, Maturity{planned.maturity},
                                         product.maturity_target, {protein, carried});
    if (!need)
        return;
    planned.oxidant_ppm = std::min(need->dose.value(), room.room.value());
    if (room.room.value() > 0)
        planned.law_fill = planned.oxidant_ppm / room.room.value();
    if (need->dose.value() > room.room.value() + 0.05) {
        planned.reasons.push_back(fmt::format("{} mg/kg {} would be needed for full strength; {}",
                                              fixed(need->dose.value(), 1), name_of(*product.oxidant),
                                              room.words));
    }
}

PlannedRun planned_run(const App::State& s, const Run& run, const std::vector<Given>& given) {
    PlannedRun planned;
    const Product* product = s.book.product(run.product);
    planned.id = run.id;
    planned.code = run.code;
    planned.product = product ? product->name : "?";
    planned.market = product ? product->market : "";
    for (std::size_t i = 0; i < s.book.lines.size(); ++i)
        if (s.book.lines[i].id == run.line)
            planned.line = static_cast<int>(i);
    planned.day = run.day;
    planned.sequence = run.sequence;
    planned.need_kg = kilograms(run.flour);
    planned.is_past = run.day < s.today();
    Grams total;
    for (const auto& g : given) {
        const Lot* lot = s.book.lot(g.lot);
        total += g.mass;
        planned.lots.push_back({g.lot, lot ? lot->code : "?", kilograms(g.mass), g.is_locked,
                                s.estimates.of(g.lot).maturity_at(0.5, run.day).value(), g.reason});
    }
    // Whole grams from tonnes may miss the need by a gram a lot.
    planned.short_kg = std::max(0.0, kilograms(run.flour - total));
    if (planned.short_kg < 0.01)
        planned.short_kg = 0;
    if (product && !given.empty()) {
        judge_windows(s.book, *product, given, planned);
        judge_strength(s, run, *product, given, planned);
    }
    return planned;
}

std::map<RunId, std::vector<Given>> given_by_book(const Book& book) {
    std::map<RunId, std::vector<Given>> given;
    for (const auto& a : book.assignments)
        given[a.run].push_back({a.lot, a.mass, a.is_locked, a.reason});
    return given;
}

std::map<RunId, std::vector<Given>> given_by(const App::State& s, const ProposedPlan& plan) {
    auto given = given_by_book(s.book);
    for (const RunId run : plan.input.runs) {
        const bool frozen = s.book.used_for(run) > Grams{0};
        if (!frozen)
            given[run].clear();
    }
    for (const auto& a : assignments_of(s.book, plan)) {
        if (s.book.used_for(a.run) > Grams{0})
            continue;
        given[a.run].push_back({a.lot, a.mass, a.is_locked, a.reason});
    }
    return given;
}

std::string lots_in_words(const Book& book, const std::vector<Given>& given) {
    std::string words;
    for (const auto& g : given) {
        const Lot* lot = book.lot(g.lot);
        words += fmt::format("{}{} kg {}", words.empty() ? "" : " + ", fixed(kilograms(g.mass), 0),
                             lot ? lot->code : "?");
    }
    return words.empty() ? "nothing" : words;
}

std::vector<std::string> changes_of(const Book& book, const std::vector<RunId>& runs,
                                    const std::map<RunId, std::vector<Given>>& before,
                                    const std::map<RunId, std::vector<Given>>& after) {
    const auto of = [](const auto& map, RunId run) {
        const auto at = map.find(run);
        return at == map.end() ? std::vector<Given>{} : at->second;
    };
    std::vector<std::string> changes;
    for (const RunId id : runs) {
        auto was = lots_in_words(book, of(before, id));
        auto is = lots_in_words(book, of(after, id));
        const Run* run = book.run(id);
        if (was != is && run)
            changes.push_back(fmt::format("Run {}: {}, was {}", run->code, is, was));
    }
    return changes;
}

/// Days a kind of flour needs from its milling at 20 °C in bags until a run may count on the target.
int days_to_mature(const Estimates& estimates, const Flour& flour, Maturity target, Day arrival) {
    static const auto bags_at_20 = std::make_shared<aging::ClimateCourse>(Place{});
    const aging::StoredFlour fresh{
        flour.flour_class, arrival, arrival, {{bags_at_20, aging::days_of(arrival)}}, {}};
    const auto day =
        aging::Estimate(fresh).first_day_of(Maturity{std::min(target.value(), 0.95)}, estimates.confidence());
    return day ? static_cast<int>((*day - arrival).count()) : 730;
}

std::string cure_of(const App::State& s, const Run& run, const Product& product) {
    const Flour* flour = s.book.flour(product.flour);
    if (!flour)
        return "";
    const int days = days_to_mature(s.estimates, *flour, product.maturity_target, run.day);
    const Day order_by = run.day - Days{days};
    if (order_by >= s.today()) {
        return fmt::format("Flour milled by {} would mature in time ({} days at 20 °C, an estimate).",
                           iso(order_by), days);
    }
    return fmt::format("New flour matures in {} days at 20 °C (an estimate), too late: {}.", days,
                       product.oxidant ? "take an older lot, or oxidant as the law allows"
                                       : "take an older lot, or ferment longer");
}

void show_shortages(const App::State& s, PlanModel& model) {
    std::map<std::int64_t, double> waiting; // kg awaiting judgement or held, by flour
    for (const auto& lot : s.book.lots)
        if (lot.state == LotState::awaiting_judgement || lot.state == LotState::held)
            waiting[lot.flour.number()] += kilograms(s.book.stock.total(lot.id));
    for (const auto& planned : model.runs) {
        if (planned.short_kg < 0.5 || planned.is_past)
            continue;
        const Run* run = s.book.run(planned.id);
        const Product* product = run ? s.book.product(run->product) : nullptr;
        if (!product)
            continue;
        std::string words = fmt::format("{} kg short: {}, {} ({}). ", fixed(planned.short_kg, 0),
                                        planned.product, short_day(planned.day), planned.code);
        if (const double kg = waiting[product->flour.number()]; kg > 0)
            words += fmt::format("{} kg of its flour wait for quality's word. ", fixed(kg, 0));
        model.shortages.push_back(words + cure_of(s, *run, *product));
    }
}

std::string objective_in_words(const ProposedPlan& plan) {
    const auto& parts = plan.outcome.evaluation.parts;
    std::string words = fmt::format("Weighed {:.0f}", plan.outcome.evaluation.objective);
    const std::array named{std::pair{"shortage", parts.shortage},
                           std::pair{"windows", parts.windows},
                           std::pair{"maturity", parts.maturity},
                           std::pair{"oxidant", parts.oxidant},
                           std::pair{"past best", parts.past_best},
                           std::pair{"waste", parts.waste},
                           std::pair{"lot changes", parts.lot_changes},
                           std::pair{"age", parts.age},
                           std::pair{"cost", parts.cost}};
    for (const auto& [name, value] : named)
        if (value >= 0.5)
            words += fmt::format(", {} {:.0f}", name, value);
    if (plan.outcome.bound)
        words += fmt::format("; no plan can be below {:.0f}", *plan.outcome.bound);
    return words;
}

void show_proposal(const App::State& s, const ProposedPlan& plan,
                   const std::map<RunId, std::vector<Given>>& given, PlanModel& model) {
    model.standing = PlanModel::Standing::proposed;
    model.objective = objective_in_words(plan);
    model.changes = changes_of(s.book, plan.input.runs, given_by_book(s.book), given);
    model.can_adopt = plan.book_changes == s.book_changes;
    if (!model.can_adopt)
        model.adopt_blocked = "The book changed since this plan was made: plan again";
    for (auto& run : model.runs) {
        const auto at = std::find(plan.input.runs.begin(), plan.input.runs.end(), run.id);
        if (at == plan.input.runs.end())
            continue;
        for (const auto& words : run_reasons(plan, static_cast<int>(at - plan.input.runs.begin())))
            run.reasons.push_back(words);
    }
}

} // namespace

std::string plan_in_words(const ProposedPlan& plan) {
    const double short_kg = plan.outcome.evaluation.short_t * 1000;
    std::string words = fmt::format("Plan of {} runs made", plan.input.runs.size());
    words += short_kg >= 0.5 ? fmt::format(": {} kg of flour are short", fixed(short_kg, 0))
                             : ": nothing is short";
    return words + "; adopt it or discard it";
}

void make_plan(App::State& s) {
    PlanModel model;
    model.from = s.plan_from;
    model.days = s.plan_days;
    model.today = s.today();
    for (const auto& line : s.book.lines)
        model.lines.push_back(line.name);
    model.line_names = model.lines;
    for (const auto& product : s.book.products)
        model.products.push_back(product.name);
    model.is_planning = s.plan_work.is_running();
    if (model.is_planning)
        model.progress = s.plan_work.progress_in_words();

    const auto& proposal = s.plan_work.proposal();
    const auto given = proposal ? given_by(s, *proposal) : given_by_book(s.book);
    for (const auto& run : s.book.runs) {
        if (run.day < model.from || run.day >= model.from + Days{model.days})
            continue;
        const auto at = given.find(run.id);
        model.runs.push_back(planned_run(s, run, at == given.end() ? std::vector<Given>{} : at->second));
    }
    if (proposal)
        show_proposal(s, *proposal, given, model);
    show_shortages(s, model);
    s.plan = std::move(model);
}

} // namespace mellowbin::app
