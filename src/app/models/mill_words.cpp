#include "app/models/mill_words.h"

#include "app/book/clock_words.h"
#include "app/book/station.h"
#include "exchange/certificate_mapping.h"
#include "exchange/certificate_words.h"

#include <fmt/format.h>

namespace mellowbin::app {

std::string name_of(const MillWord& word) {
    if (word.kind == MillWordKind::dates)
        return "Days";
    if (word.kind == MillWordKind::decimals)
        return "Decimals";
    return word.shown.empty() ? word.word : word.shown;
}

std::string meaning_in_words(const MillWord& word) {
    using namespace exchange;
    switch (word.kind) {
    case MillWordKind::label:
        if (word.means == left_out_key)
            return "Left out";
        if (const auto meaning = meaning_from_key(word.means))
            return meaning->name;
        return word.means;
    case MillWordKind::mill:
    case MillWordKind::flour:
    case MillWordKind::place:
        return word.means;
    case MillWordKind::dates:
        return date_order_from_key(word.means) == DateOrder::day_first ? "the day before the month"
                                                                       : "the month before the day";
    case MillWordKind::decimals:
        break;
    }
    return decimal_mark_from_key(word.means) == DecimalMark::comma ? "after a comma" : "after a point";
}

std::string in_words(const MillWord& word) {
    auto words = fmt::format("{}: {}", name_of(word), meaning_in_words(word));
    for (const auto* said : {&word.unit, &word.basis, &word.method})
        if (!said->empty())
            words += ", " + *said;
    if (!word.nitrogen_factor.empty())
        words += ", N x " + word.nitrogen_factor;
    return words;
}

std::vector<MillWordRow> make_mill_words(const Station& s) {
    std::vector<MillWordRow> rows;
    for (const auto& word : s.book.mill_words)
        rows.push_back(
            {word, name_of(word), meaning_in_words(word),
             fmt::format("{}, {}", time_in_words(s.setup.clock, word.since, s.today()), word.who)});
    return rows;
}

} // namespace mellowbin::app
