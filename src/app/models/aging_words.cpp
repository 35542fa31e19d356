#include "app/models/aging_words.h"

#include "core/decimal.h"
#include "core/normal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace mellowbin::app {
namespace {

std::string shift_words(std::string_view what, std::optional<Day> here, std::optional<Day> there) {
    if (!there)
        return here ? fmt::format("{} not within two years", what) : "";
    if (!here)
        return fmt::format("{} on {}", what, short_day(*there));
    const int days = static_cast<int>((*there - *here).count());
    if (days == 0)
        return fmt::format("{} as here", what);
    return fmt::format("{} {} {} {}", what, std::abs(days), std::abs(days) == 1 ? "day" : "days",
                       days < 0 ? "sooner" : "later");
}

std::string in_figures(const aging::Lognormal& value, int decimals, std::string_view unit) {
    return fmt::format("{}{}{}, factor {} either way", fixed(value.median, decimals), unit.empty() ? "" : " ",
                       unit, fixed(value.gsd, 2));
}

} // namespace

DaySpread shown(const aging::DaySpread& spread) { return {spread.early, spread.likely, spread.late}; }

Readiness shown(aging::Readiness readiness) {
    switch (readiness) {
    case aging::Readiness::young:
        return Readiness::young;
    case aging::Readiness::usable:
        return Readiness::usable;
    case aging::Readiness::mature:
        return Readiness::ready;
    case aging::Readiness::use_first:
        return Readiness::use_first;
    case aging::Readiness::past_best:
        return Readiness::past_best;
    }
    return Readiness::young;
}

Advice shown(aging::Advice advice) {
    switch (advice) {
    case aging::Advice::wait:
        return Advice::wait;
    case aging::Advice::use:
        return Advice::use;
    case aging::Advice::use_first:
        return Advice::use_first;
    case aging::Advice::hold:
        return Advice::hold;
    }
    return Advice::wait;
}

std::string worth_words(const aging::RetestWorth& worth) {
    if (worth.says_nothing)
        return "shows its own course and scales the guess of ascorbic acid; says nothing of the ready date";
    if (worth.needs_a_first)
        return "no first result yet: one alone tells nothing of maturing";
    const int before = static_cast<int>(std::lround(worth.days_now));
    const int after = static_cast<int>(std::lround(worth.days_expected));
    if (before - after < 1)
        return fmt::format("would not narrow the ready date's {} days", before);
    return fmt::format("narrows the ready date from {} to about {} days", before, after);
}

std::string elsewhere_words(double mean_temperature, const aging::Turns& here, const aging::Turns& there) {
    const auto ready = shift_words("ready", here.mature_from, there.mature_from);
    const auto end = shift_words("past its best", here.past_best_from, there.past_best_from);
    return fmt::format("{} °C: {}{}{}", fixed(mean_temperature, 1), ready,
                       ready.empty() || end.empty() ? "" : ", ", end);
}

std::string fat_acidity_words(const aging::FatAcidityLine& line) {
    const std::string from = line.determinations == 0 ? "assumed of fresh flour of this kind"
                             : line.determinations == 1
                                 ? "from 1 determination"
                                 : fmt::format("from {} determinations", line.determinations);
    const std::string first =
        line.first ? fmt::format(", starting from the lot's own first, {}", fixed(line.first->value(), 0))
                   : "";
    const std::string limit = line.limit_on.likely ? "likely on " + iso(*line.limit_on.likely)
                                                   : std::string("not within two years by the likely line");
    std::string words =
        fmt::format("Fat acidity about {} mg KOH/100 g, {}; the limit of {:g} {}", fixed(line.now.value(), 0),
                    from + first, aging::fat_acidity_limit().value(), limit);
    if (line.set_aside > 0)
        words +=
            fmt::format(". {} by another method than the newest ({}) {} set aside: methods are never mixed",
                        line.set_aside == 1 ? "1 reading" : fmt::format("{} readings", line.set_aside),
                        line.method.empty() ? "not named" : line.method, line.set_aside == 1 ? "is" : "are");
    return words;
}

std::vector<Origin> origins_of(const Station& s, const Lot& lot, const LotEvidence& made) {
    std::vector<Origin> origins;
    const auto& learned = s.estimates.learned();
    const bool is_learned = !learned.lessons().empty();
    const std::string from = is_learned
                                 ? fmt::format("learned from {} lots of this plant", learned.lessons().size())
                                 : "published studies, pooled";
    origins.push_back(
        {"Maturing rate before its own results", in_figures(made.priors.k20, 3, "per day at 20 °C"), from});
    const auto rate = s.estimates.of(lot.id).log_rate();
    if (s.estimates.results_counted(lot.id) > 0)
        origins.push_back({"Maturing rate with its results",
                           in_figures({std::exp(rate.mean), std::exp(rate.sd)}, 3, "per day at 20 °C"),
                           fmt::format("{} results of this lot", s.estimates.results_counted(lot.id))});
    origins.push_back({"Temperature factor per 10 K", in_figures(made.priors.q10, 2, ""),
                       "flour carotenoids, standing in for dough strength: an assumption"});
    const auto reservations = s.estimates.of(lot.id).reservations(s.today());
    if (std::count(reservations.begin(), reservations.end(), aging::Reservation::cold_assumed) > 0)
        origins.push_back(
            {"Temperature factor per 10 K below 10 °C", in_figures(made.priors.cold_q10, 2, ""),
             "an assumption: at 4 °C flour stayed as it was for 60 days, frozen it still gained"});
    for (const auto& stay : made.flour.path) {
        const auto air = stay.climate->air();
        origins.push_back({fmt::format("Air: {}", name_of(air)),
                           in_figures(made.priors.air_factor(air), 2, "times"),
                           air == Air::breathable_bag ? "1 by definition" : "an assumption"});
        if (made.flour.path.size() > 1 && &stay != &made.flour.path.back() &&
            stay.climate->air() == made.flour.path.back().climate->air())
            break;
    }
    origins.push_back(
        {"Life at 20 °C", in_figures(made.priors.life20, 0, "days"), "keeping studies and assumptions"});
    origins.push_back({"Milling date", lot.milled_on ? iso(*lot.milled_on) : "not known",
                       lot.milled_on ? "the mill" : "0 to 30 days before the delivery assumed"});
    for (const auto& series : made.results.evidence) {
        const bool is_share = aging::maturing_test(series.property)->change == aging::ChangeKind::share;
        const double factor = is_share ? 100 : 1;
        origins.push_back(
            {fmt::format("Change of {}", traits(series.property).name),
             fmt::format("{:+.1f} {}, give or take {:.1f} (80 of 100)", factor * series.amplitude.mean,
                         is_share ? "%" : "points", factor * to_10_and_90 * series.amplitude.sd),
             is_learned && !learned.lots_of(series.property).empty() ? from
                                                                     : "published direction, size assumed"});
        if (series.follows == aging::Follows::own_rate)
            origins.push_back({fmt::format("Own rate of {}", traits(series.property).name),
                               in_figures(series.own_rate, 2, "per day at 20 °C"),
                               "one flour, Chen & Schofield 1996; the spread an assumption"});
        origins.push_back({fmt::format("Error of one test of {}", traits(series.property).name),
                           fmt::format("{:g} {}", factor * series.error, is_share ? "%" : "points"),
                           series.error == aging::maturing_test(series.property)->error
                               ? "an assumption"
                               : "the laboratory's own, by the plant's choices"});
    }
    return origins;
}

} // namespace mellowbin::app
