#include "cli/text_table.h"

#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

namespace mellowbin::cli {
namespace {

/// How wide the terminal shows it: code points, not bytes.
std::size_t width_of(const std::string& text) {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](unsigned char c) { return (c & 0xC0) != 0x80; }));
}

} // namespace

std::string day_or_dash(const std::optional<Day>& day) { return day ? iso(*day) : "-"; }
std::string number_or_dash(const std::optional<double>& value, int decimals) {
    return value ? fixed(*value, decimals) : "-";
}
std::string as_percent(double share) { return fmt::format("{:.0f} %", 100 * share); }

TextTable::TextTable(std::vector<std::pair<std::string, Side>> heads, std::size_t indent)
    : indent_(indent), heads_(std::move(heads)) {
    std::vector<std::string> row;
    for (const auto& [head, side] : heads_)
        row.push_back(head);
    rows_.push_back(std::move(row));
}

void TextTable::print(std::ostream& out) const {
    std::vector<std::size_t> widths(heads_.size());
    for (const auto& row : rows_)
        for (std::size_t i = 0; i < row.size(); ++i)
            widths[i] = std::max(widths[i], width_of(row[i]));
    for (const auto& row : rows_) {
        std::string line(indent_, ' ');
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::string space(widths[i] - width_of(row[i]), ' ');
            line += (i ? "  " : "") + (heads_[i].second == Side::right ? space + row[i] : row[i] + space);
        }
        out << line.substr(0, line.find_last_not_of(' ') + 1) << '\n';
    }
}

} // namespace mellowbin::cli
