#include "app/book/fields.h"

#include <cmath>

namespace mellowbin::app {

std::optional<Day> read_given_day(std::string_view field, const std::string& text, Refusals& refusals) {
    const auto day = read_day(field, text);
    if (!day)
        append(refusals, day.refusals());
    else if (!*day)
        refusals.push_back({std::string(field), "is empty", "Enter the day as year-month-day"});
    return day ? *day : std::nullopt;
}

std::optional<int> read_count(std::string_view field, const std::string& text, int most, Refusals& refusals) {
    const auto read = read_required_decimal(field, text, {1, static_cast<double>(most), ""});
    if (!read) {
        append(refusals, read.refusals());
        return {};
    }
    if (*read != std::floor(*read)) {
        refusals.push_back({std::string(field),
                            fmt::format("{:g} was read; a whole number is expected", *read),
                            "Enter a whole number"});
        return {};
    }
    return static_cast<int>(*read);
}

std::optional<Grams> read_mass(const std::string& text, Refusals& refusals) {
    const auto read = read_required_decimal("Weight", text, {0.001, 1'000'000, "kg"});
    if (!read) {
        append(refusals, read.refusals());
        return {};
    }
    return to_grams(Kilograms{*read});
}

std::string kg_words(Grams mass) {
    const int decimals = mass.count() % 1000 == 0 ? 0 : mass.count() % 100 == 0 ? 1 : 3;
    return fixed(to_kilograms(mass).value(), decimals) + " kg";
}

Day read_past_day(DraftReader& reader, std::string_view field, const std::string& text, Day today) {
    const Day day = reader.day(field, text).value_or(today);
    if (day > today)
        reader.refuse(field, fmt::format("{} was read, which is after today, {}", iso(day), iso(today)),
                      "Enter the day of the bake");
    return day;
}

Refusal no_reason() { return {"Reason", "is empty", "Say why, in a few words"}; }

} // namespace mellowbin::app
