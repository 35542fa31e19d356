// Lots that were used up are let go from what doughs taught. That must change nothing that a card or a lever
// reads, in whatever order things are said, taken back and found again.
#include "app/acts/batches.h"
#include "app/acts/give_lot.h"
#include "app/acts/intent.h"
#include "app/acts/stock.h"
#include "app/models/card.h"
#include "small_plant.h"
#include "support/catch.h"
#include "taught_bakery.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using namespace mellowbin::tests;

TEST_CASE("Lots that were used up leave what doughs taught, and nothing of the rest changes by it") {
    for (unsigned seed = 1; seed <= 5; ++seed) {
        DicedWeeks plant(seed);
        Doughs doughs;
        for (int batch = 1; batch <= 400; ++batch) {
            plant.one_more();
            doughs.follow(plant.connection, plant.book);
            if (batch % 67 != 0)
                continue;
            INFO("seed " << seed << ", batch " << batch);
            const auto live = live_lots(plant.book);
            CHECK(difference(doughs, of_everything(plant), live) < 1e-9);
            CHECK(difference(started(plant), of_everything(plant), live) < 1e-9);
        }
        CHECK(plant.book.lots.size() > 80);
        CHECK(doughs.water().lots().size() < 40);
    }
}

TEST_CASE("Over thousands of lots what is carried along is what is live, started anew or grown day by day") {
    DicedWeeks plant(9);
    Doughs doughs;
    std::size_t largest = 0;
    while (plant.book.lots.size() < 2000) {
        for (int i = 0; i < 200; ++i)
            plant.one_more();
        doughs.follow(plant.connection, plant.book);
        largest = std::max(largest, doughs.water().unknowns());
    }
    // Four lots in use; in the last 48 doughs, one in four of which used a lot up, a dozen or two more; two
    // products on two lines.
    CHECK(largest < 50);
    CHECK(started(plant).water().unknowns() < 50);
    Doughs anew;
    anew.make_anew(plant.connection, plant.book);
    CHECK(anew.water().unknowns() < 50);
}

TEST_CASE("A batch that is taken back long after its lot was used up teaches nothing") {
    TaughtBakery plant;
    plant.mix_of_a_lot(pan, 5);
    const auto odd = plant.mix_of_a_lot(pan, 2, 3);
    const auto taken_back = plant.newest;
    for (int i = 0; i < 30; ++i)
        plant.mix_of_a_lot(pan, 4);
    auto doughs = started(plant);
    REQUIRE(doughs.water().was_let_go(odd));
    const double before = deviation(doughs, odd);

    plant.counter(taken_back);
    plant.becomes(odd, LotState::released); // its flour went back
    doughs.follow(plant.connection, plant.book);
    const auto lots = live_lots(plant.book);
    CHECK(difference(doughs, started(plant), lots) == 0);
    CHECK(difference(doughs, of_everything(plant), lots) < 1e-9);
    CHECK(deviation(doughs, odd) < before - 0.05);
}

TEST_CASE(
    "A lot of which more is found is believed of as if it had never gone, before its next dough and after") {
    for (const auto gone : {LotState::used_up, LotState::rejected}) {
        TaughtBakery plant;
        const auto found = plant.mix_of_a_lot(pan, 4, 3.5);
        plant.becomes(found, gone);
        for (int i = 0; i < 20; ++i)
            plant.mix_of_a_lot(pan, 4);
        Doughs doughs = started(plant);
        REQUIRE(doughs.water().was_let_go(found));

        plant.becomes(found, gone == LotState::rejected ? LotState::held : LotState::released);
        doughs.follow(plant.connection, plant.book);
        CHECK_FALSE(doughs.water().was_let_go(found));
        CHECK(difference(doughs, of_everything(plant), {found}) < 1e-9);

        plant.mix(pan, {found}, 3, Feel::stiff);
        doughs.follow(plant.connection, plant.book);
        CHECK(difference(doughs, of_everything(plant), {found}) < 1e-9);
    }
}

TEST_CASE("Flour that was found and used up again at another station counts with all its doughs") {
    TaughtBakery plant;
    const auto lot = plant.mix_of_a_lot(pan, 4, 3.5);
    for (int i = 0; i < 20; ++i)
        plant.mix_of_a_lot(pan, 4);
    Doughs doughs = started(plant);
    REQUIRE(doughs.water().was_let_go(lot));
    // Between two looks at the book it was in stock and is used up once more.
    plant.mix(pan, {lot}, 3, Feel::stiff);
    doughs.follow(plant.connection, plant.book);
    CHECK(difference(doughs, of_everything(plant), {lot}) < 1e-9);
    for (int i = 0; i < 20; ++i) {
        plant.mix_of_a_lot(pan, 4);
        doughs.follow(plant.connection, plant.book);
    }
    CHECK(doughs.water().was_let_go(lot));
    CHECK(difference(doughs, of_everything(plant), live_lots(plant.book)) < 1e-9);
}

TEST_CASE("How far a product's newest dough lay from its optimum is told as well as ever, its lots used up "
          "long ago") {
    TaughtBakery plant;
    const auto once = plant.mix_of_a_lot(bun, 6, 4);
    for (int i = 0; i < 40; ++i)
        plant.mix_of_a_lot(pan, 4);
    Doughs doughs = started(plant);
    CHECK(difference(doughs, of_everything(plant), {once}) < 1e-9);
    // Not asked for any more once the product was mixed of another lot.
    plant.mix_of_a_lot(bun, 1);
    for (int i = 0; i < 20; ++i)
        plant.mix_of_a_lot(pan, 4);
    doughs.follow(plant.connection, plant.book);
    CHECK(doughs.water().was_let_go(once));
}

TEST_CASE(
    "A rest that lies half a year is not carried along, and counts in full when it is mixed after all") {
    TaughtBakery plant;
    const auto rest = plant.mix_of_a_lot(pan, 4, 3.5);
    plant.becomes(rest, LotState::released);
    Doughs doughs;
    for (int i = 0; i < 30; ++i) {
        plant.at += Days{10};
        plant.mix_of_a_lot(pan, 4);
        doughs.follow(plant.connection, plant.book);
        if (i == 15)
            CHECK_FALSE(doughs.water().was_let_go(rest));
    }
    CHECK(doughs.water().was_let_go(rest));
    CHECK(deviation(doughs, rest) > 0.3);
    plant.mix(pan, {rest}, 3.5, Feel::right);
    doughs.follow(plant.connection, plant.book);
    CHECK(difference(doughs, of_everything(plant), {rest}) < 1e-9);
}

TEST_CASE(
    "The card of a lot of which a count found more is the one that the program started anew would show") {
    SmallPlant plant;
    auto small = plant.draft("W24-118");
    small.mass_kg = "100";
    const auto used_up = plant.released_lot(small);
    auto large = plant.draft("W24-119");
    large.mass_kg = "10000";
    const auto stays = plant.released_lot(large);
    const auto run = [&](LotId lot, const char* batches) {
        const auto id = plant.add_run("Pan bread", "2026-11-25", batches);
        plant.app().handle(GiveLot{lot, {}, id});
        INFO(plant.refusals());
        REQUIRE(plant.was_done());
        return id;
    };
    const auto mix = [&](RunId id, const char* feel) {
        plant.app().handle(ConfirmBatch{id, {}, 0});
        INFO(plant.refusals());
        REQUIRE(plant.was_done());
        plant.app().handle(LogResult{plant.app().card_of(id).logged.front().id, {"", "", feel, "", "", ""}});
    };
    mix(run(used_up, "1"), "stiff");
    REQUIRE(plant.row("W24-118").state == LotState::used_up);
    const auto others = run(stays, "60");
    for (int i = 0; i < 60; ++i)
        mix(others, "right");
    plant.open_again();

    plant.app().handle(CountLot{used_up, PlaceId{1}, "100", "found behind a pallet"});
    REQUIRE(plant.was_done());
    const auto again = run(used_up, "1");
    const auto card = plant.app().card_of(again);
    plant.open_again();
    CHECK(plant.app().card_of(again).water.note == card.water.note);
    CHECK(plant.app().card_of(again).water.value == card.water.value);
}
