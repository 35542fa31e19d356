#include "exchange/certificate_phrases.h"

#include "core/certificate.h"
#include "core/shipped_table.h"
#include "exchange/certificate_bases_text.h"
#include "exchange/certificate_words.h"
#include "exchange/text_tokens.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <stdexcept>
#include <vector>

namespace mellowbin::exchange {
namespace {

using Words = std::set<std::string, std::less<>>;

/// The table of words for bases, by what they mean.
struct BasisWords {
    std::map<std::string, std::string, std::less<>> phrases; ///< to "dry matter" or "as is"
    Words moisture, before;
    std::size_t longest = 0; ///< words of a phrase

    BasisWords() {
        for (const auto& row : rows_of_table(tables::certificate_bases)) {
            const std::string& means = row.cells.at(1);
            for (std::string_view words = row.cells.at(0); !words.empty();) {
                const auto end = std::min(words.find(';'), words.size());
                take(std::string(words.substr(0, end)), means, row.number);
                words.remove_prefix(std::min(end + 1, words.size()));
            }
        }
    }

private:
    void take(std::string word, const std::string& means, int line) {
        if (means == "moisture" || means == "before") {
            (means == "before" ? before : moisture).insert(std::move(word));
        } else if (means == "dry matter" || means == "as is") {
            longest =
                std::max(longest, static_cast<std::size_t>(std::count(word.begin(), word.end(), ' ')) + 1);
            phrases.emplace(std::move(word), means);
        } else {
            throw std::logic_error(fmt::format("certificate bases, line {}: \"{}\"", line, means));
        }
    }
};
const BasisWords& basis_words() {
    static const BasisWords read;
    return read;
}

const Words between{"d", "de", "of", "l"}; // the figure and the word for moisture: "14 % d'humidité"
const Words organisations{"ISO", "EN",  "DIN",   "ICC",    "AACC", "AACCI", "AOAC",
                          "NF",  "UNE", "BIPEA", "VDLUFA", "LFGB", "GAFTA", "ASBC"};
const Words of_a_method{"standard", "std",  "method", "methode",  "metodo", "no",   "nr",
                        "n",        "norm", "mod",    "modified", "part",   "teil", "approved"};
const Words named_methods{"nir", "nit", "kjeldahl", "dumas"};

struct Span {
    std::size_t begin = 0, end = 0; ///< of tokens
};

bool is_joint(const TextToken& token) {
    return token.words.size() <= 2 && (token.words == "-" || token.words == "/" || token.words == ":" ||
                                       token.words == "." || token.words == "§");
}

/// A phrase for a basis that stands at a token.
struct PhraseFound {
    Span span;
    std::string means;
};

/// The longest phrase for a basis at the token. "i. Tr.", "s/sec": marks between the letters of a short form
/// are nothing, and so is a point behind it.
std::optional<PhraseFound> phrase_at(const std::vector<TextToken>& tokens, std::size_t at) {
    const auto& known = basis_words();
    std::optional<PhraseFound> found;
    std::string read;
    std::size_t words = 0;
    for (std::size_t end = at; end < tokens.size() && words < known.longest; ++end) {
        if (is_joint(tokens[end]) && end > at)
            continue;
        read += (read.empty() ? "" : " ") + tokens[end].words;
        ++words;
        if (const auto phrase = known.phrases.find(read); phrase != known.phrases.end())
            found = PhraseFound{{at, end + 1}, phrase->second};
    }
    if (found) {
        auto& end = found->span.end;
        if (end < tokens.size() && tokens[end].words == "." && tokens[end].begin == tokens[end - 1].end)
            ++end;
    }
    return found;
}

bool is_percent(const std::vector<TextToken>& tokens, std::size_t at) {
    return at < tokens.size() && tokens[at].words == "%";
}

/// "14 % moisture", "at 14 %", "à 14 % d'humidité", "(14 %)": the number of it.
std::optional<Span> moisture_at(const std::vector<TextToken>& tokens, std::size_t at) {
    std::size_t number = at;
    const bool has_preposition = basis_words().before.contains(tokens[at].words);
    const bool has_bracket = tokens[at].words == "(" || tokens[at].words == "[";
    if (has_preposition || has_bracket)
        ++number;
    if (number >= tokens.size() || !tokens[number].is_number || !is_percent(tokens, number + 1))
        return {};
    std::size_t end = number + 2;
    if (has_bracket)
        return end < tokens.size() && (tokens[end].words == ")" || tokens[end].words == "]")
                   ? std::optional(Span{number, end})
                   : std::nullopt;
    std::size_t word = end;
    while (word < tokens.size() && (between.contains(tokens[word].words) || tokens[word].words == "'" ||
                                    tokens[word].words == "\u2019"))
        ++word;
    if (word < tokens.size() && basis_words().moisture.contains(tokens[word].words)) {
        const bool is_short = tokens[word].words == "m"; // m.b.
        end = word + 1;
        while (end < tokens.size() && (tokens[end].words == "." || tokens[end].words == "basis" ||
                                       (is_short && tokens[end].words == "b")))
            ++end;
        return Span{at, end};
    }
    return has_preposition ? std::optional(Span{at, end}) : std::nullopt;
}

class Taker {
public:
    explicit Taker(std::string_view text)
        : text_(text), tokens_(tokens_of(text)), is_taken_(tokens_.size(), false) {}

    Phrases take() {
        for (std::size_t at = 0; at < tokens_.size();)
            at = std::max(at + 1, taken_at(at));
        read_.rest = rest();
        return std::move(read_);
    }

private:
    /// Behind what was taken at the token; the token itself where nothing was.
    std::size_t taken_at(std::size_t at) {
        if (read_.nitrogen_factor.empty())
            if (const auto end = factor_at(at); end > at)
                return end;
        if (read_.method.empty())
            if (const auto end = method_at(at); end > at)
                return end;
        return read_.basis.empty() ? basis_at(at) : at;
    }

    std::size_t basis_at(std::size_t at) {
        const auto keep = [&](const Span& span, std::string basis) {
            read_.basis = std::move(basis);
            cut(span);
            return span.end;
        };
        // The first word of a label names it: "MS" there is no basis.
        const auto phrase = phrase_at(tokens_, at);
        if (phrase && (at > 0 || phrase->span.end == tokens_.size()))
            return keep(phrase->span, phrase->means);
        if (const auto moisture = moisture_at(tokens_, at)) {
            const auto number =
                std::find_if(tokens_.begin() + static_cast<std::ptrdiff_t>(moisture->begin), tokens_.end(),
                             [](const TextToken& token) { return token.is_number; });
            if (const auto basis = read_basis("", number->words + " %"))
                return keep(*moisture, in_words(*basis));
        }
        return at;
    }

    /// "N x 5.7", "Nx6,25", "N*5,7", "Faktor 5,7"
    std::size_t factor_at(std::size_t at) {
        static const Words words{"faktor", "factor", "facteur"};
        static const Words times{"x", "*", "\u00D7", "\u00B7"};
        const auto is = [&](std::size_t i, const Words& any) {
            return i < tokens_.size() && any.contains(tokens_[i].words);
        };
        std::size_t number = at;
        if (is(at, words) || is(at, Words{"nx"}))
            number = at + 1;
        else if (is(at, Words{"n"}) && is(at + 1, times))
            number = at + 2;
        if (number == at || number >= tokens_.size() || !tokens_[number].is_number)
            return at;
        read_.nitrogen_factor = tokens_[number].words;
        cut({at, number + 1});
        return number + 1;
    }

    std::size_t method_at(std::size_t at) {
        const auto name = text_.substr(tokens_[at].begin, tokens_[at].end - tokens_[at].begin);
        if (named_methods.contains(tokens_[at].words)) {
            keep_method({at, at + 1});
            return at + 1;
        }
        const bool is_law = name == "§";
        if (!is_law && !(tokens_[at].is_capital && organisations.contains(name)))
            return at;
        std::size_t end = at + 1;
        while (end < tokens_.size() && continues_method(end))
            ++end;
        while (end > at + 1 && (is_joint(tokens_[end - 1]) || of_a_method.contains(tokens_[end - 1].words)))
            --end; // "ISO no." without its number
        const bool has_number =
            std::any_of(tokens_.begin() + static_cast<std::ptrdiff_t>(at),
                        tokens_.begin() + static_cast<std::ptrdiff_t>(end), [](const TextToken& token) {
                            return token.words.find_first_of("0123456789") != std::string::npos;
                        });
        // EN, NF and the like are words, too.
        if (!has_number && name.size() < 3)
            return at;
        keep_method({at, end});
        return end;
    }

    [[nodiscard]] bool continues_method(std::size_t at) const {
        const auto& token = tokens_[at];
        const std::size_t gap = token.begin - tokens_[at - 1].end;
        if (gap > 1)
            return false;
        // "ISO 712 14 %" is a method and a figure.
        if (token.is_number && is_percent(tokens_, at + 1))
            return false;
        const bool has_digit = token.words.find_first_of("0123456789") != std::string::npos;
        const auto name = text_.substr(token.begin, token.end - token.begin);
        return is_joint(token) || (has_digit && (gap == 0 || !is_behind_number(at))) ||
               organisations.contains(name) || of_a_method.contains(token.words) ||
               named_methods.contains(token.words) || (gap == 0 && token.is_capital && name.size() == 1);
    }
    /// A number behind a number with a blank between is another one.
    [[nodiscard]] bool is_behind_number(std::size_t at) const {
        return tokens_[at - 1].words.find_first_of("0123456789") != std::string::npos;
    }

    void keep_method(Span span) {
        read_.method =
            text_.substr(tokens_[span.begin].begin, tokens_[span.end - 1].end - tokens_[span.begin].begin);
        cut(span);
    }

    void cut(Span span) {
        for (std::size_t i = span.begin; i < span.end; ++i)
            is_taken_[i] = true;
    }

    [[nodiscard]] std::string rest() const {
        std::vector<TextToken> left;
        for (std::size_t i = 0; i < tokens_.size(); ++i)
            if (!is_taken_[i])
                left.push_back(tokens_[i]);
        return text_of(std::move(left), text_);
    }

    std::string_view text_;
    std::vector<TextToken> tokens_;
    std::vector<bool> is_taken_;
    Phrases read_;
};

} // namespace

Phrases take_phrases(std::string_view text) { return Taker(text).take(); }

std::optional<std::string> basis_in_words(std::string_view text) {
    if (const auto plain = read_basis("", text); plain && plain->is_stated())
        return in_words(*plain);
    const auto read = take_phrases(text);
    return read.basis.empty() || !folded(read.rest).empty() ? std::nullopt : std::optional(read.basis);
}

} // namespace mellowbin::exchange
