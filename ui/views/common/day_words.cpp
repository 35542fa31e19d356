#include "ui/views/common/day_words.h"

#include <fmt/format.h>

#include <cmath>

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

std::string as_sentence(std::string words) {
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
        words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words;
}

std::string short_day_near(Day day, Day other) {
    const date::year_month_day one{day}, two{other};
    const auto words = fmt::format("{} {}", static_cast<unsigned>(one.day()), date::format("%b", day));
    return one.year() == two.year() ? words : fmt::format("{} {}", words, static_cast<int>(one.year()));
}

} // namespace mellowbin::views
