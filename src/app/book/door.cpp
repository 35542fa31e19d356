#include "app/book/door.h"

#include "app/book/settings.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

Celsius warm_from(const Book& book) { return Celsius{Choices(book.settings).number("warm_flour")}; }

} // namespace

std::vector<std::string> usual_door_checks() {
    return {"Seal whole, or bags closed", "Bags dry and not torn", "Free of insects and foreign smell",
            fmt::format("Flour below {}", temperature_limit), "Weight and lot number as on the note"};
}

std::vector<std::string> door_questions(const Book& book) {
    const auto house = house_units(book.settings);
    const auto limit = fmt::format("{:g} {}", house.shown(warm_from(book)), house.temperature());
    auto questions = Choices(book.settings).lines("door_checks");
    if (questions.empty())
        questions = usual_door_checks();
    for (auto& question : questions)
        if (const auto at = question.find(temperature_limit); at != std::string::npos)
            question.replace(at, temperature_limit.size(), limit);
    return questions;
}

double delivery_tolerance(const Book& book) {
    return Choices(book.settings).number("delivery_tolerance_pct");
}

int match_days(const Book& book) { return static_cast<int>(Choices(book.settings).number("match_days")); }

IntakeContext intake_context(const Book& book, Day today) {
    return {today, book.mills, book.flours, book.places, house_units(book.settings), warm_from(book)};
}

} // namespace mellowbin::app
