#include "core/limit.h"
#include "support/catch.h"

#include <set>

namespace mellowbin {

TEST_CASE("Every substance has a key and a name of its own, salts apart") {
    std::set<std::string_view> names;
    for (const Substance substance : all_substances()) {
        INFO(key_of(substance));
        CHECK(substance_from_key(key_of(substance)) == substance);
        CHECK(names.insert(name_of(substance)).second);
    }
    CHECK(all_substances().size() == 14);
    CHECK(substance_from_key("potassium_bromate") != substance_from_key("calcium_bromate"));
    CHECK(!substance_from_key("bromate"));
}

TEST_CASE("Every class of food has a key of its own") {
    for (const auto food : {FoodClass::white_flour, FoodClass::whole_wheat_flour, FoodClass::bread,
                            FoodClass::whole_wheat_bread})
        CHECK(food_class_from_key(key_of(food)) == food);
    CHECK(!food_class_from_key("cake"));
}

TEST_CASE("A limit holds from its first day to its last, both included") {
    const Day first{date::year{2026} / 1 / 1};
    const Day last{date::year{2026} / 12 / 31};
    LimitRow row;
    row.valid_from = first;
    row.valid_to = last;
    CHECK(row.holds_on(first));
    CHECK(row.holds_on(last));
    CHECK(!row.holds_on(first - Days{1}));
    CHECK(!row.holds_on(last + Days{1}));
    CHECK(LimitRow{}.holds_on(first));
}

TEST_CASE("Every way to sell bread, status and count of a limit has a key of its own") {
    for (const auto sold_as : all_sold_as())
        CHECK(sold_as_from_key(key_of(sold_as)) == sold_as);
    CHECK(all_sold_as().size() == 4);
    for (const auto status : all_limit_statuses())
        CHECK(limit_status_from_key(key_of(status)) == status);
    CHECK(all_limit_statuses().size() == 4);
    for (const auto count : {PropionateCount::acid, PropionateCount::salt, PropionateCount::not_stated})
        CHECK(propionate_count_from_key(key_of(count)) == count);
    CHECK(!sold_as_from_key("loose"));
    CHECK(!limit_status_from_key("allowed"));
}

TEST_CASE("A limit is named by its number, one on propionate with a P before it") {
    CHECK(in_words(LimitRef{LimitRef::Of::oxidants, 12}) == "12");
    CHECK(in_words(LimitRef{LimitRef::Of::propionates, 3}) == "P3");
    CHECK(limit_ref_from(" 12 ") == LimitRef{LimitRef::Of::oxidants, 12});
    CHECK(limit_ref_from("p3") == LimitRef{LimitRef::Of::propionates, 3});
    for (const char* words : {"", "P", "12a", "P-3", "0", "twelve", "99999999999999999999"}) {
        INFO(words);
        CHECK(!limit_ref_from(words));
    }
}

} // namespace mellowbin
