#include "app/book/mill_words.h"

#include "app/book/book.h"

#include <algorithm>

namespace mellowbin::app {
namespace {

MillWord word_of(MillId mill, const exchange::LabelMeaning& label) {
    MillWord word;
    word.mill = mill;
    word.kind = MillWordKind::label;
    word.word = label.label;
    word.shown = label.shown;
    word.means = label.means;
    word.unit = label.unit;
    word.basis = label.basis;
    word.method = label.method;
    word.nitrogen_factor = label.nitrogen_factor;
    return word;
}

MillWord word_of(MillId mill, MillWordKind kind, std::string_view means) {
    MillWord word;
    word.mill = mill;
    word.kind = kind;
    word.means = means;
    return word;
}

/// Names have the lot fact's key for their kind. What is none, or says nothing, is no word.
std::vector<MillWord> words_of(const exchange::CertificateMapping& mapping, MillId mill) {
    std::vector<MillWord> words;
    for (const auto& label : mapping.labels)
        if (!label.label.empty() && !label.means.empty())
            words.push_back(word_of(mill, label));
    for (const auto& name : mapping.names) {
        const auto kind = mill_word_kind_from_key(name.field);
        if (!kind || name.name.empty() || name.means.empty())
            continue;
        auto word = word_of(mill, *kind, name.means);
        word.word = name.name;
        word.shown = name.shown;
        words.push_back(std::move(word));
    }
    if (mapping.dates != exchange::DateOrder::not_known)
        words.push_back(word_of(mill, MillWordKind::dates, key_of(mapping.dates)));
    if (mapping.decimals != exchange::DecimalMark::not_known)
        words.push_back(word_of(mill, MillWordKind::decimals, key_of(mapping.decimals)));
    return words;
}

template <class Record> bool has_name(const std::vector<Record>& records, const std::string& name) {
    return std::any_of(records.begin(), records.end(),
                       [&](const Record& record) { return record.name == name; });
}

/// The plant still has what the name means.
bool is_there(const Book& book, const MillWord& word) {
    if (word.kind == MillWordKind::mill)
        return has_name(book.mills, word.means);
    return word.kind == MillWordKind::flour ? has_name(book.flours, word.means)
                                            : has_name(book.places, word.means);
}

} // namespace

exchange::CertificateMapping mapping_of(const Book& book, MillId mill) {
    exchange::CertificateMapping mapping;
    for (const auto& word : book.mill_words) {
        if (word.mill != mill)
            continue;
        switch (word.kind) {
        case MillWordKind::label:
            mapping.labels.push_back({word.word, word.shown, word.means, word.unit, word.basis, word.method,
                                      word.nitrogen_factor});
            break;
        case MillWordKind::mill:
        case MillWordKind::flour:
        case MillWordKind::place:
            if (is_there(book, word)) // one that was renamed is asked about again
                mapping.names.push_back({std::string(key_of(word.kind)), word.word, word.shown, word.means});
            break;
        case MillWordKind::dates:
            mapping.dates = exchange::date_order_from_key(word.means);
            break;
        case MillWordKind::decimals:
            mapping.decimals = exchange::decimal_mark_from_key(word.means);
            break;
        }
    }
    return mapping;
}

const MillWord* word_in(const Book& book, const MillWord& word) {
    const auto at = std::find_if(book.mill_words.begin(), book.mill_words.end(),
                                 [&](const MillWord& one) { return is_same_word(one, word); });
    return at == book.mill_words.end() ? nullptr : &*at;
}

std::vector<MillWord> learned_from(const exchange::CertificateMapping& mapping, const Book& book,
                                   MillId mill) {
    auto words = words_of(mapping, mill);
    std::erase_if(words, [&](const MillWord& word) {
        const auto* known = word_in(book, word);
        return known && means_same(*known, word);
    });
    return words;
}

} // namespace mellowbin::app
