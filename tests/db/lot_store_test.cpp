#include "book_support.h"
#include "db/journal_store.h"
#include "db/lot_store.h"
#include "db/movement_store.h"

#include <cmath>

namespace mellowbin {
namespace {

/// Every field filled in.
Lot full_lot(const SmallPlant& plant) {
    Lot lot = good_lot(plant, "W24-118");
    lot.best_before = date::sys_days{2027_y / 5 / 16};
    lot.price_per_tonne_minor = 45'250;
    lot.state = LotState::held;
    lot.state_reason = "Seal broken";
    lot.certificate.set({Property::ash, 0.55, Basis::dry_matter(), "ISO 2171", wheat_nitrogen_factor});
    lot.certificate.set({Property::protein, 12.3, Basis::as_is(), "Dumas", 6.25});
    lot.certificate.set(
        {Property::absorption, 58.4, Basis::at(Moisture{13.5}), "ISO 5530-1", wheat_nitrogen_factor});
    lot.mill_additions = {{Substance::potassium_bromate, OxidantPpm{12.5}},
                          {Substance::ascorbic_acid, OxidantPpm{20}}};
    lot.certified_on = lot.delivered_on;
    lot.delivered_at = Celsius{31.5};
    lot.extension = BestBeforeExtension{date::sys_days{2027_y / 8 / 1}, "still sound", "Ines"};
    lot.door = {{"Seal whole", DoorAnswer::yes, "", 0},
                {"Bags dry", DoorAnswer::no, "wet at one corner", 3},
                {"Flour cool", DoorAnswer::not_looked_at, "dark", 0}};
    return lot;
}

} // namespace

TEST_CASE("A lot comes back from the book as it went in") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    Lot lot = full_lot(plant);
    {
        Change change(book, line("Lot W24-118 was taken in"));
        lot.id = *LotStore(book).add(change, lot);
        change.commit();
    }
    CHECK(LotStore(book).all() == std::vector{lot});
    CHECK(LotStore(book).find(lot.id) == lot);
    CHECK(LotStore(book).find(plant.mill, "W24-118") == lot);
    CHECK_FALSE(LotStore(book).find(plant.mill, "W24-119"));
    CHECK_FALSE(LotStore(book).find(LotId{99}));
}

TEST_CASE("What a lot does not have is missing when it comes back, too") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    Lot lot = good_lot(plant, "W1");
    lot.milled_on.reset();
    lot.certificate = {};
    {
        Change change(book, line("Lot W1 was taken in"));
        lot.id = *LotStore(book).add(change, lot);
        change.commit();
    }
    const auto found = LotStore(book).find(lot.id);
    REQUIRE(found);
    CHECK(*found == lot);
    CHECK_FALSE(found->milled_on);
    CHECK_FALSE(found->best_before);
    CHECK(found->certificate.values().empty());
}

TEST_CASE("Each lot has its own certificate") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    std::vector<Lot> lots;
    for (const char* code : {"W3", "W1", "W2"})
        lots.push_back(good_lot(plant, code));
    lots[1].certificate = {};
    lots[1].mill_additions = {{Substance::ascorbic_acid, OxidantPpm{30}}};
    lots[2].certificate.set({Property::protein, 9.5, Basis::as_is(), "", wheat_nitrogen_factor});
    for (auto& lot : lots) {
        Change change(book, line("taken in"));
        lot.id = *LotStore(book).add(change, lot);
        change.commit();
    }
    CHECK(LotStore(book).all() == lots);
    CHECK(LotStore(book).find(lots[2].id) == lots[2]);
}

TEST_CASE("A lot taken in lies in its place and stands in the journal") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto id = take_in(book, plant, "W1");
    const auto movements = MovementStore(book).of(id);
    REQUIRE(movements.size() == 1);
    CHECK(StockBook(movements).at(id, plant.bay) == Grams{25'000'000});
    CHECK(JournalStore(book).newest(1).at(0).words == "Lot W1 was taken in");
}

TEST_CASE("A second lot of the same code is refused, with nothing written") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    take_in(book, plant, "W24-118");
    const auto lines = count_of(book, "journal");
    {
        Change change(book, line("Lot W24-118 was taken in"));
        const auto second = LotStore(book).take_in(change, delivered(plant, "W24-118"));
        REQUIRE_FALSE(second);
        REQUIRE(second.refusals().size() == 1);
        CHECK(second.refusals()[0].field == "Lot number");
        CHECK_THAT(second.refusals()[0].what, Catch::Contains("W24-118"));
    }
    CHECK(count_of(book, "lot") == 1);
    CHECK(count_of(book, "movement") == 1);
    CHECK(count_of(book, "journal") == lines);
}

TEST_CASE("Two mills may use the same lot number") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    take_in(book, plant, "W1");
    auto other = plant;
    {
        Change change(book, line("A mill was added"));
        other.mill = *PlantStore(book).save(change, Mill{{}, "Lower mill"});
        change.commit();
    }
    take_in(book, other, "W1");
    CHECK(LotStore(book).all().size() == 2);
    CHECK(LotStore(book).find(other.mill, "W1")->mill == other.mill);
}

TEST_CASE("A delivery of several lots comes in whole or not at all, and every refusal is told") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    take_in(book, plant, "W1");
    LotStore lots(book);
    {
        const std::vector delivery{delivered(plant, "W1"), delivered(plant, "W2"), delivered(plant, "W3"),
                                   delivered(plant, "W2")};
        Change change(book, line("A delivery was taken in"));
        const auto taken = lots.take_in(change, delivery);
        REQUIRE_FALSE(taken);
        REQUIRE(taken.refusals().size() == 2);
        CHECK_THAT(taken.refusals()[0].what, Catch::Contains("W1"));
        CHECK_THAT(taken.refusals()[1].what, Catch::Contains("W2"));
    }
    CHECK(count_of(book, "lot") == 1);
    {
        const std::vector delivery{delivered(plant, "W2"), delivered(plant, "W3")};
        Change change(book, line("A delivery was taken in"));
        const auto taken = lots.take_in(change, delivery);
        REQUIRE(taken);
        CHECK(taken->size() == 2);
        change.commit();
    }
    CHECK(count_of(book, "lot") == 3);
    CHECK(count_of(book, "movement") == 3);
}

TEST_CASE("A state is changed by the person of the change, by core's rules, from what the book holds now") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto id = take_in(book, plant, "W1");
    LotStore lots(book);
    {
        auto say = line("Lot W1 was held");
        say.who = "Quality";
        say.at = noon + std::chrono::hours(1);
        Change change(book, say);
        const auto held = lots.set_state(change, id, LotState::held, "Insects in the bag");
        REQUIRE(held);
        change.commit();
    }
    const auto lot = lots.find(id);
    CHECK(lot->state == LotState::held);
    CHECK(lot->state_reason == "Insects in the bag");
    CHECK(lot->state_by == "Quality");
    CHECK(lot->state_at == noon + std::chrono::hours(1));
    {
        Change change(book, line("Lot W1 was released"));
        const auto released = lots.set_state(change, id, LotState::released, "");
        REQUIRE_FALSE(released); // a held lot is released with a reason only
        CHECK(released.refusals()[0].field == "Reason");
    }
    CHECK(lots.find(id)->state == LotState::held);
    Change change(book, line("Lot ? was released"));
    CHECK_FALSE(lots.set_state(change, LotId{99}, LotState::released, ""));
}

TEST_CASE("The book holds core's limits of every property, even when core was passed by") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    int number = 0;
    const auto is_kept = [&](Property property, double value) {
        Lot lot = good_lot(plant, "L" + std::to_string(++number));
        lot.certificate.set({property, value, basis_for(property), "", wheat_nitrogen_factor});
        try {
            Change change(book, line("taken in"));
            (void)LotStore(book).add(change, lot);
            change.commit();
            return true;
        } catch (const BookError& error) {
            CHECK(error.fault() == BookFault::rule_broken);
            return false;
        }
    };
    CHECK_FALSE(is_kept(Property::moisture, 140));
    CHECK_FALSE(is_kept(Property::moisture, NAN));
    for (const auto& t : all_properties()) {
        INFO(t.key);
        CHECK(is_kept(t.property, t.lowest));
        CHECK(is_kept(t.property, t.highest));
        CHECK_FALSE(is_kept(t.property, t.lowest - 0.01));
        CHECK_FALSE(is_kept(t.property, t.highest + 0.01));
    }
}

TEST_CASE(
    "A last day is put off by the person of the change, by core's rules, and what held before comes back") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    LotStore lots(book);
    LotId id;
    {
        Change change(book, line("Lot W1 was taken in"));
        Lot lot = good_lot(plant, "W1");
        lot.best_before = date::sys_days{2026_y / 11 / 20};
        id = *lots.add(change, lot);
        change.commit();
    }
    const Day today = date::sys_days{2026_y / 11 / 25};
    {
        Change change(book, line("Lot W1 may be used longer"));
        CHECK_FALSE(lots.extend(change, id, "2026-11-20", "sound", today));
    }
    CHECK_FALSE(lots.find(id)->extension);
    {
        auto say = line("Lot W1 may be used longer");
        say.who = "Quality";
        Change change(book, say);
        REQUIRE(lots.extend(change, id, "2026-12-20", "sound", today));
        change.commit();
    }
    CHECK(lots.find(id)->extension ==
          BestBeforeExtension{date::sys_days{2026_y / 12 / 20}, "sound", "Quality"});
    {
        Change change(book, line("Taken back"));
        lots.set_extension(change, id, {});
        change.commit();
    }
    CHECK_FALSE(lots.find(id)->extension);
    Change change(book, line("Lot ? may be used longer"));
    CHECK_FALSE(lots.extend(change, LotId{99}, "2026-12-20", "sound", today));
}

TEST_CASE("What was answered at the door stays as it was answered") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    {
        Change change(book, line("Lot W24-118 was taken in"));
        REQUIRE(LotStore(book).add(change, full_lot(plant)));
        change.commit();
    }
    CHECK(fault_of([&] { book.execute("UPDATE lot_door_check SET answer = 'yes'"); }).fault() ==
          BookFault::rule_broken);
    CHECK(fault_of([&] { book.execute("DELETE FROM lot_door_check"); }).fault() == BookFault::rule_broken);
}

TEST_CASE("The book refuses days, masses and references that core would have refused") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto is_refused = [&](const std::function<void(Lot&)>& spoil) {
        Lot lot = good_lot(plant, "W1");
        spoil(lot);
        return fault_of([&] {
                   Change change(book, line("taken in"));
                   (void)LotStore(book).add(change, lot);
                   change.commit();
               }).fault() == BookFault::rule_broken;
    };
    CHECK(is_refused([](Lot& lot) { lot.milled_on = lot.delivered_on + Days{1}; }));
    CHECK(is_refused([](Lot& lot) { lot.best_before = lot.milled_on; }));
    CHECK(is_refused([](Lot& lot) { lot.received = Grams{0}; }));
    CHECK(is_refused([](Lot& lot) { lot.code = ""; }));
    CHECK(is_refused([](Lot& lot) { lot.delivered_at = Celsius{99}; }));
    CHECK(is_refused([](Lot& lot) { lot.door = {{"", DoorAnswer::yes, "", 0}}; }));
    CHECK(is_refused([](Lot& lot) { lot.door = {{"Bags dry", DoorAnswer::no, "", -1}}; }));
    CHECK(is_refused([](Lot& lot) { lot.mill = MillId{}; }));
    CHECK(is_refused([](Lot& lot) { lot.flour = FlourId{42}; }));
    CHECK(is_refused([](Lot& lot) { lot.mill_additions = {{Substance::ascorbic_acid, OxidantPpm{1001}}}; }));
    CHECK(count_of(book, "lot") == 0);
}

} // namespace mellowbin
