#include "planning/words.h"

#include <fmt/format.h>

#include <cctype>
#include <cmath>

namespace mellowbin::planning {

std::string names_of(const Problem& problem, const std::vector<int>& lots) {
    constexpr std::size_t most_named = 5;
    const bool all = lots.size() <= most_named;
    const std::size_t named = all ? lots.size() : most_named - 1;
    std::string words;
    for (std::size_t i = 0; i < named; ++i) {
        if (i > 0)
            words += all && i + 1 == named ? " and " : ", ";
        words += problem.lots[lots[i]].id;
    }
    if (!all)
        words += fmt::format(" and {} more", lots.size() - named);
    return words;
}

std::string day_words(const Background& background, double day) {
    return background.day_in_words ? background.day_in_words(day) : fmt::format("day {:g}", day);
}

namespace {

std::string lower_first(std::string words) {
    // An abbreviation ("RVA") stays as it is.
    const bool plain = words.size() > 1 && std::islower(static_cast<unsigned char>(words[1])) != 0;
    if (plain)
        words[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(words[0])));
    return words;
}

std::string number_words(const Property& property, double value) {
    const std::string number = fmt::format("{:.{}f}", value, property.decimals + 1);
    return property.unit.empty() ? number : number + " " + property.unit;
}

} // namespace

std::string value_words(const Problem& problem, int property, double value) {
    const Property& p = problem.properties[property];
    return lower_first(p.name) + " " + number_words(p, value);
}

std::string off_window_words(const Problem& problem, int property, double off) {
    const Property& p = problem.properties[property];
    return fmt::format("{} {} {} its window", lower_first(p.name), number_words(p, std::abs(off)),
                       off < 0 ? "below" : "above");
}

std::string tonnes_words(double tonnes) { return fmt::format("{:.{}f} t", tonnes, tonnes < 0.95 ? 2 : 1); }

std::string rule_words(Ban ban) {
    switch (ban) {
    case Ban::none:
        return "May be used";
    case Ban::not_arrived:
        return "Not arrived in time";
    case Ban::not_released:
        return "Not released in time";
    case Ban::not_ready:
        return "Not mature enough in time";
    case Ban::past_use_by:
        return "Past use-by";
    case Ban::held:
        return "Held";
    case Ban::rejected:
        return "Rejected";
    case Ban::used_up:
        return "Used up";
    case Ban::wrong_flour:
        return "Another kind of flour";
    case Ban::market_forbids_oxidant:
        return "Market forbids the mill's oxidant";
    case Ban::not_measured:
        return "A figure is not known";
    case Ban::other:
        break;
    }
    return "Ruled out";
}

std::string sentence(std::string words) {
    if (!words.empty())
        words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
    return words;
}

} // namespace mellowbin::planning
