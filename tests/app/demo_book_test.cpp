#include "app/acts/looking.h"
#include "app/app.h"
#include "app/book/clock.h"
#include "app/book/setup.h"
#include "app/demo/book.h"
#include "app/models/card.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "app/models/outlook.h"
#include "app/models/plan.h"
#include "demo_at_hand.h"
#include "support/catch.h"
#include "support/iso.h"

#include <algorithm>
#include <filesystem>
#include <set>

using namespace mellowbin;
using namespace mellowbin::app;

namespace {

const Day today = day_from_iso("2026-11-25");

const std::string& demo_book() { return tests::demo_at_hand(); }

} // namespace

TEST_CASE("The demo bakery shows what a plant must live with") {
    App app({demo_book(), "tester", Clock::standing_at(today)});
    app.handle(ShowPlan{today, 14});
    const auto& lots = app.lots().rows;
    CHECK(lots.size() >= 14);
    std::set<std::string> mills;
    for (const auto& lot : lots)
        mills.insert(lot.mill);
    CHECK(mills.size() == 3);

    const auto any = [&](auto condition) { return std::any_of(lots.begin(), lots.end(), condition); };
    CHECK(any([](const LotRow& l) { return l.state == LotState::held; }));
    CHECK(any([](const LotRow& l) { return l.state == LotState::awaiting_judgement; }));
    CHECK(any([](const LotRow& l) { return l.readiness == Readiness::young && l.stock_kg > 0; }));
    CHECK(any([](const LotRow& l) { return l.readiness == Readiness::past_best && l.stock_kg > 0; }));
    CHECK(any([](const LotRow& l) { return l.mill_additions.find("bromate") != std::string::npos; }));
    CHECK_FALSE(app.plan().shortages.empty());

    std::set<std::string> products, lines;
    for (const auto& run : app.plan().runs) {
        products.insert(run.product);
        lines.insert(app.plan().lines[static_cast<std::size_t>(run.line)]);
    }
    CHECK(products.size() == 4);
    CHECK(lines.size() == 2);
    REQUIRE(app.plan().expected.size() == 1);
    CHECK_THAT(app.plan().expected[0].words, Catch::Contains("6000 kg Strong white from Sorrel Weir Mill"));
}

TEST_CASE("In the demo no bromated flour goes where it is forbidden, and none into bread without oxidant") {
    App app({demo_book(), "tester", Clock::standing_at(today)});
    app.handle(ShowPlan{today, 14});
    std::set<std::string> bromated;
    for (const auto& lot : app.lots().rows)
        if (lot.mill_additions.find("bromate") != std::string::npos)
            bromated.insert(lot.code);
    REQUIRE_FALSE(bromated.empty());
    for (const auto& run : app.plan().runs) {
        for (const auto& lot : run.lots) {
            INFO(run.code << " " << run.product << " " << lot.code);
            if (bromated.contains(lot.code))
                CHECK(run.market == "US-federal");
        }
    }
}

TEST_CASE("Today's cards of the demo can be read, and their flour adds up to the batch") {
    App app({demo_book(), "tester", Clock::standing_at(today)});
    REQUIRE_FALSE(app.mixer().runs.empty());
    for (const auto& run : app.mixer().runs) {
        const auto card = app.card_of(run.run);
        INFO(run.words << (card.refusals.empty() ? "" : in_words(card.refusals.front())));
        REQUIRE(card.refusals.empty());
        double sum = 0;
        for (const auto& lot : card.lots)
            sum += lot.kg;
        CHECK(sum == Approx(card.flour_kg).epsilon(1e-12));
        CHECK_FALSE(card.cautions.empty());
    }
}

TEST_CASE("In the demo the hearth loaf has both its flours, in the parts that its formula says") {
    App app({demo_book(), "tester", Clock::standing_at(today)});
    app.handle(ShowPlan{today, 14});
    int whole = 0;
    for (const auto& run : app.plan().runs) {
        if (run.product != "Hearth loaf" || run.short_kg > 0)
            continue;
        double wholemeal = 0;
        for (const auto& lot : run.lots)
            for (const auto& row : app.lots().rows)
                if (row.id == lot.lot && row.flour == "Wholemeal")
                    wholemeal += lot.kg;
        INFO(run.code);
        CHECK(wholemeal == Approx(0.15 * run.need_kg).epsilon(1e-5));
        ++whole;
    }
    CHECK(whole > 0);
}

TEST_CASE("The demo made twice on one day has the same plan and the same cards") {
    const auto other = demo_book() + ".again";
    std::filesystem::remove(other);
    REQUIRE(make_demo_book(other, today));
    {
        App one({demo_book(), "tester", Clock::standing_at(today)});
        App two({other, "tester", Clock::standing_at(today)});
        for (App* app : {&one, &two})
            app->handle(ShowPlan{today - Days{7}, 21});
        REQUIRE(one.plan().runs.size() == two.plan().runs.size());
        CHECK(one.plan().runs.size() > 30);
        for (std::size_t i = 0; i < one.plan().runs.size(); ++i) {
            const auto& run = one.plan().runs[i];
            const auto& again = two.plan().runs[i];
            INFO(run.code);
            CHECK(run.id == again.id);
            CHECK(run.oxidant_ppm == again.oxidant_ppm);
            CHECK(run.maturity == again.maturity);
            REQUIRE(run.lots.size() == again.lots.size());
            for (std::size_t l = 0; l < run.lots.size(); ++l) {
                CHECK(run.lots[l].code == again.lots[l].code);
                CHECK(run.lots[l].kg == again.lots[l].kg);
                CHECK(run.lots[l].reason == again.lots[l].reason);
            }
            const auto card = one.card_of(run.id);
            const auto second = two.card_of(run.id);
            CHECK(card.water.value == second.water.value);
            CHECK(card.water.note == second.water.note);
            CHECK(card.water_temperature.value == second.water_temperature.value);
            CHECK(card.oxidant.value == second.oxidant.value);
            CHECK(card.oxidant.note == second.oxidant.note);
            REQUIRE(card.logged.size() == second.logged.size());
            for (std::size_t b = 0; b < card.logged.size(); ++b)
                CHECK(card.logged[b].words == second.logged[b].words);
        }
        CHECK(one.plan().shortages == two.plan().shortages);
        CHECK(one.plan().orders.size() == two.plan().orders.size());
    }
    std::filesystem::remove(other);
}

TEST_CASE(
    "In the demo each delivery was looked at, and a lot that the door held was released with a reason") {
    App app({demo_book(), "tester", Clock::standing_at(today)});
    const auto rows = app.lots().rows;
    for (const auto& row : rows) {
        app.handle(OpenLot{row.id});
        REQUIRE(app.lots().opened);
        INFO(row.code);
        CHECK(app.lots().opened->door.size() == 5);
        if (row.code != "SW-H051")
            continue;
        CHECK(app.lots().opened->door[1].words == "Bags dry and not torn: no, 2 bags, torn by the fork");
        CHECK_THAT(app.lots().opened->state_words,
                   Catch::Contains("Released: the two torn bags were thrown away"));
        CHECK_THAT(app.lots().opened->history.front().words,
                   Catch::Contains("taken in and put on hold. At the door"));
    }
}

TEST_CASE("A demo book is never written over another file") {
    const auto again = make_demo_book(demo_book(), today);
    REQUIRE_FALSE(again);
    CHECK(again.refusals().front().field == "Book");
}
