#include "app/models/lot_movements.h"

#include "app/book/book.h"
#include "app/book/station.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string movement_in_words(const Book& book, const Movement& m) {
    std::string words = fmt::format("{}: {} kg", in_words(m.kind), fixed(to_kilograms(m.mass).value(), 1));
    if (m.from)
        words += " from " + book.name(*m.from);
    if (m.to)
        words += (m.from ? " to " : " into ") + book.name(*m.to);
    if (m.run)
        words += " for run " + book.code_of(*m.run);
    if (m.counters)
        words += fmt::format(" (takes back no. {})", m.counters->number());
    if (!m.note.empty())
        words += " — " + m.note;
    return words;
}

} // namespace

std::vector<MovementRow> movement_rows(const Station& s, LotId lot) {
    const Book& book = s.book;
    const auto movements = book.movements_of(lot);
    std::vector<MovementRow> rows;
    for (const Movement* m : movements) {
        const bool is_countered = std::any_of(movements.begin(), movements.end(), [&](const Movement* other) {
            return other->counters == m->id;
        });
        const bool can_counter = !is_countered && !m->counters && m->kind != MovementKind::receipt;
        rows.push_back({m->id, s.setup.clock.in_words(m->at, s.today()), m->who, movement_in_words(book, *m),
                        can_counter});
    }
    return rows;
}

} // namespace mellowbin::app
