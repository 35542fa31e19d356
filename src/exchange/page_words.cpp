#include "exchange/page_words.h"

#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>

namespace mellowbin::exchange {
namespace {

constexpr std::string_view heads =
    "level\tpage_num\tpar_num\tblock_num\tline_num\tword_num\tleft\ttop\twidth\theight\tconf\ttext";
constexpr std::size_t columns = 12;
constexpr std::string_view word_level = "5"; // others are of pages, blocks and lines

/// A gap as wide parts fields, in heights of a word's box; the blank between words is some 0.25 of it (a
/// fourth to a third of the letters' size, which is some 0.85 of the box).
constexpr double field_gap = 0.33;
/// Less than this is no blank at all: a raised figure behind a word.
constexpr double no_gap = 0.08;
/// Words whose middles lie as near, in heights, are of one line: raised and lowered figures, too.
constexpr double line_gap = 0.4;
/// Wider or higher is no page; it is beyond what PDF may have (14,400 points, ISO 32000-1, annex C).
constexpr double largest_page = 20'000;

struct Word {
    std::size_t page = 0;
    double left = 0, top = 0, width = 0, height = 0;
    std::string_view text;

    [[nodiscard]] double right() const { return left + width; }
    [[nodiscard]] double middle() const { return top + height / 2; }
};

std::optional<std::array<std::string_view, columns>> fields_of(std::string_view line) {
    std::array<std::string_view, columns> fields;
    for (std::size_t i = 0; i + 1 < columns; ++i) {
        const auto tab = line.find('\t');
        if (tab == std::string_view::npos)
            return {};
        fields[i] = line.substr(0, tab);
        line.remove_prefix(tab + 1);
    }
    fields.back() = line;
    return fields;
}

template <class Number> bool read_number(std::string_view text, Number& number) {
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    return error == std::errc{} && end == text.data() + text.size();
}

bool is_on_a_page(double place) { return std::isfinite(place) && std::abs(place) <= largest_page; }

std::optional<Word> word_in(const std::array<std::string_view, columns>& fields) {
    Word word;
    word.text = trimmed(fields[11]);
    const bool is_read = read_number(fields[1], word.page) && read_number(fields[6], word.left) &&
                         read_number(fields[7], word.top) && read_number(fields[8], word.width) &&
                         read_number(fields[9], word.height);
    if (!is_read || word.page == 0 || !is_on_a_page(word.left) || !is_on_a_page(word.top) ||
        !is_on_a_page(word.width) || !is_on_a_page(word.height) || word.width < 0 || word.height < 0)
        return {};
    return word;
}

Result<std::vector<Word>> words_in(std::string_view text, const SheetLimits& limits) {
    std::vector<Word> words;
    std::size_t number = 0;
    while (!text.empty()) {
        const auto end = std::min(text.find('\n'), text.size());
        const auto line = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        if (++number == 1 || line.empty())
            continue;
        const auto fields = fields_of(line);
        if (!fields)
            return Refusal{fmt::format("Line {}", number), "the table of the PDF's words is torn",
                           "Read the PDF again"};
        if (fields->front() != word_level)
            continue;
        const auto word = word_in(*fields);
        if (!word)
            return Refusal{fmt::format("Line {}", number), "a word of the PDF has no place on its page",
                           "Copy the text of the PDF and paste it"};
        if (word->page > limits.pages)
            return Refusal{"", fmt::format("the PDF has more than {} pages", limits.pages),
                           "Save only the pages with the certificate as a new PDF"};
        if (words.size() >= limits.cells)
            return Refusal{"", fmt::format("the PDF has more than {} words", limits.cells),
                           "Save only the pages with the certificate as a new PDF"};
        if (!word->text.empty())
            words.push_back(*word);
    }
    return words;
}

std::size_t place(double points) { return static_cast<std::size_t>(std::max(1L, std::lround(points) + 1)); }

/// The words of one line, from the left, as fields.
SheetRow row_of(std::vector<Word> words, std::size_t number) {
    std::stable_sort(words.begin(), words.end(),
                     [](const Word& a, const Word& b) { return a.left < b.left; });
    SheetRow row;
    row.page = words.front().page;
    row.line = number;
    double right = 0, height = 0;
    for (const auto& word : words) {
        const double gap = word.left - right;
        const double size = height > 0 ? std::max(height, word.height) : word.height;
        if (row.cells.empty() || gap > field_gap * size) {
            row.cells.push_back({std::string(word.text), "", place(word.left), place(word.right()), false});
        } else {
            auto& field = row.cells.back();
            field.text += (gap > no_gap * size ? " " : "") + std::string(word.text);
            field.to = std::max(field.to, place(word.right()));
        }
        right = std::max(right, word.right());
        height = word.height;
    }
    for (const auto& field : row.cells)
        row.source += (row.source.empty() ? "" : "  ") + field.text;
    return row;
}

} // namespace

bool are_page_words(std::string_view text) { return text.starts_with(heads); }

Result<Sheet> read_page_words(std::string_view text, const SheetLimits& limits) {
    auto read = words_in(text, limits);
    if (!read)
        return read.refusals();
    auto& words = *read;
    std::stable_sort(words.begin(), words.end(), [](const Word& a, const Word& b) {
        return a.page != b.page ? a.page < b.page : a.middle() < b.middle();
    });
    Sheet sheet;
    sheet.kind = SheetKind::pages;
    std::size_t number = 0;
    for (std::size_t at = 0; at < words.size();) {
        std::size_t end = at + 1;
        while (end < words.size() && words[end].page == words[at].page &&
               words[end].middle() - words[at].middle() <
                   line_gap * std::max(words[end].height, words[at].height))
            ++end;
        number = at > 0 && words[at - 1].page == words[at].page ? number + 1 : 1;
        sheet.rows.push_back(row_of({words.begin() + static_cast<std::ptrdiff_t>(at),
                                     words.begin() + static_cast<std::ptrdiff_t>(end)},
                                    number));
        at = end;
    }
    if (sheet.rows.size() > limits.lines)
        return Refusal{"", fmt::format("the PDF has more than {} lines", limits.lines),
                       "Save only the pages with the certificate as a new PDF"};
    return sheet;
}

} // namespace mellowbin::exchange
