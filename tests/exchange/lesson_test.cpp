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

TEST_CASE(
    "A lesson of before glutathione had a rate of its own says nothing any more; one of the dough stands") {
    auto text = exchange::lesson_as_json(lesson);
    text.replace(text.find("\"law\":2"), 7, "\"law\":1");
    const auto old = exchange::lesson_from_json(text);
    CHECK(old.lot == lesson.lot);
    CHECK(old.properties.empty());
    CHECK(old.pull == std::vector<double>{0, 0});
    const aging::Learned learned({old});
    CHECK(learned.plant_rate(FlourClass::wholemeal).median ==
          Approx(aging::published_priors(FlourClass::wholemeal).k20.median));
    auto of_dough = lesson;
    of_dough.properties = {Property::extensograph_resistance};
    auto its_text = exchange::lesson_as_json(of_dough);
    its_text.replace(its_text.find("\"law\":2"), 7, "\"law\":1");
    CHECK(exchange::lesson_from_json(its_text) == of_dough);
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
