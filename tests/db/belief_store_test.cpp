#include "book_support.h"
#include "db/batch_store.h"
#include "db/belief_store.h"

#include <algorithm>

namespace mellowbin {
namespace {

struct Kept {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    LotId lot = take_in(book, plant, "W1"), other = take_in(book, plant, "W2");
    BeliefStore store{book, "doughs-1"};

    void keep(std::int64_t batch, const std::vector<LetGoLot>& lots = {}, const char* form = "doughs-1") {
        Transaction transaction(book);
        BeliefStore(book, form).keep(transaction, {BatchId{batch}, "{}"}, lots);
        transaction.commit();
    }
    std::vector<std::int64_t> marks() const {
        std::vector<std::int64_t> all;
        for (const auto mark : store.marks())
            all.push_back(mark.number());
        return all;
    }
};

} // namespace

TEST_CASE("The newest mark comes back, and the newest before a batch") {
    Kept at;
    CHECK_FALSE(at.store.newest());
    at.keep(240);
    at.keep(480);
    CHECK(at.store.newest() == BeliefMark{BatchId{480}, "{}"});
    CHECK(at.store.newest(BatchId{480}) == BeliefMark{BatchId{240}, "{}"});
    CHECK_FALSE(at.store.newest(BatchId{240}));
    CHECK_FALSE(BeliefStore(at.book, "doughs-2").newest());
}

TEST_CASE("A lot that was let go comes back as it was kept first, from the batch on after which it went") {
    Kept at;
    const LetGoLot first{at.lot, BatchId{216}, 0.5, 0.04};
    at.keep(240, {first, {at.other, BatchId{240}, -0.25, 0.01}});
    at.keep(480, {{at.lot, BatchId{470}, 9, 9}}); // by another station
    CHECK(at.store.let_go(at.lot, BatchId{216}) == first);
    CHECK(at.store.let_go(at.lot, BatchId{1'000}) == first);
    CHECK_FALSE(at.store.let_go(at.lot, BatchId{215}));
    CHECK(at.store.let_go_between(BatchId{}, BatchId{239}) == std::vector{first});
    CHECK(at.store.let_go_between(BatchId{216}, BatchId{240}).size() == 1);
}

TEST_CASE("The newest eight marks stay, and of older ones one every 8,000 batches") {
    Kept at;
    for (std::int64_t batch = 240; batch <= 40'000; batch += 240)
        at.keep(batch);
    const auto marks = at.marks();
    CHECK(marks.size() == 8 + 5);
    CHECK(marks[marks.size() - 8] == 39'840 - 7 * 240);
    for (std::size_t i = 1; i + 8 < marks.size(); ++i)
        CHECK(marks[i] - marks[i - 1] >= 8'000);
    CHECK(marks[1] < 8'500);
}

TEST_CASE("A batch that is taken back, or whose word comes later, takes with it what rests on it") {
    Kept at;
    const auto run = add_run(at.book, good_run(at.plant, "R1"));
    BatchStore batches(at.book);
    const auto log = [&](int number) {
        Batch batch;
        batch.run = run;
        batch.number = number;
        batch.flour = {{at.lot, Grams{100'000}}};
        Change change(at.book, line("A batch was mixed"));
        const auto id = batches.log(change, batch, {});
        change.commit();
        return *id;
    };
    const auto say = [&](BatchId id, const BatchResult& result) {
        Change change(at.book, line("Something came of it"));
        REQUIRE(batches.set_result(change, id, result));
        change.commit();
    };
    for (int number = 1; number <= 4; ++number)
        REQUIRE(log(number).number() == number);
    const auto keep_all = [&] {
        for (std::int64_t batch = 1; batch <= 4; ++batch)
            at.keep(batch, {{batch < 3 ? at.lot : at.other, BatchId{batch}, 1, 1}});
        at.keep(4, {}, "doughs-0");
    };
    keep_all();
    say(BatchId{4}, {{}, {}, Feel::right, {}, {}, ""});
    CHECK(at.marks() == std::vector<std::int64_t>{1, 2, 3});
    CHECK_FALSE(BeliefStore(at.book, "doughs-0").newest());
    say(BatchId{2}, {{}, 5.4, {}, {}, {}, "sour"}); // teaches nothing
    CHECK(at.marks().size() == 3);
    say(BatchId{3}, {Celsius{26}, {}, {}, {}, {}, ""});
    CHECK(at.marks() == std::vector<std::int64_t>{1, 2});
    CHECK_FALSE(at.store.let_go(at.other, BatchId{9}));
    keep_all();
    Change change(at.book, line("A batch was taken back"));
    REQUIRE(batches.counter(change, BatchId{1}, "not mixed"));
    change.commit();
    CHECK(at.marks().empty());
    CHECK_FALSE(at.store.let_go(at.lot, BatchId{9}));
}

TEST_CASE("What comes after a batch is forgotten by one form, and everything by all") {
    Kept at;
    at.keep(240, {{at.lot, BatchId{240}, 1, 1}});
    at.keep(480, {{at.other, BatchId{480}, 1, 1}});
    at.keep(480, {}, "doughs-0");
    {
        Transaction transaction(at.book);
        at.store.forget_after(transaction, BatchId{240});
        transaction.commit();
    }
    CHECK(at.marks() == std::vector<std::int64_t>{240});
    CHECK(at.store.let_go(at.lot, BatchId{999}));
    CHECK_FALSE(at.store.let_go(at.other, BatchId{999}));
    CHECK(BeliefStore(at.book, "doughs-0").newest());
    {
        Transaction transaction(at.book);
        BeliefStore::forget_all(transaction);
        transaction.commit();
    }
    CHECK(count_of(at.book, "belief_mark") == 0);
    CHECK(count_of(at.book, "belief_lot") == 0);
}

} // namespace mellowbin
