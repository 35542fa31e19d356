#include "app/models/lot_verdict.h"

#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

using Follows = LotVerdict::Follows;
using Weight = Finding::Weight;

/// "Sun 15 Nov", with the year where it is not today's.
std::string day_near(Day day, Day today) {
    const bool is_this_year = date::year_month_day{day}.year() == date::year_month_day{today}.year();
    return short_day(day) + (is_this_year ? "" : date::format(" %Y", day));
}

bool fails(const CheckedWindow& checked) {
    return checked.judgement.verdict == Verdict::below || checked.judgement.verdict == Verdict::above;
}

std::string name_in_a_sentence(Property property) {
    std::string name(traits(property).name);
    if (!name.empty() && name[0] >= 'A' && name[0] <= 'Z')
        name[0] = static_cast<char>(name[0] - 'A' + 'a');
    return name;
}

std::string value_of(const CheckedWindow& checked) {
    const auto& kind = traits(checked.judgement.window.property);
    return fmt::format("{} {}", fixed(checked.judgement.value.value_or(0), kind.decimals), kind.unit);
}

/// "under 250 s"
std::string miss_of(const CheckedWindow& checked) {
    const auto& kind = traits(checked.judgement.window.property);
    const bool is_below = checked.judgement.verdict == Verdict::below;
    return fmt::format("{} {} {}", is_below ? "under" : "over",
                       fixed((is_below ? checked.low : checked.high).value_or(0), kind.decimals), kind.unit);
}

/// The plant's newest figure of a property, and when it was taken.
struct Own {
    const CheckedWindow* checked = nullptr;
    Day taken_on;
};

Own own_of(const LotSheet& sheet, Property property) {
    for (const auto& retest : sheet.retests)
        for (const auto& checked : retest.windows)
            if (checked.judgement.window.property == property && checked.judgement.value)
                return {&checked, retest.taken_on};
    return {};
}

void add(std::string& words, const std::string& sentence) {
    if (!sentence.empty())
        words += (words.empty() ? "" : " ") + sentence;
}

/// What of one property fails by the mill or by the plant; empty: neither.
std::string failure_of(const LotSheet& sheet, const CheckedWindow& mill, Day today) {
    const auto property = mill.judgement.window.property;
    const Own own = own_of(sheet, property);
    const bool own_fails = own.checked && fails(*own.checked);
    if (!fails(mill) && !own_fails)
        return {};
    if (!fails(mill))
        return fmt::format("Our own {} of {}, {}, is {}.", name_in_a_sentence(property),
                           day_near(own.taken_on, today), value_of(*own.checked), miss_of(*own.checked));
    auto words =
        fmt::format("The mill's {}, {}, is {}.", name_in_a_sentence(property), value_of(mill), miss_of(mill));
    if (own.checked)
        words += fmt::format(" Our own of {}, {}, is {}.", day_near(own.taken_on, today),
                             value_of(*own.checked), own_fails ? miss_of(*own.checked) : "inside");
    return words;
}

/// How results stand, by the newest figure of each property.
struct Results {
    std::string failing;     ///< sentences
    std::string not_known;   ///< names of what is asked for and was not reported, or cannot be compared
    bool still_fail = false; ///< by the newest figure
    bool are_any = false;
};

Results results_of(const LotSheet& sheet, Day today) {
    Results results;
    for (const auto& mill : sheet.windows) {
        const auto property = mill.judgement.window.property;
        const Own own = own_of(sheet, property);
        const auto& newest = own.checked ? *own.checked : mill;
        add(results.failing, failure_of(sheet, mill, today));
        results.still_fail |= fails(newest);
        if (newest.judgement.value && newest.judgement.verdict != Verdict::not_comparable)
            results.are_any = true;
        else
            results.not_known += (results.not_known.empty() ? "" : ", ") + name_in_a_sentence(property);
    }
    return results;
}

std::string door_against(const LotSheet& sheet) {
    std::string words;
    for (const auto& finding : sheet.door)
        if (finding.weight == Weight::against)
            add(words, fmt::format("At the door: {}.", finding.words));
    return words;
}

/// Which of the plant's own results are not the mill's, beyond chance and aging.
std::string contradictions(const LotSheet& sheet, Day today) {
    std::string words;
    for (const auto& row : sheet.agreements)
        if (row.verdict == ComparedResult::Verdict::contradicts && !row.aging_explains)
            add(words, fmt::format("Our own {} of {} contradicts the certificate.",
                                   name_in_a_sentence(row.property), day_near(row.taken_on, today)));
    return words;
}

/// What was found of it, for the person who judges it.
std::string findings_of(const LotSheet& sheet, const Results& results, Day today) {
    std::string words = results.failing;
    if (words.empty() && results.are_any)
        words = "What was measured is inside the specification.";
    if (!results.not_known.empty())
        add(words, fmt::format("Not reported: {}.", results.not_known));
    add(words, contradictions(sheet, today));
    add(words, door_against(sheet));
    return words;
}

std::string reason_of(const LotSheet& sheet) {
    if (sheet.state_reason.empty())
        return {};
    return fmt::format("{}{}{}.", sheet.state_by, sheet.state_by.empty() ? "" : ": ", sheet.state_reason);
}

LotVerdict of_conceded(const LotSheet& sheet, const Results& results, Day today) {
    const auto& conceded = *sheet.concession;
    auto words = fmt::format("{} concedes for {}: {}.", conceded.by, conceded.products, conceded.deviation);
    if (sheet.row.standing.is_on_hold)
        return {Weight::against, fmt::format("Concession ended on {}", day_near(conceded.until, today)),
                "It stands as on hold: nothing of it goes into dough until quality judges it anew. " + words,
                Follows::judge_anew};
    add(words, results.failing);
    if (sheet.row.readiness == Readiness::past_best)
        add(words, "By the estimate it is past its best.");
    return {Weight::mind, fmt::format("Released with a concession until {}", day_near(conceded.until, today)),
            words, Follows::nothing};
}

LotVerdict of_released(const LotSheet& sheet, const Results& results, Day today) {
    const auto& row = sheet.row;
    if (sheet.is_over && sheet.last_day)
        return {Weight::against,
                fmt::format("{} passed on {}",
                            sheet.last_day == sheet.best_before ? "Best before" : "Its last day",
                            day_near(*sheet.last_day, today)),
                "It goes into no dough, unless quality says until when it may be used.", Follows::extend};
    if (sheet.concession)
        return of_conceded(sheet, results, today);
    if (row.readiness == Readiness::past_best)
        return {Weight::mind,
                row.past_best_on
                    ? fmt::format("Released, past its best since {}", day_near(*row.past_best_on, today))
                    : std::string("Released, past its best"),
                "By the estimate its gluten weakens from now on; a retest says how it stands.",
                Follows::retest};
    if (results.still_fail)
        return {Weight::mind, fmt::format("Released on {} all the same", day_near(sheet.state_since, today)),
                results.failing, Follows::nothing};
    return {Weight::well, fmt::format("Released on {}", day_near(sheet.state_since, today)), results.failing,
            Follows::nothing};
}

} // namespace

LotVerdict lot_verdict(const LotSheet& sheet, Day today) {
    const auto results = results_of(sheet, today);
    const bool has_against = results.still_fail || !door_against(sheet).empty();
    const auto since = day_near(sheet.state_since, today);
    LotVerdict verdict;
    switch (sheet.row.state) {
    case LotState::awaiting_judgement:
        verdict = {Weight::mind, "In quarantine since " + since, findings_of(sheet, results, today),
                   has_against ? Follows::hold : Follows::release};
        break;
    case LotState::held:
        verdict = {Weight::against, "On hold since " + since, findings_of(sheet, results, today),
                   results.still_fail ? Follows::retest : Follows::release};
        break;
    case LotState::rejected:
        verdict = {Weight::against, "Rejected on " + since, results.failing,
                   sheet.row.stock_kg > 0 ? Follows::write_off : Follows::nothing};
        if (const auto& standing = sheet.row.standing; standing.since)
            verdict.words =
                fmt::format("{} on {}", name_of(sheet.row.state, standing), day_near(*standing.since, today));
        break;
    case LotState::used_up:
        verdict = {Weight::well, "Used up on " + since, {}, Follows::nothing};
        break;
    case LotState::released:
        verdict = of_released(sheet, results, today);
        break;
    }
    std::string reasons = sheet.row.state == LotState::awaiting_judgement ? std::string() : reason_of(sheet);
    add(reasons, verdict.reasons);
    verdict.reasons = reasons;
    return verdict;
}

} // namespace mellowbin::app
