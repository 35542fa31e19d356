#include "book_support.h"
#include "db/delivery_store.h"
#include "db/journal_store.h"
#include "db/supply_store.h"

#include <algorithm>

namespace mellowbin {
namespace {

// Of GS1's own examples.
constexpr const char *one = "106141411234567897", *other = "376104250021234569",
                     *third = "123456789012345675";

struct Dock {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    LotId a = take_in(book, plant, "W1"), b = take_in(book, plant, "W2");
    DeliveryStore deliveries{book};

    template <class Act> auto done(Act act) {
        Change change(book, line("Something was done"));
        auto result = act(change);
        if (result)
            change.commit();
        return result;
    }
    DeliveryRecord record() const {
        DeliveryRecord record;
        record.mill = plant.mill;
        record.note = "DN 4711";
        record.order = "PO-17";
        record.delivered_on = date::sys_days{2026_y / 11 / 24};
        record.on_note = Grams{50'000'000};
        record.weighed = Grams{49'990'000};
        record.weight_reason = "the bridge says so";
        record.remark = "tarpaulin torn";
        record.who = "Ada Example";
        record.at = noon;
        record.lots = {a, b};
        record.pallets = {{one, a, Grams{1'000'000}}, {other, b, {}}, {third, a, Grams{500}}};
        return record;
    }
    Result<DeliveryId> add(const DeliveryRecord& record) {
        return done([&](Change& change) { return deliveries.add(change, record); });
    }
    void withdraw(LotId lot) {
        Change change(book, line("A lot was withdrawn"));
        deliveries.withdraw(change, lot);
        change.commit();
    }
};

} // namespace

TEST_CASE("A delivery comes back as it was written, with its lots and pallets in their order") {
    Dock at;
    auto record = at.record();
    const auto id = at.add(record);
    REQUIRE(id);
    record.id = *id;
    CHECK(at.deliveries.find(*id) == record);
    CHECK(at.deliveries.of_lot(at.b) == *id);
    CHECK(at.deliveries.pallets_of(at.a) ==
          std::vector<Pallet>{{one, at.a, Grams{1'000'000}}, {third, at.a, Grams{500}}});
    CHECK_FALSE(at.deliveries.find(DeliveryId{9}));
}

TEST_CASE("A delivery of which nothing more is known keeps what is missing as missing") {
    Dock at;
    DeliveryRecord bare;
    bare.mill = at.plant.mill;
    bare.delivered_on = date::sys_days{2026_y / 11 / 24};
    bare.who = "Ada Example";
    bare.at = noon;
    bare.lots = {at.a};
    const auto id = at.add(bare);
    REQUIRE(id);
    bare.id = *id;
    CHECK(at.deliveries.find(*id) == bare);
    CHECK_FALSE(at.deliveries.of_note(at.plant.mill, "", bare.delivered_on)); // no note is none to join by
}

TEST_CASE("The expected delivery that it answers comes back with it") {
    Dock at;
    const auto expected = at.done([&](Change& change) {
        return SupplyStore(at.book).expect(change, {{},
                                                    "",
                                                    at.plant.mill,
                                                    at.plant.flour,
                                                    Grams{50'000'000},
                                                    date::sys_days{2026_y / 11 / 24},
                                                    date::sys_days{2026_y / 11 / 24},
                                                    false,
                                                    "PO-17"});
    });
    REQUIRE(expected);
    auto record = at.record();
    record.expected = expected->id;
    const auto id = at.add(record);
    REQUIRE(id);
    CHECK(at.deliveries.find(*id)->expected == expected->id);
}

TEST_CASE("A pallet comes once, and a second time says with which lot it came, and leaves nothing behind") {
    Dock at;
    REQUIRE(at.add(at.record()));
    const LotId late = take_in(at.book, at.plant, "W3");
    auto again = at.record();
    again.note = "DN 4712";
    again.lots = {late};
    again.pallets = {{other, late, {}}};
    const auto refused = at.add(again);
    REQUIRE_FALSE(refused);
    CHECK(refused.refusals()[0].field == "Pallet");
    CHECK_THAT(
        refused.refusals()[0].what,
        Catch::Contains(
            "3761 0425 0021 2345 69 came before: on 2026-11-24 with lot W2 of Upper mill, note DN 4711"));
    CHECK(at.deliveries.newest({}).size() == 1);
    CHECK_FALSE(at.deliveries.of_lot(late));

    const auto came = at.deliveries.pallet(one);
    REQUIRE(came);
    CHECK(came->lot == at.a);
    CHECK(came->lot_code == "W1");
    CHECK(came->mass == Grams{1'000'000});
    CHECK_FALSE(at.deliveries.pallet("095201234500000014"));
    // The engine itself keeps to it.
    CHECK(fault_of([&] {
              at.book.execute("INSERT INTO delivery_pallet (id, delivery_id, lot_id, sscc, mass_g, is_free) "
                              "VALUES (9, 1, 1, $1, NULL, 0)",
                              {one});
          }).fault() == BookFault::rule_broken);
}

TEST_CASE("What of a delivery comes in later joins it, and says only what it knows anew") {
    Dock at;
    auto first = at.record();
    first.lots = {at.a};
    first.pallets = {{one, at.a, {}}};
    const auto id = at.add(first);
    REQUIRE(id);
    CHECK(at.deliveries.of_note(at.plant.mill, "DN 4711", first.delivered_on) == *id);
    CHECK_FALSE(at.deliveries.of_note(at.plant.mill, "DN 4711", first.delivered_on + Days{1}));
    CHECK_FALSE(at.deliveries.of_note(at.plant.mill, "DN 471", first.delivered_on));
    DeliveryRecord more;
    more.on_note = Grams{51'000'000};
    more.lots = {at.b};
    more.pallets = {{other, at.b, {}}};
    REQUIRE(at.done([&](Change& change) { return at.deliveries.join(change, *id, more); }));
    auto whole = first;
    whole.id = *id;
    whole.on_note = Grams{51'000'000};
    whole.lots = {at.a, at.b};
    whole.pallets = {{one, at.a, {}}, {other, at.b, {}}};
    CHECK(at.deliveries.find(*id) == whole);
    CHECK_FALSE(at.done([&](Change& change) { return at.deliveries.join(change, DeliveryId{9}, more); }));
}

TEST_CASE("A lot that is withdrawn leaves its delivery, its pallets may come again, and the rows stay") {
    Dock at;
    const auto id = at.add(at.record());
    REQUIRE(id);
    at.withdraw(at.a);
    CHECK(at.deliveries.find(*id)->lots == std::vector{at.b});
    CHECK(at.deliveries.find(*id)->pallets == std::vector<Pallet>{{other, at.b, {}}});
    CHECK_FALSE(at.deliveries.of_lot(at.a));
    CHECK_FALSE(at.deliveries.pallet(one));
    CHECK(at.deliveries.pallet(other));
    const LotId late = take_in(at.book, at.plant, "W3");
    auto again = at.record();
    again.lots = {late};
    again.pallets = {{one, late, {}}};
    REQUIRE(at.add(again));
    CHECK(at.deliveries.pallet(one)->lot == late);
    at.withdraw(at.b);
    CHECK(at.deliveries.newest({}).size() == 1); // of the first no lot stands
    CHECK(count_of(at.book, "delivery_lot") == 3);
    CHECK(fault_of([&] { at.book.execute("DELETE FROM delivery_pallet"); }).fault() ==
          BookFault::rule_broken);
    CHECK(fault_of([&] { at.book.execute("DELETE FROM delivery"); }).fault() == BookFault::rule_broken);
}

TEST_CASE("Deliveries are listed by their day, the newest first, of one mill where it is asked for, a page "
          "at a time") {
    Dock at;
    auto record = at.record();
    record.pallets.clear();
    record.lots = {at.a};
    REQUIRE(at.add(record));
    record.delivered_on -= Days{3};
    record.lots = {at.b};
    REQUIRE(at.add(record));
    const auto other_mill = [&] {
        Change change(at.book, line("A mill was added"));
        const auto id = PlantStore(at.book).save(change, Mill{{}, "Lower mill"});
        change.commit();
        return *id;
    }();
    record.delivered_on += Days{4};
    record.mill = other_mill;
    record.lots = {take_in(at.book, at.plant, "W3")};
    REQUIRE(at.add(record));
    const auto numbers = [&](const DeliveryQuery& query) {
        std::vector<std::int64_t> ids;
        for (const auto& one_of_them : at.deliveries.newest(query))
            ids.push_back(one_of_them.id.number());
        return ids;
    };
    CHECK(numbers({}) == std::vector<std::int64_t>{3, 1, 2});
    CHECK(numbers({at.plant.mill}) == std::vector<std::int64_t>{1, 2});
    CHECK(numbers({{}, 1, 1}) == std::vector<std::int64_t>{1});
    CHECK(numbers({MillId{9}}).empty());
}

TEST_CASE("The journal tells which delivery was written, so that other stations follow") {
    Dock at;
    const auto before = JournalStore(at.book).version();
    const auto id = at.add(at.record());
    REQUIRE(id);
    CHECK(JournalStore(at.book).since(before).records == std::vector{record_of(*id)});
    CHECK(record_kind_from_key("delivery_record") == RecordKind::delivery_record);
    const auto then = JournalStore(at.book).version();
    at.withdraw(at.a);
    CHECK(JournalStore(at.book).since(then).records == std::vector{record_of(*id)});
}

} // namespace mellowbin
