#include "app/acts/retests.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "core/decimal.h"
#include "db/retest_store.h"
#include "exchange/lesson.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string results_in_words(const Certificate& results) {
    std::string words;
    for (const auto& value : results.values()) {
        const auto& kind = traits(value.property);
        words += fmt::format("{}{} {}{}{}", words.empty() ? "" : ", ", kind.name,
                             fixed(value.value, kind.decimals), kind.unit.empty() ? "" : " ", kind.unit);
    }
    return words;
}

std::string checks_in_words(const std::vector<aging::Surprise>& found) {
    std::string words;
    for (const auto& surprise : found)
        if (std::abs(surprise.standard_errors) > aging::check_from())
            words +=
                fmt::format(". Check {}: a result lies {:.1f} standard errors {} what the others predict",
                            traits(surprise.property).name, std::abs(surprise.standard_errors),
                            surprise.standard_errors < 0 ? "below" : "above");
    return words;
}

/// What the estimate says of the lot with a retest that is not yet in the book.
std::string news_of(State& state, const Lot& lot, const Retest& retest) {
    const auto made = state.estimates.evidence(state.book, lot, &retest);
    const aging::Estimate estimate(made.flour, made.priors, made.results.evidence);
    const auto before = state.estimates.outlook_today(lot.id).turns.mature_from;
    const auto after = aging::turns(estimate, state.estimates.confidence()).mature_from;
    std::string words;
    if (after && after != before)
        words =
            fmt::format("; ready on {}{}", short_day(*after), before ? ", was " + short_day(*before) : "");
    return words + checks_in_words(aging::surprises(made.flour, made.priors, made.results.evidence));
}

Refusal unknown_lot() { return {"Lot", "is not in the book", "Choose a lot from the list"}; }

} // namespace

Result<Told> carry_out(State& state, const LogRetest& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    if (!lot)
        return unknown_lot();
    auto retest = accept(intent.retest, {state.today(), *lot, state.book.places});
    if (!retest)
        return retest.refusals();
    const std::string words = fmt::format("Retest of lot {} of {}: {}", lot->code, iso(retest->taken_on),
                                          results_in_words(retest->results));
    const std::string news = news_of(state, *lot, *retest);
    Change change = state.change("log_retest", subject_of(*lot), words);
    const auto id = RetestStore(*state.connection).log(change, *retest);
    if (!id)
        return change.refuse(id.refusals());
    change.commit();
    ++state.retests_logged;
    return Told{
        words + news, Touched::nothing, "Undo: withdraw the retest", {WithdrawRetest{*id, "taken back"}}};
}

Result<Told> carry_out(State& state, const WithdrawRetest& intent) {
    const auto at = std::find_if(state.book.retests.begin(), state.book.retests.end(),
                                 [&](const Retest& retest) { return retest.id == intent.retest; });
    if (at == state.book.retests.end())
        return Refusal{"Retest", "is not in the book", "Choose one from the list"};
    if (intent.reason.empty())
        return Refusal{"Reason", "is empty", "Say why the retest does not stand"};
    const Lot* lot = state.book.lot(at->lot);
    const std::string words = fmt::format("Retest of lot {} of {} withdrawn: {}", lot ? lot->code : "?",
                                          iso(at->taken_on), intent.reason);
    Change change = state.change("withdraw_retest", lot ? subject_of(*lot) : Subject("lot ?"), words);
    const auto done = RetestStore(*state.connection).withdraw(change, intent.retest, intent.reason);
    if (!done)
        return change.refuse(done.refusals());
    change.commit();
    return Told{words};
}

} // namespace mellowbin::app
