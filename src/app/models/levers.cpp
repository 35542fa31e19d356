#include "app/models/levers.h"

#include "app/book/book.h"
#include "app/book/estimates.h"
#include "app/book/settings.h"
#include "app/book/station.h"
#include "app/models/levers_input.h"
#include "app/models/levers_words.h"
#include "app/models/maturity_words.h"
#include "app/models/run_card.h"
#include "app/plan/bans.h"
#include "app/plan/lots.h"
#include "app/plan/problem.h"
#include "app/plan/reserved.h"
#include "app/plan/runs.h"
#include "core/decimal.h"
#include "core/lot_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::app {
namespace {

constexpr int days_ahead = 60;

struct Share {
    LotId lot;
    double share = 0; ///< of the flour that carries the strength
};

std::vector<Share> strength_shares(const dough::CardInput& input) {
    double all = 0;
    for (const auto& lot : input.lots)
        all += lot.has_target ? static_cast<double>(lot.mass.count()) : 0;
    std::vector<Share> shares;
    for (const auto& lot : input.lots)
        if (lot.has_target && all > 0)
            shares.push_back({lot.lot->id, static_cast<double>(lot.mass.count()) / all});
    return shares;
}

/// The blend's maturity that is reached with this confidence: its lots are taken to be early or late
/// together.
double blend_maturity(const Estimates& estimates, const std::vector<Share>& shares, Day day,
                      double confidence) {
    double sum = 0;
    for (const auto& share : shares)
        sum += share.share * estimates.of(share.lot).maturity_at(1 - confidence, day).value();
    return sum;
}

double probability_of(const Estimates& estimates, const std::vector<Share>& shares, Day day, double target) {
    double sure = 0;
    double open = 1;
    if (blend_maturity(estimates, shares, day, 0.999) >= target)
        return 0.999;
    constexpr int halvings = 9;
    for (int i = 0; i < halvings; ++i) {
        const double middle = (sure + open) / 2;
        (blend_maturity(estimates, shares, day, middle) >= target ? sure : open) = middle;
    }
    return sure;
}

std::vector<dough::WaitDay> waiting(const Station& s, const dough::CardInput& input) {
    std::vector<dough::WaitDay> days;
    const auto shares = strength_shares(input);
    if (shares.empty())
        return days;
    const double target = input.product.maturity_target.value();
    for (int i = 0; i <= days_ahead; ++i) {
        const Day day = input.run.day + Days{i};
        days.push_back(
            {day, Maturity{blend_maturity(s.estimates, shares, day, s.estimates.confidence())}, 0});
        const bool is_reached = days.back().counted.value() >= target;
        if (i == 0 || is_reached || i == days_ahead)
            days.back().probability = probability_of(s.estimates, shares, day, target);
        if (is_reached)
            break;
    }
    return days;
}

std::string words_of(const BanWords& ban, const Lot& lot) {
    if (ban.ban == planning::Ban::none || !ban.words.empty())
        return ban.words;
    return fmt::format("lot {} is {}", lot.code, in_words(lot.state));
}

void add_others(const Station& s, const Run& run, const Product& product, LeversMade& made) {
    const Bans bans(s.book, s.today());
    const auto& own = made.card->input.lots;
    for (const auto& lot : s.book.lots) {
        if (part_of(product, lot.flour) != FlourPart::main || s.book.stock.total(lot.id) <= Grams{0} ||
            std::any_of(own.begin(), own.end(), [&](const auto& one) { return one.lot->id == lot.id; }))
            continue;
        dough::OtherLot other;
        other.lot = &lot;
        const auto& estimate = s.estimates.of(lot.id);
        other.counted = counted_maturity(s.estimates, lot.id, run.day);
        other.lowest = estimate.maturity_at(0.1, run.day);
        other.highest = estimate.maturity_at(0.9, run.day);
        other.free = free_of(s.book, lot.id);
        other.price_per_tonne = lot.price_per_tonne_minor;
        other.forbidden =
            words_of(bans.of(flour_of_lot(s.book, s.estimates, lot.id), run, product, FlourPart::main), lot);
        if (other.forbidden.empty())
            other.forbidden = kept_for_others(s.book, lot.id, product);
        made.input.others.push_back(std::move(other));
    }
}

/// What the newest batch of the product got, against what is believed now of its optimum.
std::optional<dough::LastWater> last_water(const Station& s, const Product& product) {
    for (auto at = s.book.batches.rbegin(); at != s.book.batches.rend(); ++at) {
        const Run* run = s.book.run(at->run);
        if (at->is_countered || !at->absorption || !at->farinograph || !run || run->product != product.id)
            continue;
        std::vector<dough::LotShare> shares;
        double all = 0;
        for (const auto& part : at->flour)
            all += static_cast<double>(part.mass.count());
        for (const auto& part : at->flour)
            shares.push_back({part.lot, static_cast<double>(part.mass.count()) / all});
        const auto learned = s.doughs.water().predict(product.id, run->line, shares, run->day);
        const auto optimum = *at->farinograph + learned.offset + learned.deviation;
        return dough::LastWater{*at->absorption - optimum, learned.sd,
                                fmt::format("batch {} of {}", at->number, run->code)};
    }
    return {};
}

dough::LeverPrices prices(const Book& book, const dough::CardInput& input) {
    const Choices choices(book.settings);
    constexpr double minor = 100;
    dough::LeverPrices prices;
    prices.oxidant_per_kg = choices.number("oxidant_price") * minor;
    prices.line_per_minute = choices.number("line_price") * minor / 60;
    double all = 0;
    for (const auto& lot : input.lots) {
        if (!lot.has_target)
            continue;
        const auto mass = static_cast<double>(lot.mass.count());
        all += mass;
        prices.flour_per_tonne += mass * static_cast<double>(lot.lot->price_per_tonne_minor);
    }
    if (all > 0)
        prices.flour_per_tonne /= all;
    return prices;
}

/// Lots of the run that are likely past their best on its day.
void warn_past_best(const Station& s, const dough::CardInput& input, dough::Levers& levers) {
    constexpr double worth_a_word = 0.2;
    for (const auto& lot : input.lots) {
        const auto& estimate = s.estimates.of(lot.lot->id);
        const double chance =
            estimate.probability_of_age(aging::published_cut_points().past_best_age, input.run.day);
        if (chance >= worth_a_word)
            levers.too_far.words.push_back(fmt::format(
                "Lot {} is past its best on that day with {} %: bake a trial, or take a fresher lot",
                lot.lot->code, fixed(100 * chance, 0)));
    }
}

} // namespace

std::unique_ptr<LeversMade> levers_input(const Station& s, const Run& run, const Product& product,
                                         const Line& line) {
    auto made = std::make_unique<LeversMade>();
    made->card = run_card(s, run, product, line);
    made->input.card = made->card->input;
    made->input.wait = waiting(s, made->card->input);
    for (const auto& [lot, share] : strength_shares(made->card->input))
        made->rate += share * maturing_rate(s.estimates, lot);
    add_others(s, run, product, *made);
    made->input.last_water = last_water(s, product);
    made->input.prices = prices(s.book, made->card->input);
    return made;
}

LeversModel make_levers(const Station& s, RunId id) {
    LeversModel model;
    model.run = id;
    const Run* run = s.book.run(id);
    const Product* product = run ? s.book.product(run->product) : nullptr;
    const Line* line = run ? s.book.line(run->line) : nullptr;
    if (!product || !line) {
        model.refusals.push_back({"Run", "is not in the book", "Choose a run from the list"});
        return model;
    }
    model.title = fmt::format("{}, {}, {}", product->name, short_day(run->day), line->name);
    const auto made = levers_input(s, *run, *product, *line);
    auto levers = dough::weigh_levers(made->input);
    if (!levers) {
        model.refusals = levers.refusals();
        return model;
    }
    warn_past_best(s, made->card->input, *levers);
    show_levers(made->input, *levers, made->rate, model);
    return model;
}

} // namespace mellowbin::app
