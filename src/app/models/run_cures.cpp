#include "app/models/run_cures.h"

#include "app/book/station.h"
#include "app/models/planned_run.h"
#include "app/models/run_trouble.h"
#include "app/plan/bans.h"
#include "app/plan/gift.h"
#include "app/plan/given.h"
#include "app/plan/lots.h"
#include "app/plan/orders.h"
#include "app/plan/problem.h"
#include "app/plan/reserved.h"
#include "app/plan/view.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace mellowbin::app {
namespace {

constexpr double rounding_kg = 0.5; // of masses in whole grams over several lots
constexpr int days_looked_at = 14, tenths = 10, most_tried = 12;
constexpr std::size_t most_lots_told = 3, most_judged = 2;

double kilograms(Grams g) { return to_kilograms(g).value(); }

/// Looks for the cures of one run.
class Cures {
public:
    Cures(const Station& station, const Run& run, const Product& product)
        : s_(station), run_(run), product_(product), view_(station.book, station.estimates, station.today()),
          given_(given_by_book(station.book)), bans_(station.book, station.today()),
          usable_(usable(given_[run_.id])), now_(planned_run(s_, view_, run_, usable_)),
          trouble_(trouble_of(now_)) {
        made_.run = run.id;
    }

    RunCures look() {
        look_ahead();
        if (!trouble_.any())
            return made_;
        if (now_.is_past || now_.is_frozen) {
            made_.why_none =
                now_.is_past ? "It is past." : "It is fixed: mixed already, or too near to be changed.";
            return made_;
        }
        look_for_day();
        look_for_own_to_judge();
        look_for_lots();
        look_for_fewer();
        look_for_order();
        std::stable_sort(made_.cures.begin(), made_.cures.end(),
                         [](const RunCure& a, const RunCure& b) { return a.kind < b.kind; });
        if (made_.cures.empty())
            made_.why_none = "Nothing that lies here cures it by itself: plan these days anew.";
        return made_;
    }

private:
    /// Of what the run has, what may go into it on its day: flour on hold is missing. `released` counts as if
    /// it were.
    std::vector<Given> usable(std::vector<Given> given, LotId released = {}) {
        std::erase_if(given, [&](const Given& g) {
            const PlanFlour* flour = view_.flour(g);
            const auto part = flour ? part_of(product_, flour->lot.flour) : std::nullopt;
            const bool is_as_released = released.is_known() && g.lot == released;
            return !part ||
                   (!is_as_released && bans_.of(*flour, run_, product_, *part).ban != planning::Ban::none);
        });
        return given;
    }

    PlannedRun on_day(Day day) {
        Run moved = run_;
        moved.day = day;
        return planned_run(s_, view_, moved, usable_);
    }

    /// Whether all its flour may still go in on that day.
    bool may_all(Day day) {
        Run moved = run_;
        moved.day = day;
        return std::all_of(usable_.begin(), usable_.end(), [&](const Given& g) {
            const PlanFlour* flour = view_.flour(g);
            const auto part = flour ? part_of(product_, flour->lot.flour) : std::nullopt;
            return part && bans_.of(*flour, moved, product_, *part).ban == planning::Ban::none;
        });
    }

    void look_ahead() {
        if (now_.maturity_target <= 0 || now_.lots.empty() || now_.is_past)
            return;
        for (int i = 0; i <= 2; ++i) {
            const Day day = run_.day + Days{i};
            const double maturity = i == 0 ? now_.maturity : on_day(day).maturity;
            made_.ahead.push_back({day, maturity, is_mature_enough(maturity, now_.maturity_target)});
        }
    }

    void look_for_day() {
        if (!trouble_.is_weak)
            return;
        for (int i = 1; i <= days_looked_at; ++i) {
            const Day day = run_.day + Days{i};
            const PlannedRun then = on_day(day);
            if (trouble_of(then).is_weak || !is_better(trouble_, then))
                continue;
            if (!may_all(day))
                return;
            const Line* line = s_.book.line(run_.line);
            const auto there = std::count_if(s_.book.runs.begin(), s_.book.runs.end(), [&](const Run& other) {
                return other.line == run_.line && other.day == day;
            });
            made_.cures.push_back({RunCure::Kind::move, "Move the run to " + short_day(day),
                                   fmt::format("{} {} on {} that day.", standing_words(trouble_, then),
                                               there == 0   ? std::string("No run stands")
                                               : there == 1 ? std::string("1 run stands")
                                                            : fmt::format("{} runs stand", there),
                                               line ? line->name : "its line")});
            made_.cures.back().day = day;
            return;
        }
    }

    /// The run as it would be with so much of the lot; nothing where it cannot be.
    std::optional<PlannedRun> with(const Lot& lot, FlourPart part, Grams most, Grams offer, Grams& mass) {
        Gift gift{&lot, &run_, nullptr, part, most, {}};
        const auto after = flour_after(s_.book, gift, offer);
        if (!after)
            return {};
        std::vector<Given> given;
        for (const auto& a : after->assignments)
            given.push_back({a.lot, {}, a.mass, a.is_locked, a.reason});
        for (const auto& p : after->promises)
            given.push_back({{}, p.delivery, p.mass, false, p.reason});
        given = usable(std::move(given), lot.id);
        if (!keeps_to_shares(given, part))
            return {};
        mass = gift.mass;
        return planned_run(s_, view_, run_, given);
    }

    /// Not more lots than the product takes, none with less than its least share.
    bool keeps_to_shares(const std::vector<Given>& given, FlourPart part) {
        const double need = kilograms(grams_of(product_, part, run_.flour));
        int lots = 0;
        for (const auto& g : given) {
            const PlanFlour* flour = view_.flour(g);
            if (!flour || part_of(product_, flour->lot.flour) != part)
                continue;
            ++lots;
            if (!product_.one_lot_a_batch && kilograms(g.mass) < product_.least_share * need - rounding_kg)
                return false;
        }
        return lots <= product_.most_lots;
    }

    /// The least of the lot that cures the run; else the most of it, where that helps.
    std::optional<RunCure> cure_by(const Lot& lot, FlourPart part) {
        const Grams free = free_of(s_.book, lot.id), need = grams_of(product_, part, run_.flour);
        std::optional<RunCure> best;
        for (int i = 1; i <= tenths; ++i) {
            const Grams most{trouble_.short_kg > 0 ? to_grams(Kilograms{trouble_.short_kg}).count() + 1
                                                   : need.count() * i / tenths};
            Grams mass;
            const auto then = with(lot, part, std::min(most, free), free, mass);
            if (then && is_better(trouble_, *then)) {
                best = RunCure{RunCure::Kind::take,
                               mass >= need
                                   ? fmt::format("Take {} alone", lot.code)
                                   : fmt::format("Take {} kg of {}", fixed(kilograms(mass), 0), lot.code),
                               fmt::format("{} {} kg of it are free.", standing_words(trouble_, *then),
                                           fixed(kilograms(free), 0))};
                best->lot = lot.id;
                best->lot_code = lot.code;
                best->kg = kilograms(mass);
                if (!trouble_of(*then).any())
                    break;
            }
            if (trouble_.short_kg > 0 || most >= free)
                break;
        }
        return best;
    }

    /// Nothing but quality's word keeps it out of the run.
    bool waits_for_a_word(const PlanFlour& flour, FlourPart part) {
        if (bans_.of(flour, run_, product_, part).ban == planning::Ban::none)
            return false;
        PlanFlour released = flour;
        released.lot.state = LotState::released;
        released.lot.concession.reset();
        return bans_.of(released, run_, product_, part).ban == planning::Ban::none;
    }

    /// "It is on hold", "its concession ended on Fri 27 Nov"
    std::string waiting(const Lot& lot) {
        auto why = against_by_concession(lot, product_, run_.day);
        if (lot.state != LotState::released || why.empty())
            return fmt::format("It is {}", lot.state == LotState::held ? "on hold" : "in quarantine");
        why.front() = 'I';
        return why;
    }

    RunCure judging(const Lot& lot, double kg, const std::string& then) {
        RunCure cure{RunCure::Kind::judge, fmt::format("Judge {}", lot.code),
                     fmt::format("{}. Released: {}", waiting(lot), then)};
        cure.lot = lot.id;
        cure.lot_code = lot.code;
        cure.kg = kg;
        return cure;
    }

    /// As it would be judged if quality released it.
    std::optional<RunCure> cure_by_judging(const PlanFlour& flour, FlourPart part) {
        if (!waits_for_a_word(flour, part))
            return {};
        const auto cure = cure_by(flour.lot, part);
        return cure ? std::optional(judging(flour.lot, cure->kg, cure->price)) : std::nullopt;
    }

    /// Flour that the run has and that waits for quality's word: released, it is there again.
    void look_for_own_to_judge() {
        const auto& own = given_[run_.id];
        for (const auto& g : own) {
            const PlanFlour* flour = g.lot.is_known() ? view_.flour(g) : nullptr;
            const auto part = flour ? part_of(product_, flour->lot.flour) : std::nullopt;
            if (!part || !waits_for_a_word(*flour, *part))
                continue;
            const auto then = planned_run(s_, view_, run_, usable(own, g.lot));
            if (!is_better(trouble_, then))
                continue;
            made_.cures.push_back(
                judging(flour->lot, kilograms(g.mass),
                        fmt::format("{} The run has {} kg of it.", standing_words(trouble_, then),
                                    fixed(kilograms(g.mass), 0))));
            own_to_judge_.insert(g.lot);
        }
    }

    /// A lot that could go in, or could if quality released it.
    struct Candidate {
        const Lot* lot;
        const PlanFlour* flour;
        FlourPart part;
        bool is_to_judge;
        double use; ///< for what is missing: the more, the sooner it is tried
    };

    std::vector<Candidate> candidates() {
        std::vector<Candidate> all;
        for (const auto& lot : s_.book.lots) {
            const auto part = part_of(product_, lot.flour);
            const Grams free = part ? free_of(s_.book, lot.id) : Grams{0};
            const PlanFlour* flour = free > Grams{0} ? view_.flour(lot.id) : nullptr;
            if (!flour || own_to_judge_.contains(lot.id))
                continue;
            const auto ban = bans_.of(*flour, run_, product_, *part).ban;
            const bool is_to_judge = ban == planning::Ban::held || ban == planning::Ban::not_released;
            if (ban != planning::Ban::none && !is_to_judge)
                continue;
            all.push_back({&lot, flour, *part, is_to_judge,
                           trouble_.short_kg > 0 ? kilograms(free)
                                                 : counted_maturity(s_.estimates, lot.id, run_.day).value()});
        }
        std::stable_sort(all.begin(), all.end(),
                         [](const Candidate& a, const Candidate& b) { return a.use > b.use; });
        return all;
    }

    /// So many are tried at most, the most useful first: a store of hundreds of lots is not gone through.
    void look_for_lots() {
        std::vector<RunCure> takes, judges;
        int tries = most_tried;
        for (const auto& one : candidates()) {
            auto& found = one.is_to_judge ? judges : takes;
            if (found.size() == (one.is_to_judge ? most_judged : most_lots_told))
                continue;
            if (tries-- == 0)
                break;
            auto cure = one.is_to_judge ? cure_by_judging(*one.flour, one.part) : cure_by(*one.lot, one.part);
            if (cure)
                found.push_back(std::move(*cure));
        }
        // Of a weak or outside blend the least change comes first, of a short one the most flour.
        const bool wants_much = trouble_.short_kg > 0;
        for (auto* found : {&takes, &judges}) {
            std::stable_sort(found->begin(), found->end(), [&](const RunCure& a, const RunCure& b) {
                return wants_much ? a.kg > b.kg : a.kg < b.kg;
            });
            made_.cures.insert(made_.cures.end(), found->begin(), found->end());
        }
    }

    /// As many batches as every kind of its flour is enough for.
    int batches_served() {
        double least = 1;
        for (const auto& need : needs_of(view_, run_, product_, usable_))
            if (need.need > Grams{0})
                least = std::min(least, 1 - kilograms(need.missing) / kilograms(need.need));
        return static_cast<int>(std::floor(least * run_.batches + 1e-6));
    }

    void look_for_fewer() {
        if (trouble_.short_kg <= 0)
            return;
        const int whole = batches_served();
        if (whole < std::max(1, s_.book.batches_mixed(run_)) || whole >= run_.batches)
            return;
        made_.cures.push_back({RunCure::Kind::fewer, fmt::format("Mix {} of {} batches", whole, run_.batches),
                               fmt::format("{} kg less flour; nothing is short then.",
                                           fixed(now_.need_kg * (run_.batches - whole) / run_.batches, 0))});
        made_.cures.back().batches = whole;
    }

    void look_for_order() {
        for (const auto& order : orders_for(view_, {run_.id}, {{run_.id, usable_}})) {
            made_.cures.push_back(
                {RunCure::Kind::order,
                 fmt::format("Order {} kg {}", fixed(std::ceil(order.kg), 0), order.flour),
                 order.order_by ? fmt::format("Here by {} it matures in time.", short_day(*order.order_by))
                                : order.if_later});
            made_.cures.back().flour = order.flour;
            made_.cures.back().kg = std::ceil(order.kg);
            made_.cures.back().day = order.order_by;
        }
    }

    const Station& s_;
    const Run& run_;
    const Product& product_;
    PlanView view_;
    GivenByRun given_;
    Bans bans_;
    std::vector<Given> usable_;
    PlannedRun now_;
    RunTrouble trouble_;
    std::set<LotId> own_to_judge_; ///< offered already
    RunCures made_;
};

} // namespace

RunCures make_run_cures(const Station& s, RunId id) {
    const Run* run = s.book.run(id);
    const Product* product = run ? s.book.product(run->product) : nullptr;
    if (!product)
        return {id, {}, {}, {}};
    return Cures(s, *run, *product).look();
}

} // namespace mellowbin::app
