#include "exchange/lesson.h"
#include "support/catch.h"

using namespace mellowbin;

namespace {

const aging::Lesson lesson{LotId{7},
                           {MillId{2}, FlourId{3}},
                           FlourClass::wholemeal,
                           {Property::glutathione},
                           {1.0 / 3, 0.1, -2e-9, 0.1, 4, 5, -2e-9, 5, 1e6},
                           {0.3, 1e-300, -7}};

} // namespace

TEST_CASE("A lesson comes back from its text to the last bit") {
    CHECK(exchange::lesson_from_json(exchange::lesson_as_json(lesson)) == lesson);
}

TEST_CASE("A broken lesson says what does not fit") {
    for (const char* text : {"", "{", "[]", "{\"lot\":1}"})
        CHECK_THROWS_WITH(exchange::lesson_from_json(text), Catch::Contains("cannot be read"));
    auto wrong = lesson;
    wrong.pull.pop_back();
    CHECK_THROWS_WITH(exchange::lesson_from_json(exchange::lesson_as_json(wrong)),
                      Catch::Contains("do not fit"));
    wrong = lesson;
    wrong.properties = {Property::ash};
    CHECK_THROWS_WITH(exchange::lesson_from_json(exchange::lesson_as_json(wrong)),
                      Catch::Contains("maturing"));
}
