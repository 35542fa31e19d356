#include "app/models/lot_standing.h"

#include "app/book/book.h"
#include "core/lot_words.h"

#include <algorithm>

namespace mellowbin::app {
namespace {

/// The day on which the last flour of the lot went back to the mill, in UTC; nothing: it did not, or came
/// back.
std::optional<Day> sent_back(const Book& book, LotId lot) {
    const auto movements = book.movements_of(lot);
    std::optional<Day> last;
    for (const Movement* movement : movements) {
        const bool is_countered = std::any_of(movements.begin(), movements.end(), [&](const Movement* other) {
            return other->counters == movement->id;
        });
        if (movement->kind == MovementKind::to_mill && !movement->counters && !is_countered)
            last = date::floor<Days>(movement->at);
    }
    return last;
}

} // namespace

LotStanding standing_of(const Book& book, const Lot& lot, Day today) {
    LotStanding standing{standing_by_concession(lot, today), stands_on_hold(lot, today), {}};
    if (standing.is_on_hold)
        standing.since = lot.concession->until + Days{1};
    if (lot.state != LotState::rejected || book.stock.total(lot.id) > Grams{0})
        return standing;
    standing.since = sent_back(book, lot.id);
    if (standing.since)
        standing.words = returned_to_the_mill;
    return standing;
}

std::string name_of(LotState state, const LotStanding& standing) {
    auto words = in_words(state, standing);
    if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
        words.front() = static_cast<char>(words.front() - 'a' + 'A');
    return standing.words.empty() ? std::string(mellowbin::name_of(state)) : words;
}

std::string in_words(LotState state, const LotStanding& standing) {
    return standing.words.empty() ? std::string(mellowbin::in_words(state)) : standing.words;
}

} // namespace mellowbin::app
