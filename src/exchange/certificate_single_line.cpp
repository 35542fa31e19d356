#include "core/typed_text.h"
#include "exchange/certificate_figure.h"
#include "exchange/certificate_layout.h"
#include "exchange/certificate_phrases.h"
#include "exchange/text_tokens.h"

#include <algorithm>
#include <array>

namespace mellowbin::exchange {
namespace {

/// A longer one is a sentence.
constexpr std::size_t longest_line = 200;
/// A label of more words and marks has a colon behind it, or is none.
constexpr std::size_t most_label_tokens = 10;

/// Whether what stands behind a fact's label, without a mark between, can only be its value.
bool is_clearly(LotFact fact, std::string_view text) {
    const bool has_digit = text.find_first_of("0123456789") != std::string_view::npos;
    switch (fact) {
    case LotFact::lot_number:
    case LotFact::delivery_note:
        return has_digit && text.find(' ') == std::string_view::npos;
    case LotFact::milled_on:
    case LotFact::best_before:
    case LotFact::delivered_on:
    case LotFact::certificate_date: {
        const auto kind = read_printed_day(text).kind;
        return kind != PrintedDay::Kind::none && kind != PrintedDay::Kind::missing;
    }
    case LotFact::weight:
    case LotFact::bag_weight:
        return is_bare_value(text) && has_digit;
    default:
        return false;
    }
}

} // namespace

std::optional<SingleLine> single_line(std::string_view text, LabelBook& labels) {
    if (text.size() > longest_line)
        return {};
    auto phrases = take_phrases(text);
    const auto tokens = tokens_of(phrases.rest);
    for (std::size_t first = 1; first < std::min(tokens.size(), most_label_tokens); ++first) {
        // A value has a figure in it, whatever else.
        if (phrases.rest.find_first_of("0123456789", tokens[first].begin) == std::string::npos)
            break;
        const auto label = labels.number_of(std::string_view(phrases.rest).substr(0, tokens[first - 1].end));
        const auto& read = labels.at(label);
        if (read.state != LabelState::known && read.state != LabelState::ambiguous)
            continue;
        const auto behind = phrases.rest.substr(tokens[first].begin);
        const auto meaning = meaning_from_key(read.means.front());
        if (meaning && meaning->property && tokens[first].is_number)
            return SingleLine{label, behind, phrases.basis, phrases.method, phrases.nitrogen_factor};
        if (meaning && meaning->fact && is_clearly(*meaning->fact, behind))
            return SingleLine{label, behind, "", "", ""};
    }
    return {};
}

std::string basis_of_all(std::string_view text) {
    constexpr std::array all_words{"all",        "alle",   "results", "ergebnisse", "resultats",
                                   "resultados", "values", "werte",   "valeurs",    "valores",
                                   "tous",       "toutes", "todos",   "figures"};
    if (text.size() > longest_line)
        return "";
    const auto read = take_phrases(text);
    const auto words = tokens_of(read.rest);
    const bool is_of_all = std::any_of(words.begin(), words.end(), [&](const TextToken& word) {
        return std::find(all_words.begin(), all_words.end(), word.words) != all_words.end();
    });
    return is_of_all ? read.basis : "";
}

} // namespace mellowbin::exchange
