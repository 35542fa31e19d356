#include "app/models/fermentation_words.h"

#include <fmt/format.h>

namespace mellowbin::app {

constexpr int told_in_hours_from = 120; // min

std::string fermentation_in_words(int minutes) {
    if (minutes < told_in_hours_from)
        return fmt::format("{} min", minutes);
    return minutes % 60 == 0 ? fmt::format("{} h", minutes / 60)
                             : fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

std::string longer_in_words(int minutes, int longer) {
    if (longer <= 0)
        return {};
    if (minutes < told_in_hours_from) // the unit stands at the sum
        return fmt::format("{} and {} longer for strength", minutes - longer, longer);
    return fmt::format("{} and {} longer for strength", fermentation_in_words(minutes - longer),
                       fermentation_in_words(longer));
}

std::string fermentation_and_why(int minutes, int longer) {
    const auto why = longer_in_words(minutes, longer);
    return fermentation_in_words(minutes) + (why.empty() ? "" : ": " + why);
}

} // namespace mellowbin::app
