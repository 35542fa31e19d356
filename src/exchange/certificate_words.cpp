#include "exchange/certificate_words.h"

#include "core/names.h"
#include "core/shipped_table.h"
#include "core/typed_text.h"
#include "exchange/certificate_words_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <stdexcept>

namespace mellowbin::exchange {
namespace {

using enum LotFact;

/// In the order of LotFact; the names are those that accept() refuses a field by.
constexpr std::array facts{
    Named<LotFact>{lot_number, "lot_number", "Lot number"},
    Named<LotFact>{mill, "mill", "Mill"},
    Named<LotFact>{flour, "flour", "Flour"},
    Named<LotFact>{place, "place", "Place"},
    Named<LotFact>{delivery_note, "delivery_note", "Delivery note"},
    Named<LotFact>{milled_on, "milled_on", "Milled on"},
    Named<LotFact>{delivered_on, "delivered_on", "Delivered on"},
    Named<LotFact>{best_before, "best_before", "Best before"},
    Named<LotFact>{certificate_date, "certificate_date", "Certificate date"},
    Named<LotFact>{weight, "weight", "Weight"},
    Named<LotFact>{bag_weight, "bag_weight", "Weight of a bag"},
    Named<LotFact>{flour_temperature, "flour_temperature", "Flour temperature"},
    Named<LotFact>{price_per_tonne, "price_per_tonne", "Price per tonne"},
};
constexpr std::array all_facts{lot_number,       mill,      flour,        place,
                               delivery_note,    milled_on, delivered_on, best_before,
                               certificate_date, weight,    bag_weight,   flour_temperature,
                               price_per_tonne};

constexpr std::string_view head_mark = "head_";
constexpr std::array head_names{"property", "value", "unit", "basis", "method", "specification"};

std::vector<std::string> parts(std::string_view text, char parted_by) {
    std::vector<std::string> all;
    while (!text.empty()) {
        const auto end = std::min(text.find(parted_by), text.size());
        if (end > 0)
            all.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return all;
}

std::size_t words_in(std::string_view text) {
    return text.empty() ? 0 : 1 + static_cast<std::size_t>(std::count(text.begin(), text.end(), ' '));
}

/// The table, sorted by what its words are for.
struct Vocabulary {
    std::vector<CertificateWord> words;
    std::map<std::string, const CertificateWord*, std::less<>> by_words;
    std::map<std::string, bool, std::less<>> beside; ///< words without a meaning; true: of the grain
    std::map<std::string, TableHead, std::less<>> heads;
    std::vector<std::string> summaries;
    std::size_t longest = 0; ///< words in a row

    Vocabulary() {
        for (const auto& row : rows_of_table(tables::certificate_words))
            for (const auto& word : parts(row.cells.at(0), ';'))
                take(row, folded(word));
        for (const auto& word : words)
            if (!by_words.emplace(word.words, &word).second)
                throw std::logic_error(fmt::format("certificate words: \"{}\" stands twice", word.words));
    }

private:
    void take(const TableRow& row, std::string word) {
        const std::string& means = row.cells.at(2);
        longest = std::max(longest, words_in(word));
        if (means == "filler" || means == "not_flour") {
            beside.emplace(std::move(word), means == "not_flour");
        } else if (means == "summary") {
            summaries.push_back(std::move(word));
        } else if (means.starts_with(head_mark)) {
            const auto at = std::find(head_names.begin(), head_names.end(), means.substr(head_mark.size()));
            if (at == head_names.end())
                refuse(row);
            heads.emplace(std::move(word), static_cast<TableHead>(at - head_names.begin()));
        } else {
            CertificateWord read{std::move(word), row.cells.at(1), parts(means, ' '), row.cells.at(3)};
            for (const auto& key : read.means)
                if (key != left_out_key && !meaning_from_key(key))
                    refuse(row);
            words.push_back(std::move(read));
        }
    }
    [[noreturn]] static void refuse(const TableRow& row) {
        throw std::logic_error(
            fmt::format("certificate words, line {}: \"{}\" is no meaning", row.number, row.cells.at(2)));
    }
};

const Vocabulary& vocabulary() {
    static const Vocabulary read;
    return read;
}

std::vector<Meaning> made_meanings() {
    std::vector<Meaning> all;
    for (const auto& property : all_properties())
        all.push_back({std::string(property.key), std::string(property.name), property.property, {}, {}});
    for (const auto fact : all_facts)
        all.push_back({std::string(key_of(fact)), std::string(name_of(fact)), {}, fact, {}});
    for (const auto substance : all_substances())
        all.push_back({std::string(key_of(substance)), std::string(name_of(substance)), {}, {}, substance});
    return all;
}

} // namespace

std::span<const LotFact> all_lot_facts() { return all_facts; }
std::string_view key_of(LotFact fact) { return row_of(facts, fact).key; }
std::string_view name_of(LotFact fact) { return row_of(facts, fact).name; }

std::span<const Meaning> all_meanings() {
    static const auto all = made_meanings();
    return all;
}

std::optional<Meaning> meaning_from_key(std::string_view key) {
    for (const auto& meaning : all_meanings())
        if (meaning.key == key)
            return meaning;
    return {};
}

std::span<const CertificateWord> certificate_words() { return vocabulary().words; }

std::optional<TableHead> table_head(std::string_view text) {
    const auto at = vocabulary().heads.find(folded(text));
    if (at == vocabulary().heads.end())
        return {};
    return at->second;
}

bool is_summary(std::string_view text) {
    const auto words = folded(text);
    const auto& all = vocabulary().summaries;
    return std::find(all.begin(), all.end(), words) != all.end();
}

NameRead read_name(std::string_view name) {
    const auto& known = vocabulary();
    const auto words = parts(folded(name), ' ');
    NameRead read;
    read.is_whole = true;
    std::vector<std::string> means;
    const auto add = [&](const std::vector<std::string>& more) {
        for (const auto& key : more)
            if (std::find(means.begin(), means.end(), key) == means.end())
                means.push_back(key);
    };
    for (std::size_t at = 0; at < words.size();) {
        std::size_t took = 0;
        for (std::size_t count = std::min(known.longest, words.size() - at); count > 0 && took == 0;
             --count) {
            const auto phrase =
                fmt::format("{}", fmt::join(words.begin() + static_cast<std::ptrdiff_t>(at),
                                            words.begin() + static_cast<std::ptrdiff_t>(at + count), " "));
            if (const auto word = known.by_words.find(phrase); word != known.by_words.end()) {
                add(word->second->means);
                took = count;
            } else if (const auto beside = known.beside.find(phrase); beside != known.beside.end()) {
                read.is_of_grain = read.is_of_grain || beside->second;
                took = count;
            }
        }
        read.is_whole = read.is_whole && took > 0;
        at += std::max<std::size_t>(took, 1);
    }
    read.means = std::move(means);
    return read;
}

} // namespace mellowbin::exchange
