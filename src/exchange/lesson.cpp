#include "exchange/lesson.h"

#include "core/typed_text.h"
#include "exchange/json_value.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <stdexcept>

namespace mellowbin::exchange {

using nlohmann::json;

namespace {

/// By which law lessons are made. Those of before it took every property for evidence of the dough's rate.
constexpr int law = 2;

bool is_of_the_dough(Property property) {
    return aging::maturing_test(property)->follows == aging::Follows::dough;
}

/// What it said of the dough cannot be told apart from what it said of another clock: nothing of it is left.
aging::Lesson without_its_word(aging::Lesson lesson) {
    lesson.properties.clear();
    lesson.precision.assign(4, 0);
    lesson.pull.assign(2, 0);
    return lesson;
}

} // namespace

std::string lesson_as_json(const aging::Lesson& lesson) {
    json properties = json::array();
    for (const auto property : lesson.properties)
        properties.push_back(traits(property).key);
    return json{{"law", law},
                {"lot", lesson.lot.number()},
                {"mill", lesson.group.mill.number()},
                {"flour", lesson.group.flour.number()},
                {"flour_class", key_of(lesson.flour_class)},
                {"properties", properties},
                {"precision", lesson.precision},
                {"pull", lesson.pull}}
        .dump();
}

aging::Lesson lesson_from_json(std::string_view text) {
    try {
        const json in = json::parse(text, nullptr, false); // json's own words would hold the bytes
        if (in.is_discarded())
            throw std::runtime_error("it is no JSON");
        aging::Lesson lesson;
        lesson.lot = LotId{whole_number(in.at("lot"))};
        lesson.group = {MillId{whole_number(in.at("mill"))}, FlourId{whole_number(in.at("flour"))}};
        const auto flour_class = flour_class_from_key(in.at("flour_class").get<std::string>());
        if (!flour_class)
            throw std::runtime_error("no class of flour");
        lesson.flour_class = *flour_class;
        for (const auto& key : in.at("properties")) {
            const auto property = property_from_key(key.get<std::string>());
            if (!property || !aging::maturing_test(*property))
                throw std::runtime_error(excerpt(key.get<std::string>()) +
                                         " is no property that changes with maturing");
            lesson.properties.push_back(*property);
        }
        lesson.precision = in.at("precision").get<std::vector<double>>();
        lesson.pull = in.at("pull").get<std::vector<double>>();
        const std::size_t n = 2 + lesson.properties.size();
        if (lesson.pull.size() != n || lesson.precision.size() != n * n)
            throw std::runtime_error("its sums do not fit its properties");
        const bool is_of_before = (in.contains("law") ? small_number(in["law"]) : 1) < law;
        if (is_of_before && !std::all_of(lesson.properties.begin(), lesson.properties.end(), is_of_the_dough))
            return without_its_word(std::move(lesson));
        return lesson;
    } catch (const std::exception& error) { // json's own or ours
        throw std::runtime_error(fmt::format("a lesson of the book cannot be read: {}", error.what()));
    }
}

} // namespace mellowbin::exchange
