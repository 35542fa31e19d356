#include "exchange/certificate_label.h"

#include "core/typed_text.h"
#include "exchange/certificate_head.h"
#include "exchange/certificate_phrases.h"
#include "exchange/text_tokens.h"

#include <algorithm>
#include <array>
#include <optional>

namespace mellowbin::exchange {
namespace {

/// A longer text is no label, however many words of one it holds.
constexpr std::size_t longest_label = 200;
/// More words beside a known one make a sentence of it.
constexpr std::size_t most_words = 8;

struct OwnField {
    std::string LotDraft::*field;
    LotFact fact;
};
constexpr std::array own_fields{
    OwnField{&LotDraft::code, LotFact::lot_number},
    OwnField{&LotDraft::mill, LotFact::mill},
    OwnField{&LotDraft::flour, LotFact::flour},
    OwnField{&LotDraft::place, LotFact::place},
    OwnField{&LotDraft::delivery_note, LotFact::delivery_note},
    OwnField{&LotDraft::milled_on, LotFact::milled_on},
    OwnField{&LotDraft::delivered_on, LotFact::delivered_on},
    OwnField{&LotDraft::best_before, LotFact::best_before},
    OwnField{&LotDraft::certified_on, LotFact::certificate_date},
    OwnField{&LotDraft::mass_kg, LotFact::weight},
    OwnField{&LotDraft::bag_kg, LotFact::bag_weight},
    OwnField{&LotDraft::delivered_c, LotFact::flour_temperature},
    OwnField{&LotDraft::price_per_tonne, LotFact::price_per_tonne},
};

bool is_mass(LotFact fact) { return fact == LotFact::weight || fact == LotFact::bag_weight; }

/// A head of the program's own files says all that is to be said.
bool take_own(std::string_view text, CertificateLabel& label) {
    const auto head = read_certificate_head(text);
    if (!head)
        return false;
    if (const auto* plain = std::get_if<FieldColumn>(&*head)) {
        const auto own = std::find_if(own_fields.begin(), own_fields.end(),
                                      [&](const OwnField& f) { return f.field == plain->field; });
        if (own == own_fields.end())
            return false;
        label.means = {std::string(key_of(own->fact))};
        label.unit = is_mass(own->fact) ? "kg" : std::string(trimmed(plain->unit));
    } else if (const auto* figure = std::get_if<FigureColumn>(&*head)) {
        const auto& kind = traits(figure->figure.property);
        label.means = {std::string(kind.key)};
        label.unit = kind.unit;
        label.basis = figure->figure.basis;
        label.method = figure->figure.method;
        label.nitrogen_factor = figure->figure.nitrogen_factor;
    } else if (const auto* addition = std::get_if<AdditionColumn>(&*head)) {
        label.means = {std::string(key_of(addition->substance))};
        label.unit = "mg/kg";
    } else {
        return false;
    }
    label.state = LabelState::known;
    label.is_own = true;
    return true;
}

/// The name without what stands in brackets and is a unit, or ends it and is one.
std::string without_unit(std::string_view text, std::string& unit) {
    const auto tokens = tokens_of(text);
    const auto text_between = [&](std::size_t first, std::size_t behind) {
        return text.substr(tokens[first].begin, tokens[behind - 1].end - tokens[first].begin);
    };
    const auto without = [&](std::size_t first, std::size_t behind) {
        auto left = tokens;
        left.erase(left.begin() + static_cast<std::ptrdiff_t>(first),
                   left.begin() + static_cast<std::ptrdiff_t>(behind));
        return text_of(std::move(left), text);
    };
    for (std::size_t open = 0; open < tokens.size(); ++open) {
        if (tokens[open].words != "(" && tokens[open].words != "[")
            continue;
        std::size_t close = open + 1;
        while (close < tokens.size() && tokens[close].words != ")" && tokens[close].words != "]")
            ++close;
        if (close > open + 1 && close < tokens.size() &&
            !units_named(text_between(open + 1, close)).empty()) {
            unit = text_between(open + 1, close);
            return without(open, close + 1);
        }
    }
    // "Vitamin C" ends in a unit's letter and is a name as a whole; "Ash %" is not only that.
    const bool is_name = read_name(text).is_whole && !read_name(text).means.empty();
    for (std::size_t first = 1; first < tokens.size(); ++first) {
        const auto end = text_between(first, tokens.size());
        if (units_named(end).empty() || (is_name && !folded(end).empty()))
            continue;
        unit = end;
        return without(first, tokens.size());
    }
    return std::string(text);
}

void take_words(std::string_view text, CertificateLabel& label) {
    auto phrases = take_phrases(text);
    label.basis = std::move(phrases.basis);
    label.method = std::move(phrases.method);
    label.nitrogen_factor = std::move(phrases.nitrogen_factor);
    const auto name = read_name(without_unit(phrases.rest, label.unit));
    label.means = name.means;
    const bool is_left_out = name.means.size() == 1 && name.means.front() == left_out_key;
    const auto words =
        static_cast<std::size_t>(std::count(label.folded.begin(), label.folded.end(), ' ')) + 1;
    if (name.means.empty() || (!name.is_whole && words > most_words))
        label.state = LabelState::not_known;
    else if (is_left_out)
        label.state = name.is_whole ? LabelState::left_out : LabelState::not_known;
    else if (name.is_of_grain)
        label.state = LabelState::of_grain;
    else if (!name.is_whole)
        label.state = LabelState::partial;
    else
        label.state = name.means.size() == 1 ? LabelState::known : LabelState::ambiguous;
}

void take_learned(const LabelMeaning& learned, CertificateLabel& label) {
    label.is_learned = true;
    if (learned.means == left_out_key) {
        label.state = LabelState::left_out;
        label.means = {std::string(left_out_key)};
    } else if (meaning_from_key(learned.means)) {
        label.state = LabelState::known;
        label.means = {learned.means};
    }
}

} // namespace

CertificateLabel read_label(std::string_view text, const CertificateMapping& known) {
    CertificateLabel label;
    label.text = trimmed(text);
    if (label.text.empty() || label.text.size() > longest_label)
        return label;
    label.folded = folded(text);
    if (!take_own(label.text, label))
        take_words(label.text, label);
    if (const auto* learned = label_in(known, label.folded))
        take_learned(*learned, label);
    return label;
}

std::size_t LabelBook::number_of(std::string_view text) {
    if (text.size() > longest_label)
        text = {}; // none, as no text is
    if (const auto at = numbers_.find(text); at != numbers_.end())
        return at->second;
    labels_.push_back(read_label(text, known_));
    numbers_.emplace(std::string(text), labels_.size() - 1);
    return labels_.size() - 1;
}

bool says_what(const CertificateLabel& label) {
    return label.state == LabelState::known || label.state == LabelState::ambiguous ||
           label.state == LabelState::partial;
}

} // namespace mellowbin::exchange
