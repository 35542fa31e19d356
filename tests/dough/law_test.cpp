#include "dough/law.h"
#include "dough/limits.h"
#include "support/catch.h"
#include "support/dough_formulas.h"
#include "support/iso.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::dough;

namespace {

Law shipped() { return {shipped_limits(), markets()}; }

Sale bread_in(std::string market, const char* day = "2026-11-25") {
    return {std::move(market), FoodClass::bread, day_from_iso(day)};
}

constexpr OxidantPpm no_house{0};

LimitRow row(Substance substance, LimitStatus status, std::optional<OxidantPpm> limit, FoodClass food) {
    LimitRow made;
    made.market = "Home";
    made.substance = substance;
    made.food = food;
    made.status = status;
    made.limit = limit;
    made.source = "a statute";
    made.is_confirmed = true;
    return made;
}

std::vector<LimitRow> without_confirmation(std::vector<LimitRow> rows) {
    for (auto& one : rows)
        one.is_confirmed = false;
    return rows;
}

} // namespace

TEST_CASE("Bromate of the mill and of the bakery add up: 50 and 30 are more than 75") {
    const std::vector<MillAddition> mill{{Substance::potassium_bromate, OxidantPpm{50}}};
    const auto too_much = judge_dose(shipped(), bread_in("US-federal"),
                                     {Substance::potassium_bromate, OxidantPpm{30}}, mill, no_house);
    CHECK(too_much.permission == Permission::forbidden);
    CHECK_THAT(too_much.words, Catch::Matchers::Contains("80 mg/kg") &&
                                   Catch::Matchers::Contains("75 mg/kg") &&
                                   Catch::Matchers::Contains("136.110"));
    CHECK(judge_dose(shipped(), bread_in("US-federal"), {Substance::potassium_bromate, OxidantPpm{25}}, mill,
                     no_house)
              .is_permitted());
}

TEST_CASE("Bromate and iodate share one limit: 40 and 40 are more than 75") {
    const std::vector<MillAddition> mill{{Substance::potassium_bromate, OxidantPpm{40}}};
    const auto room =
        room_for(shipped(), bread_in("US-federal"), Substance::potassium_iodate, mill, no_house);
    CHECK(room.permission == Permission::permitted);
    CHECK(room.room.value() == Approx(35));
    CHECK_THAT(room.words, Catch::Matchers::Contains("common 75 mg/kg"));
    CHECK(judge_dose(shipped(), bread_in("US-federal"), {Substance::potassium_iodate, OxidantPpm{40}}, mill,
                     no_house)
              .permission == Permission::forbidden);
}

TEST_CASE("Canada's iodates share 45: 25 and 25 are too much") {
    const std::vector<MillAddition> mill{{Substance::calcium_iodate, OxidantPpm{25}}};
    CHECK(judge_dose(shipped(), bread_in("Canada"), {Substance::potassium_iodate, OxidantPpm{25}}, mill,
                     no_house)
              .permission == Permission::forbidden);
    CHECK(judge_dose(shipped(), bread_in("Canada"), {Substance::potassium_iodate, OxidantPpm{20}}, mill,
                     no_house)
              .is_permitted());
}

TEST_CASE("A blend of 60 parts flour with 30 azodicarbonamide and 40 without leaves 27 of 45") {
    const std::vector<MillAddition> treated{{Substance::azodicarbonamide, OxidantPpm{30}}};
    const std::vector<dough::FlourPart> parts{{treated, Kilograms{60}}, {{}, Kilograms{40}}};
    const auto carried = carried_over(parts);
    REQUIRE(carried.size() == 1);
    CHECK(carried[0].dose.value() == Approx(18));
    const auto room =
        room_for(shipped(), bread_in("US-federal"), Substance::azodicarbonamide, carried, no_house);
    CHECK(room.room.value() == Approx(27));
    CHECK(judge_dose(shipped(), bread_in("US-federal"), {Substance::azodicarbonamide, OxidantPpm{27}},
                     carried, no_house)
              .is_permitted());
    const std::vector<MillAddition> thirty{{Substance::azodicarbonamide, OxidantPpm{30}}};
    CHECK(judge_dose(shipped(), bread_in("US-federal"), {Substance::azodicarbonamide, OxidantPpm{20}}, thirty,
                     no_house)
              .permission == Permission::forbidden);
}

TEST_CASE("California's zero for bromate sleeps on the last day of 2026 and holds on the first of 2027") {
    const std::vector<MillAddition> bromated{{Substance::potassium_bromate, OxidantPpm{25}}};
    CHECK(judge_lot(shipped(), bread_in("US-CA", "2026-12-31"), FlourClass::white, bromated).is_permitted());
    const auto after = judge_lot(shipped(), bread_in("US-CA", "2027-01-01"), FlourClass::white, bromated);
    CHECK(after.permission == Permission::forbidden);
    CHECK_THAT(after.words, Catch::Matchers::Contains("US-CA") && Catch::Matchers::Contains("2027-01-01") &&
                                Catch::Matchers::Contains("AB 418"));
    CHECK(judge_lot(shipped(), bread_in("US-federal", "2027-01-01"), FlourClass::white, bromated)
              .is_permitted());
}

TEST_CASE("A bromated lot may not go to Canada, the EU, Great Britain, Brazil, India or China") {
    const std::vector<MillAddition> bromated{{Substance::potassium_bromate, OxidantPpm{1}}};
    for (const auto* market : {"Canada", "EU", "GB", "BR", "IN", "CN", "AU-NZ"}) {
        INFO(market);
        CHECK(judge_lot(shipped(), bread_in(market), FlourClass::white, bromated).permission ==
              Permission::forbidden);
    }
}

TEST_CASE("White flour may hold 50 of bromate and whole wheat flour 75, whatever bread may") {
    const std::vector<MillAddition> sixty{{Substance::potassium_bromate, OxidantPpm{60}}};
    const auto white = judge_lot(shipped(), bread_in("US-federal"), FlourClass::white, sixty);
    CHECK(white.permission == Permission::forbidden);
    CHECK_THAT(white.words, Catch::Matchers::Contains("137.155"));
    const Sale whole{"US-federal", FoodClass::whole_wheat_bread, day_from_iso("2026-11-25")};
    CHECK(judge_lot(shipped(), whole, FlourClass::wholemeal, sixty).is_permitted());
}

TEST_CASE("A narrower market may tighten what the wider one permits, not loosen it") {
    std::vector<LimitRow> rows{
        row(Substance::azodicarbonamide, LimitStatus::permitted, OxidantPpm{45}, FoodClass::bread),
        row(Substance::azodicarbonamide, LimitStatus::permitted, OxidantPpm{90}, FoodClass::bread)};
    rows[1].market = "Province";
    const std::vector<Market> places{{"Home", "Home", ""}, {"Province", "Province", "Home"}};
    const Law law{rows, places};
    CHECK(room_for(law, bread_in("Province"), Substance::azodicarbonamide, {}, no_house).room.value() ==
          Approx(45));
    rows[1].limit = OxidantPpm{20};
    CHECK(room_for(law, bread_in("Province"), Substance::azodicarbonamide, {}, no_house).room.value() ==
          Approx(20));
    CHECK(room_for(law, bread_in("Home"), Substance::azodicarbonamide, {}, no_house).room.value() ==
          Approx(45));
}

TEST_CASE("What no row speaks of is not permitted") {
    const auto room = room_for(shipped(), bread_in("MX"), Substance::ascorbic_acid, {}, OxidantPpm{100});
    CHECK(room.permission == Permission::forbidden);
    CHECK(room.room.value() == 0);
    CHECK_THAT(room.words, Catch::Matchers::Contains("no row"));
    CHECK(
        room_for(shipped(), bread_in("Atlantis"), Substance::ascorbic_acid, {}, OxidantPpm{100}).permission ==
        Permission::forbidden);
    const std::vector<MillAddition> additions{{Substance::ascorbic_acid, OxidantPpm{10}}};
    CHECK(judge_lot(shipped(), bread_in("MX"), FlourClass::white, additions).permission ==
          Permission::forbidden);
}

TEST_CASE("A row that nobody confirmed never permits a dose, and names what to read") {
    const auto rows = without_confirmation(
        {row(Substance::ascorbic_acid, LimitStatus::permitted, OxidantPpm{200}, FoodClass::bread)});
    const Law law{rows, {}};
    const auto room = room_for(law, bread_in("Home"), Substance::ascorbic_acid, {}, OxidantPpm{50});
    CHECK(room.permission == Permission::unconfirmed);
    CHECK(room.room.value() == 0);
    CHECK_THAT(room.words,
               Catch::Matchers::Contains("confirm the row") && Catch::Matchers::Contains("a statute"));
    CHECK(!judge_dose(law, bread_in("Home"), {Substance::ascorbic_acid, OxidantPpm{1}}, {}, OxidantPpm{50})
               .is_permitted());
}

TEST_CASE("Once the plant has confirmed the row, it permits") {
    auto rows = without_confirmation(
        {row(Substance::ascorbic_acid, LimitStatus::permitted, OxidantPpm{200}, FoodClass::bread)});
    rows[0].is_confirmed = true;
    const Law law{rows, {}};
    CHECK(room_for(law, bread_in("Home"), Substance::ascorbic_acid, {}, OxidantPpm{50}).room.value() ==
          Approx(50));
}

TEST_CASE("A row that nobody confirmed still forbids and still tightens") {
    std::vector<LimitRow> rows{
        row(Substance::ascorbic_acid, LimitStatus::permitted, OxidantPpm{200}, FoodClass::bread),
        row(Substance::ascorbic_acid, LimitStatus::permitted, OxidantPpm{60}, FoodClass::bread)};
    rows[1].is_confirmed = false;
    CHECK(room_for({rows, {}}, bread_in("Home"), Substance::ascorbic_acid, {}, no_house).room.value() ==
          Approx(60));
    rows[1].status = LimitStatus::not_permitted;
    CHECK(room_for({rows, {}}, bread_in("Home"), Substance::ascorbic_acid, {}, no_house).permission ==
          Permission::forbidden);
    rows[1].status = LimitStatus::unclear;
    CHECK(room_for({rows, {}}, bread_in("Home"), Substance::ascorbic_acid, {}, no_house).permission ==
          Permission::forbidden);
}

TEST_CASE("Good manufacturing practice has no figure: the house maximum is the room, and must be set") {
    const auto sale = bread_in("US-federal");
    const auto unset = room_for(shipped(), sale, Substance::ascorbic_acid, {}, no_house);
    CHECK(unset.permission == Permission::needs_house_maximum);
    CHECK(unset.room.value() == 0);
    CHECK_THAT(unset.words, Catch::Matchers::Contains("house maximum"));
    const std::vector<MillAddition> mill{{Substance::ascorbic_acid, OxidantPpm{15}}};
    CHECK(room_for(shipped(), sale, Substance::ascorbic_acid, mill, OxidantPpm{75}).room.value() ==
          Approx(60));
}

TEST_CASE("A house maximum below the law is kept, and named as such") {
    const auto over = judge_dose(shipped(), bread_in("US-federal"),
                                 {Substance::azodicarbonamide, OxidantPpm{30}}, {}, OxidantPpm{20});
    CHECK(over.permission == Permission::forbidden);
    CHECK_THAT(over.words, Catch::Matchers::Contains("house maximum"));
}

TEST_CASE("A row holds from its first day to its last, both included") {
    auto rows =
        std::vector{row(Substance::ascorbic_acid, LimitStatus::permitted, OxidantPpm{100}, FoodClass::bread)};
    rows[0].valid_from = day_from_iso("2026-03-01");
    rows[0].valid_to = day_from_iso("2026-03-31");
    const Law law{rows, {}};
    const auto on = [&](const char* day) {
        return room_for(law, bread_in("Home", day), Substance::ascorbic_acid, {}, no_house).permission;
    };
    CHECK(on("2026-02-28") == Permission::forbidden);
    CHECK(on("2026-03-01") == Permission::permitted);
    CHECK(on("2026-03-31") == Permission::permitted);
    CHECK(on("2026-04-01") == Permission::forbidden);
}

TEST_CASE("90 of L-cysteine is 130.5 of its hydrochloride's monohydrate") {
    CHECK(cysteine_as_hydrochloride(OxidantPpm{90}, Hydrate::monohydrate).value() ==
          Approx(130.5).margin(0.05));
    CHECK(cysteine_as_hydrochloride(OxidantPpm{90}, Hydrate::anhydrous).value() ==
          Approx(117.1).margin(0.05));
    CHECK(hydrochloride_as_cysteine(OxidantPpm{130.46}, Hydrate::monohydrate).value() ==
          Approx(90).margin(0.01));
}

TEST_CASE("Cysteine and its hydrochloride share the limit as cysteine") {
    const std::vector<MillAddition> half{{Substance::l_cysteine, OxidantPpm{45}}};
    const auto room =
        room_for(shipped(), bread_in("US-federal"), Substance::l_cysteine_hydrochloride, half, no_house);
    CHECK(room.room.value() == Approx(117.1 / 2));
}

TEST_CASE("A mill's ascorbic acid in a market that only recalls its row is unconfirmed, not forbidden") {
    const std::vector<MillAddition> additions{{Substance::ascorbic_acid, OxidantPpm{20}}};
    const auto judged = judge_lot(shipped(), bread_in("AU-NZ"), FlourClass::white, additions);
    CHECK(judged.permission == Permission::unconfirmed);
    CHECK(!judged.rows.empty());
}

TEST_CASE("A lot without additions may go anywhere") {
    for (const auto& market : markets())
        CHECK(judge_lot(shipped(), bread_in(market.key), FlourClass::white, {}).is_permitted());
}

TEST_CASE("The blend as a whole is held against the sum of the bread") {
    const std::vector<MillAddition> carried{{Substance::potassium_bromate, OxidantPpm{45}},
                                            {Substance::calcium_peroxide, OxidantPpm{35}}};
    CHECK(judge_carried(shipped(), bread_in("US-federal"), carried).permission == Permission::forbidden);
    const std::vector<MillAddition> less{{Substance::potassium_bromate, OxidantPpm{45}},
                                         {Substance::calcium_peroxide, OxidantPpm{30}}};
    CHECK(judge_carried(shipped(), bread_in("US-federal"), less).is_permitted());
}
