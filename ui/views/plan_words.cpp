#include "ui/views/plan_words.h"

#include <fmt/format.h>

#include <cmath>
#include <sstream>

namespace mellowbin::views {

std::string kilograms(double kg) {
    const auto tenths = std::llround(std::abs(kg) * 10);
    std::string whole = std::to_string(tenths / 10);
    for (auto at = static_cast<std::ptrdiff_t>(whole.size()) - 3; at > 0; at -= 3)
        whole.insert(static_cast<std::size_t>(at), 1, ' ');
    if (tenths % 10 != 0)
        whole += fmt::format(".{}", tenths % 10);
    return fmt::format("{}{}", kg < 0 && tenths != 0 ? "-" : "", whole);
}

std::string percent(double share) { return fmt::format("{:.0f} %", share * 100); }

std::string day_or_dash(const std::optional<Day>& day) { return day ? short_day(*day) : "–"; }

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);)
        if (!line.empty())
            lines.push_back(line);
    return lines;
}

} // namespace mellowbin::views
