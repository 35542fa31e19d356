#include "app/models/lot_history.h"

#include "app/book/station.h"
#include "db/journal_store.h"

#include <fmt/format.h>

#include <optional>
#include <string>

namespace mellowbin::app {
namespace {

std::optional<LotState> judged_to(const JournalLine& line) {
    if (line.intent == "release_lot")
        return LotState::released;
    if (line.intent == "hold_lot")
        return LotState::held;
    if (line.intent == "reject_lot")
        return LotState::rejected;
    return {};
}

/// Older books say "Lot W24-118: Awaiting judgement -> Held: wet".
std::string as_sentence(const JournalLine& line) {
    constexpr std::string_view colon = ": ";
    const auto to = judged_to(line);
    const auto arrow = line.words.find(" -> ");
    const auto head = line.words.find(colon);
    if (!to || arrow == std::string::npos || head > arrow)
        return line.words;
    const auto reason = line.words.find(colon, arrow);
    return fmt::format("{} {}{}", line.words.substr(0, head), what_happened(*to),
                       reason == std::string::npos ? "" : line.words.substr(reason));
}

} // namespace

std::string_view what_happened(LotState to) {
    switch (to) {
    case LotState::released:
        return "was released";
    case LotState::held:
        return "was put on hold";
    case LotState::rejected:
        return "was rejected";
    case LotState::awaiting_judgement:
        return "was put in quarantine";
    case LotState::used_up:
        return "was used up";
    }
    return "was judged";
}

std::vector<JournalRow> lot_history(const Station& s, LotId lot) {
    std::vector<JournalRow> rows;
    for (const auto& line : JournalStore(*s.connection).about(record_of(lot)))
        rows.push_back({line.id, s.setup.clock.in_words(line.at, s.today()), line.who, line.intent,
                        line.subject, as_sentence(line)});
    return rows;
}

} // namespace mellowbin::app
