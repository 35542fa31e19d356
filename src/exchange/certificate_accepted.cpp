#include "exchange/certificate_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace mellowbin::exchange {
namespace {

/// Where the field of a lot stands on the paper: by the name that a refusal has.
using Places = std::map<std::string, std::string>;

std::vector<Places> places_in(const CertificateReading& reading) {
    std::vector<Places> places(reading.lots.size());
    for (const auto& value : reading.values)
        for (std::size_t i = value.lot == every_lot ? 0 : value.lot; i < places.size(); ++i) {
            places[i].emplace(value.name, value.where);
            if (value.lot != every_lot)
                break;
        }
    return places;
}

Refusals by_place(const Refusals& refusals, const Places& places, const std::string& lot) {
    Refusals named;
    for (auto refusal : refusals) {
        const auto at = places.find(refusal.field);
        const auto& where = at == places.end() ? lot : at->second;
        refusal.field = refusal.field.empty() ? where : fmt::format("{}, {}", where, refusal.field);
        named.push_back(std::move(refusal));
    }
    return named;
}

/// A field that is refused already is left empty: it is not refused for that, too.
Refusals not_said_yet(Refusals more, const Refusals& said) {
    std::erase_if(more, [&](const Refusal& refusal) {
        const auto name = refusal.field.substr(refusal.field.rfind(", ") + 2);
        return std::any_of(said.begin(), said.end(),
                           [&](const Refusal& earlier) { return earlier.field.ends_with(name); });
    });
    return more;
}

Refusals open_questions(const CertificateReading& reading, const CertificateLot& lot) {
    Refusals open;
    const std::set<std::string> waits(lot.questions.begin(), lot.questions.end());
    if (waits.empty())
        return open;
    for (const auto& question : reading.questions)
        if (waits.contains(question.key))
            open.push_back({fmt::format("{}, {}", question.where, question.source_label), question.words,
                            "Answer it, or leave the lot out"});
    return open;
}

} // namespace

CertificateOutcome accept_reading(const CertificateReading& reading, const IntakeContext& context,
                                  OnRefusedLine policy) {
    CertificateOutcome outcome{{}, reading.troubles};
    if (!reading.troubles.empty())
        return outcome;
    const auto places = places_in(reading);
    for (std::size_t i = 0; i < reading.lots.size(); ++i) {
        const auto& lot = reading.lots[i];
        Refusals reasons = lot.refusals;
        append(reasons, open_questions(reading, lot));
        auto accepted = accept(lot.draft, context);
        // What is asked leaves fields empty; the core's word on them comes when they are answered.
        if (!accepted && lot.questions.empty())
            append(reasons, not_said_yet(by_place(accepted.refusals(), places[i], lot.where), reasons));
        if (reasons.empty())
            outcome.lots.push_back({i, *std::move(accepted)});
        else
            append(outcome.refused, reasons);
    }
    if (policy == OnRefusedLine::take_nothing && !outcome.refused.empty())
        outcome.lots.clear();
    return outcome;
}

} // namespace mellowbin::exchange
