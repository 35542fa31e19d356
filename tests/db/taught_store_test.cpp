#include "book_support.h"
#include "db/batch_store.h"
#include "db/taught_store.h"

namespace mellowbin {
namespace {

struct Mixed {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    LotId lot = take_in(book, plant, "W1"), other = take_in(book, plant, "W2");
    RunId run = add_run(book, good_run(plant, "R1"));
    TaughtStore taught{book};

    template <class Act> auto done(Act act) {
        Change change(book, line("Something was done"));
        auto result = act(change);
        if (result)
            change.commit();
        return result;
    }
    BatchId log(int number, std::vector<BatchFlour> flour, bool is_known = true) {
        Batch b;
        b.run = run;
        b.number = number;
        b.flour = std::move(flour);
        b.water = Kilograms{58.5};
        b.ice = Kilograms{4};
        b.poured_ml = 250;
        b.water_temperature = Celsius{3};
        b.oxidant = Substance::ascorbic_acid;
        if (is_known) {
            b.farinograph = Absorption14{61.5};
            b.absorption = Absorption14{63.25};
        }
        b.flour_temperature = Celsius{19};
        b.room_temperature = Celsius{22};
        return *done([&](Change& change) { return BatchStore(book).log(change, b, {}); });
    }
    void say(BatchId id, Feel feel) {
        REQUIRE(done([&](Change& change) {
            return BatchStore(book).set_result(change, id, {Celsius{26.5}, {}, feel, {}, {}, ""});
        }));
    }
    void counter(BatchId id) {
        REQUIRE(done([&](Change& change) { return BatchStore(book).counter(change, id, "not mixed"); }));
    }
    template <class Record> void save(const Record& record) {
        REQUIRE(done([&](Change& change) { return PlantStore(book).save(change, record); }));
    }
    std::vector<std::int64_t> after(std::int64_t batch, int most) {
        std::vector<std::int64_t> ids;
        for (const auto& one : taught.after(BatchId{batch}, most))
            ids.push_back(one.id.number());
        return ids;
    }
};

} // namespace

TEST_CASE(
    "What a batch teaches is read with its run, its flour, its lots' moisture and the newest word on it") {
    Mixed at;
    const auto id = at.log(1, {{at.other, Grams{40'000}}, {at.lot, Grams{60'000}}});
    at.say(id, Feel::stiff);
    at.say(id, Feel::right);
    TaughtBatch expected;
    expected.id = id;
    expected.product = at.plant.product;
    expected.line = at.plant.line;
    expected.day = date::sys_days{2026_y / 11 / 26};
    expected.flour = {{at.other, Grams{40'000}, Moisture{14.2}}, {at.lot, Grams{60'000}, Moisture{14.2}}};
    expected.water = Kilograms{58.5};
    expected.ice = Kilograms{4};
    expected.poured_ml = 250;
    expected.water_temperature = Celsius{3};
    expected.flour_temperature = Celsius{19};
    expected.room_temperature = Celsius{22};
    expected.farinograph = Absorption14{61.5};
    expected.absorption = Absorption14{63.25};
    expected.dough_temperature = Celsius{26.5};
    expected.feel = Feel::right;
    CHECK(at.taught.after(BatchId{}, 10) == std::vector{expected});
    at.counter(id);
    expected.is_countered = true;
    CHECK(at.taught.after(BatchId{}, 10) == std::vector{expected});
}

TEST_CASE("Batches come a page at a time; what takes one back is none") {
    Mixed at;
    for (int number = 1; number <= 3; ++number)
        at.log(number, {{at.lot, Grams{1}}, {at.other, Grams{1}}});
    at.counter(BatchId{2});
    at.log(4, {{at.lot, Grams{1}}}, false);
    using Ids = std::vector<std::int64_t>;
    CHECK(at.after(0, 2) == Ids{1, 2});
    CHECK(at.after(2, 2) == Ids{3, 5});
    CHECK(at.after(3, 10) == Ids{5});
    CHECK(at.after(5, 10).empty());
}

TEST_CASE("A look at the book hears of the first batch that was taken back or spoken of since the last") {
    Mixed at;
    CHECK(at.taught.newest() == BatchRows{});
    for (int number = 1; number <= 3; ++number)
        at.log(number, {{at.lot, Grams{1}}});
    auto rows = at.taught.newest();
    CHECK(rows == BatchRows{3, 0});
    CHECK_FALSE(at.taught.first_changed_since(rows));
    at.say(BatchId{2}, Feel::right);
    CHECK(at.taught.first_changed_since(rows) == BatchId{2});
    at.counter(BatchId{1});
    CHECK(at.taught.first_changed_since(rows) == BatchId{1});
    rows = at.taught.newest();
    at.log(4, {{at.lot, Grams{1}}});
    CHECK_FALSE(at.taught.first_changed_since(rows));
}

TEST_CASE("A lot is known by its doughs: the last it was in, and the last that taught something of it") {
    Mixed at;
    CHECK(at.taught.lot(at.lot)->last_batch == BatchId{});
    CHECK_FALSE(at.taught.lot(at.lot)->last_at);
    CHECK_FALSE(at.taught.lot(LotId{99}));
    CHECK_FALSE(at.taught.newest_at());
    for (int number = 1; number <= 2; ++number)
        at.log(number, {{at.lot, Grams{1}}});
    at.log(3, {{at.lot, Grams{1}}}, false);
    at.log(4, {{at.other, Grams{1}}});
    const auto lot = at.taught.lot(at.lot);
    CHECK(lot->state == LotState::awaiting_judgement);
    CHECK(lot->last_batch == BatchId{3});
    CHECK(lot->last_at == noon);
    CHECK(at.taught.newest_at() == noon);
    CHECK(at.taught.last_that_taught(at.lot, BatchId{4}) == BatchId{2});
    CHECK(at.taught.last_that_taught(at.lot, BatchId{1}) == BatchId{1});
    at.counter(BatchId{2});
    CHECK(at.taught.last_that_taught(at.lot, BatchId{4}) == BatchId{1});
    CHECK_FALSE(at.taught.last_that_taught(at.other, BatchId{3}));
}

TEST_CASE("What the plant says of a product's dough and a line's ice holds for the batches after it") {
    Mixed at;
    auto product = PlantStore(at.book).products().front();
    auto mixer = PlantStore(at.book).lines().front();
    at.log(1, {{at.lot, Grams{1}}});
    product.water_offset = AbsorptionPoints{2.5};
    product.is_offset_assumed = false;
    at.save(product);
    at.log(2, {{at.lot, Grams{1}}});
    product.ingredients = {{"Salt", 2}, {"Yeast", 3}};
    at.save(product);
    mixer.ice_temperature = Celsius{-8};
    at.save(mixer);
    at.log(3, {{at.lot, Grams{1}}});
    std::vector<ExpectedOffset> said{{product.id, {}, AbsorptionPoints{0}, true},
                                     {product.id, BatchId{1}, AbsorptionPoints{2.5}, false},
                                     {product.id, BatchId{2}, AbsorptionPoints{2.5}, false}};
    CHECK(at.taught.expected() == said);
    const auto batches = at.taught.after(BatchId{}, 10);
    CHECK(batches[1].beside.percent == 0);
    CHECK(batches[1].ice_temperature == Celsius{0});
    CHECK(batches[2].beside.percent == 5);
    CHECK(batches[2].ice_temperature == Celsius{-8});
    // What the ingredients bring of water, and how warm they are.
    product.ingredients = {{"Salt", 2}, {"Egg", 12, 75, Celsius{4}}};
    at.save(product);
    at.log(4, {{at.lot, Grams{1}}});
    const auto last = at.taught.after(BatchId{3}, 1).at(0);
    CHECK(last.beside == beside_flour(product.ingredients));
    CHECK(last.beside.water_percent == 9);
    CHECK(last.beside.tempered == Celsius{4});
    said.push_back({product.id, BatchId{3}, AbsorptionPoints{2.5}, false});
    // Saved without a word on its dough: nothing is said.
    product.name = "Tin loaf";
    at.save(product);
    mixer.name = "Line A";
    at.save(mixer);
    CHECK(at.taught.expected() == said);
    CHECK(count_of(at.book, "expected_ice") == 2);
    for (const char* sql : {"UPDATE expected_offset SET offset_points = 1", "DELETE FROM expected_offset",
                            "UPDATE expected_ice SET ice_c = 1", "DELETE FROM expected_ice"})
        CHECK(fault_of([&] { at.book.execute(sql); }).fault() == BookFault::rule_broken);
}

} // namespace mellowbin
