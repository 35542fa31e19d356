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

TEST_CASE("A row is read in its source only where the law's own text was read: no manual, remark or memory") {
    const auto is_read = [](const auto& row) {
        INFO(row.market << ", " << row.source << ": " << row.source_date);
        for (const auto* mark : {"from memory", "historic", "confirm", "second", "manual", "inferred",
                                 "patent", "fact sheet", "remark"})
            if (row.source_date.find(mark) != std::string::npos)
                CHECK(!row.is_confirmed);
        if (row.is_confirmed)
            CHECK(row.source_date.find("read") != std::string::npos);
    };
    for (const auto& row : shipped_limits())
        is_read(row);
    for (const auto& row : shipped_propionate_limits())
        is_read(row);
}

namespace {

LimitRow shipped_row(const std::string& market, Substance substance, FoodClass food) {
    std::vector<LimitRow> found;
    std::copy_if(
        shipped_limits().begin(), shipped_limits().end(), std::back_inserter(found),
        [&](const auto& r) { return r.market == market && r.substance == substance && r.food == food; });
    INFO(market << " " << key_of(substance) << " " << key_of(food));
    REQUIRE(found.size() == 1);
    return found.front();
}

} // namespace

TEST_CASE("What was read of ascorbic acid and cysteine is confirmed, and nothing beside it") {
    // 21 CFR 137.105(a): 200 parts per million of flour
    CHECK(shipped_row("US-federal", Substance::ascorbic_acid, FoodClass::white_flour).is_confirmed);
    CHECK_FALSE(
        shipped_row("US-federal", Substance::ascorbic_acid, FoodClass::whole_wheat_flour).is_confirmed);
    for (const auto* market :
         {"EU", "GB"}) // Reg (EC) 1333/2008 Annex II 06.2.1: E 300 and E 920 quantum satis
        for (const auto substance : {Substance::ascorbic_acid, Substance::l_cysteine}) {
            CHECK(shipped_row(market, substance, FoodClass::white_flour).is_confirmed);
            CHECK(shipped_row(market, substance, FoodClass::whole_wheat_flour).is_confirmed);
            CHECK_FALSE(shipped_row(market, substance, FoodClass::bread).is_confirmed); // 07.1 was not read
        }
    CHECK_FALSE(shipped_row("GB", Substance::benzoyl_peroxide, FoodClass::bread).is_confirmed); // a manual
    CHECK_FALSE(shipped_row("CN", Substance::potassium_bromate, FoodClass::white_flour).is_confirmed);
}

TEST_CASE("Canada's list: acetone peroxide by good practice, persulphate of ammonium in both flours") {
    // List 2, Permitted Flour Treatment Agents, 2024-12-18
    for (const auto food : {FoodClass::white_flour, FoodClass::whole_wheat_flour}) {
        CHECK(shipped_row("Canada", Substance::acetone_peroxide, food).status == LimitStatus::permitted_gmp);
        CHECK(shipped_row("Canada", Substance::ammonium_persulphate, food).limit == OxidantPpm{250});
    }
}

TEST_CASE("Brazil's ban of bromate begins ninety days after its publication") { // Lei 10.273, DOU 2001-09-06
    const auto published = date::sys_days{date::year{2001} / 9 / 6};
    for (const auto food : {FoodClass::white_flour, FoodClass::whole_wheat_flour, FoodClass::bread,
                            FoodClass::whole_wheat_bread})
        CHECK(shipped_row("BR", Substance::potassium_bromate, food).valid_from == published + Days{90});
}

TEST_CASE("What was shipped otherwise once has one row in its place, which differs from it") {
    REQUIRE(limit_corrections().size() > 20);
    for (const auto& correction : limit_corrections())
        CHECK(correction.was != correction.now);
    for (const auto& correction : propionate_corrections())
        CHECK(correction.was != correction.now);
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
