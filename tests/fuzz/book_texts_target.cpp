#include "exchange/climate_day.h"
#include "exchange/lesson.h"
#include "exchange/taught.h"
#include "fuzz/target.h"

#include <stdexcept>

// What a book keeps as text: a book is copied about, and any of it may be another's.
namespace mellowbin::fuzz {
namespace {

using namespace exchange;

/// Nothing where the text is refused as it is promised: by a std::runtime_error with words.
template <class Value>
std::optional<Value> read(Value (*from_json)(std::string_view), std::string_view text) {
    try {
        return from_json(text);
    } catch (const std::runtime_error& error) {
        expect_text(error.what());
        return {};
    }
}

void look_at_day(std::string_view bytes) {
    const auto day = climate_day_from_json(Day{}, bytes);
    if (!day)
        return;
    const auto again = climate_day_from_json(Day{}, climate_day_as_json(*day));
    expect(again && *again == *day, "a climate day that is written reads back the same");
}

void take(std::string_view bytes) {
    if (const auto lesson = read(lesson_from_json, bytes))
        expect(lesson_from_json(lesson_as_json(*lesson)) == *lesson, "a lesson reads back the same");
    if (const auto state = read(taught_from_json, bytes)) {
        expect(dough::is_whole(*state), "what doughs taught is whole");
        expect(taught_from_json(taught_as_json(*state)) == *state, "what doughs taught reads back the same");
    }
    look_at_day(bytes);
}

const Registered target{"book_texts", take};

} // namespace
} // namespace mellowbin::fuzz
