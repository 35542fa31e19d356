#include "app/plan/holds.h"

#include "app/book/book.h"
#include "app/plan/bans.h"
#include "app/plan/expected.h"
#include "app/plan/freeze.h"
#include "app/plan/given.h"
#include "app/plan/lots.h"
#include "app/plan/reserved.h"
#include "app/plan/runs.h"
#include "core/decimal.h"
#include "core/lot_words.h"
#include "core/percent_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace mellowbin::app {
namespace {

constexpr double slight_maturity = 0.02;

std::string kg(Grams mass) { return fixed(to_kilograms(mass).value(), 0) + " kg"; }

/// What stands against one flour, and which runs it hits.
struct Objection {
    std::set<std::pair<Day, RunId>> runs;
    Grams mass;
};

class Holds {
public:
    Holds(PlanView& view, PlanSpan span)
        : view_(view), book_(view.book), span_(span), bans_(book_, span.today), given_(given_by_book(book_)) {
        for (const auto& run : book_.runs) {
            if (is_open(run))
                open_.push_back(&run);
            else if (is_being_mixed(run))
                being_mixed_.push_back(&run);
        }
    }

    std::vector<std::string> reasons() {
        for (const Run* run : being_mixed_)
            look_at_law(*run);
        if (!is_anything_planned()) {
            say_objections();
            return std::move(reasons_);
        }
        for (const Run* run : open_) {
            look_at_lots(*run);
            look_at_promises(*run);
        }
        say_objections();
        look_at_stock();
        for (const Run* run : open_)
            look_at_needs(*run);
        return std::move(reasons_);
    }

private:
    [[nodiscard]] bool is_open(const Run& run) const {
        return run.day >= span_.today && span_.holds(run.day) && book_.product(run.product) &&
               !is_frozen(book_, run, span_.today);
    }

    /// Or too near to be changed: no plan mends it, but somebody must know.
    [[nodiscard]] bool is_being_mixed(const Run& run) const {
        return run.day >= span_.today && span_.holds(run.day) && book_.product(run.product) &&
               book_.batches_mixed(run) < run.batches;
    }

    [[nodiscard]] bool is_anything_planned() const {
        return std::any_of(open_.begin(), open_.end(),
                           [&](const Run* run) { return !given_of(run->id).empty(); });
    }

    [[nodiscard]] const std::vector<Given>& given_of(RunId run) const {
        static const std::vector<Given> nothing;
        const auto at = given_.find(run);
        return at == given_.end() ? nothing : at->second;
    }

    void object(const std::string& flour, const std::string& why, const Run& run, Grams mass) {
        auto& objection = objections_[{flour, why}];
        objection.runs.insert({run.day, run.id});
        objection.mass += mass;
    }

    void look_at_lots(const Run& run) {
        const Product& product = *book_.product(run.product);
        for (const auto& a : given_of(run.id)) {
            const PlanFlour* flour = a.delivery.is_known() ? nullptr : view_.flour(a.lot);
            if (!flour)
                continue;
            const auto part = part_of(product, flour->lot.flour).value_or(FlourPart::main);
            const auto why = bans_.of(*flour, run, product, part);
            if (why.ban == planning::Ban::none)
                continue;
            const auto words =
                why.words.empty() ? fmt::format("it is {}", in_words(flour->lot.state)) : why.words;
            object("Lot " + flour->lot.code, words, run, a.mass);
        }
    }

    /// What is left of its flour.
    void look_at_law(const Run& run) {
        for (const auto& a : book_.assignments_of(run.id)) {
            const Lot* lot = book_.lot(a.lot);
            const Grams left = a.mass - book_.used_for(run.id, a.lot);
            if (!lot || left <= Grams{0})
                continue;
            const auto judged = law_on(book_, *lot, run, *book_.product(run.product));
            if (!judged.is_permitted())
                object("Lot " + lot->code, judged.words, run, left);
        }
    }

    void look_at_promises(const Run& run) {
        for (const auto& promise : given_of(run.id)) {
            const auto* delivery = book_.delivery(promise.delivery);
            if (!delivery)
                continue;
            const Day from = usable_from(book_, *delivery, span_.today);
            if (delivery->has_come)
                object("Delivery " + delivery->code, "it came or was called off", run, promise.mass);
            else if (from > run.day)
                object("Delivery " + delivery->code,
                       fmt::format("it comes too late and can be used from {} on", short_day(from)), run,
                       promise.mass);
        }
    }

    void say_objections() {
        for (const auto& [key, objection] : objections_) {
            const std::string runs = objection.runs.size() == 1
                                         ? "run " + book_.run(objection.runs.begin()->second)->code
                                         : fmt::format("{} runs from {}", objection.runs.size(),
                                                       short_day(objection.runs.begin()->first));
            reasons_.push_back(
                fmt::format("{}: {} ({} for {})", key.first, key.second, kg(objection.mass), runs));
        }
    }

    /// What all runs from today on want of a lot, against what is there of it.
    void look_at_stock() {
        std::map<LotId, Grams> wanted;
        for (const auto& a : book_.assignments) {
            const Run* run = book_.run(a.run);
            if (run && run->day >= span_.today)
                wanted[a.lot] += std::max(Grams{0}, a.mass - book_.used_for(a.run, a.lot));
        }
        std::set<LotId> here;
        for (const Run* run : open_)
            for (const auto& a : given_of(run->id))
                if (!a.delivery.is_known())
                    here.insert(a.lot);
        for (const LotId id : here) {
            const Grams there = book_.stock.total(id) - kept_back(book_, id);
            free_[id] = there - wanted[id];
            if (wanted[id] > there + few_grams)
                reasons_.push_back(fmt::format("Lot {}: {} are planned, {} are there", book_.lot(id)->code,
                                               kg(wanted[id]), kg(there)));
        }
        for (const auto& lot : book_.lots)
            if (!here.contains(lot.id))
                free_[lot.id] = book_.stock.total(lot.id) - kept_back(book_, lot.id) - wanted[lot.id];
    }

    void look_at_needs(const Run& run) {
        const Product& product = *book_.product(run.product);
        for (const auto& need : needs_of(view_, run, product, given_of(run.id))) {
            Grams has;
            for (const auto& g : need.given)
                has += g.mass;
            if (has > need.need + few_grams)
                reasons_.push_back(
                    fmt::format("Run {}: {} are planned, it needs {}", run.code, kg(has), kg(need.need)));
            else if (need.missing > Grams{0})
                look_for_more(run, product, need);
            else
                look_for_older(run, product, need);
        }
    }

    /// A shortage that a plan could not help is no reason to plan again; one that a lot could fill is.
    void look_for_more(const Run& run, const Product& product, const NeedShown& need) {
        if (const Lot* lot = better_lot(run, product, need, 0))
            reasons_.push_back(
                fmt::format("Run {}: {} {}, and lot {} has flour left", run.code, kg(need.missing),
                            need.given.empty() ? "are not planned yet" : "are missing", lot->code));
    }

    /// Strength that neither time nor the law's oxidant makes up, while an older lot lies unused.
    void look_for_older(const Run& run, const Product& product, const NeedShown& need) {
        if (is_dosed(run, product) || !has_target(book_, product, need.part))
            return;
        const double has = app::counted_maturity(view_, run, need.given);
        const double target = as_baked(product, run).maturity_target.value();
        if (has > target - slight_maturity)
            return;
        if (const Lot* lot = better_lot(run, product, need, has + slight_maturity))
            reasons_.push_back(fmt::format("Run {}: its flour is {} mature, and lot {} is older", run.code,
                                           percent_of_words(has * 100, target * 100), lot->code));
    }

    /// With an oxidant that law and house let it have.
    [[nodiscard]] bool is_dosed(const Run& run, const Product& product) const {
        return product.oxidant &&
               dough::room_for({book_.limits, book_.markets}, {product.market, product.food, run.day},
                               *product.oxidant, {}, product.house_maximum)
                       .permission == dough::Permission::permitted;
    }

    /// A lot with flour left that may go into the run and is so mature at least; null without one.
    const Lot* better_lot(const Run& run, const Product& product, const NeedShown& need, double maturity) {
        for (const auto& lot : book_.lots) {
            if (lot.flour != flour_of(product, need.part) || lot.state != LotState::released ||
                free_[lot.id] <= Grams{1000})
                continue;
            const PlanFlour& flour = *view_.flour(lot.id);
            if (flour.estimate->maturity_at(1 - view_.estimates.confidence(), run.day).value() >= maturity &&
                bans_.of(flour, run, product, need.part).ban == planning::Ban::none)
                return &lot;
        }
        return nullptr;
    }

    PlanView& view_;
    const Book& book_;
    PlanSpan span_;
    Bans bans_;
    GivenByRun given_;
    std::vector<const Run*> open_, being_mixed_;
    std::map<std::pair<std::string, std::string>, Objection> objections_;
    std::map<LotId, Grams> free_;
    std::vector<std::string> reasons_;
};

} // namespace

std::vector<std::string> why_no_longer(PlanView& view, PlanSpan span) { return Holds(view, span).reasons(); }

} // namespace mellowbin::app
