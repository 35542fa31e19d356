#include "app/book/door.h"

#include "app/book/settings.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

Celsius warm_from(const Book& book) { return Celsius{Choices(book.settings).number("warm_flour")}; }

} // namespace

std::vector<std::string> door_questions(const Book& book) {
    const auto house = house_units(book.settings);
    return {"Seal whole, or bags closed", "Bags dry and not torn", "Free of insects and foreign smell",
            fmt::format("Flour below {:g} {}", house.shown(warm_from(book)), house.temperature()),
            "Weight and lot number as on the note"};
}

IntakeContext intake_context(const Book& book, Day today) {
    return {today, book.mills, book.flours, book.places, house_units(book.settings), warm_from(book)};
}

} // namespace mellowbin::app
