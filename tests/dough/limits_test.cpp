#include "dough/limits.h"
#include "support/catch.h"

#include <algorithm>
#include <stdexcept>

using namespace mellowbin;
using namespace mellowbin::dough;

TEST_CASE("Every shipped row belongs to a known market and says where it comes from") {
    REQUIRE(shipped_limits().size() > 100);
    for (const auto& row : shipped_limits()) {
        INFO(row.market << " " << key_of(row.substance) << " " << key_of(row.food));
        CHECK(std::any_of(markets().begin(), markets().end(),
                          [&](const Market& market) { return market.key == row.market; }));
        CHECK(!row.source.empty());
        CHECK(!row.source_date.empty());
        CHECK(row.confirmed_by.empty());
    }
}

TEST_CASE("A shipped row that was recalled, is historic or is to be confirmed is not confirmed") {
    for (const auto& row : shipped_limits()) {
        INFO(row.market << " " << key_of(row.substance) << " " << key_of(row.food) << ": "
                        << row.source_date);
        for (const auto* mark : {"from memory", "historic", "confirm"})
            if (row.source_date.find(mark) != std::string::npos)
                CHECK(!row.is_confirmed);
    }
}

TEST_CASE("A permitted row has a figure above zero, a forbidden one has none") {
    for (const auto& row : shipped_limits()) {
        INFO(row.market << " " << key_of(row.substance) << " " << key_of(row.food));
        if (row.status == LimitStatus::permitted)
            CHECK((row.limit && row.limit->value() > 0));
        if (row.status == LimitStatus::permitted_gmp)
            CHECK(!row.limit);
        if (row.status == LimitStatus::not_permitted)
            CHECK((!row.limit || row.limit->value() == 0));
    }
}

TEST_CASE("Parts per hundred of the bread standard are 75 mg/kg, never 750") {
    // 21 CFR 136.110(c)(14)(i): 0.0075 part for each 100 parts by weight of flour
    const double expected = 0.0075 / 100 * 1e6;
    int rows = 0;
    for (const auto& row : shipped_limits())
        if (row.market == "US-federal" && row.food == FoodClass::bread && !row.sum_group.empty() &&
            row.substance == Substance::potassium_bromate) {
            ++rows;
            CHECK(row.limit->value() == Approx(expected));
        }
    CHECK(rows == 1);
}

TEST_CASE("California and Arkansas lie in the United States") {
    for (const auto& market : markets())
        if (market.key == "US-CA" || market.key == "US-AR")
            CHECK(market.lies_in == "US-federal");
    CHECK(note_of("US-CA").find("2027-01-01") != std::string_view::npos);
    CHECK(note_of("nowhere").empty());
}

TEST_CASE("A table row that does not fit stops with its line") {
    CHECK_THROWS_AS(read_limit_table("# remark\nmarket,substance\nEU\n"), std::logic_error);
    const std::string head =
        "market,substance,food,status,limit,sum_group,valid_from,valid_to,confirmed,rule,source,"
        "source_date,confidence\n";
    CHECK_THROWS_WITH(read_limit_table(head + "EU,sugar,bread,permitted,1,,,,yes,,x,,read\n"),
                      Catch::Matchers::Contains("line 2") && Catch::Matchers::Contains("sugar"));
    CHECK_THROWS_AS(read_limit_table(head + "EU,ascorbic_acid,bread,permitted,1e3,,,,yes,,x,,read\n"),
                    std::logic_error);
    CHECK(
        read_limit_table(head + "EU,ascorbic_acid,bread,permitted,200,,2020-02-29,,yes,,x,,read\n").size() ==
        1);
}
