#include "book_support.h"
#include "db/movement_store.h"
#include "db/run_store.h"
#include "db/supply_store.h"

namespace mellowbin {
namespace {

struct Planned {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    LotId old_lot = take_in_released(book, plant, "W1");
    LotId new_lot = take_in(book, plant, "W2");
    RunId run = add_run(book, good_run(plant, "R-1126-1"));
    RunId next = add_run(book, good_run(plant, "R-1126-2"));
    RunStore runs{book};

    Result<Done> replace(std::vector<RunId> for_runs, std::vector<Assignment> assignments) {
        Change change(book, line("The plan was adopted"));
        auto done = runs.replace_assignments(change, for_runs, assignments);
        if (done)
            change.commit();
        return done;
    }
    ExpectedId expect() {
        Change change(book, line("A delivery was ordered"));
        const auto id = SupplyStore(book)
                            .expect(change, {{},
                                             "",
                                             plant.mill,
                                             plant.flour,
                                             Grams{900'000},
                                             date::sys_days{2026_y / 12 / 4},
                                             date::sys_days{2026_y / 12 / 1},
                                             false})
                            .value()
                            .id;
        change.commit();
        return id;
    }
    Result<Done> replace(std::vector<RunId> for_runs, std::vector<Assignment> assignments,
                         std::vector<Promise> promises) {
        Change change(book, line("The plan was adopted"));
        auto done = runs.replace_assignments(change, for_runs, assignments, promises);
        if (done)
            change.commit();
        return done;
    }
    Result<Done> lock(Lock lock) {
        Change change(book, line("The plan was changed"));
        auto done = runs.set_lock(change, run, old_lot, lock);
        if (done)
            change.commit();
        return done;
    }
};

} // namespace

TEST_CASE("Runs come back as they went in, by day, line and sequence") {
    Planned planned;
    Run early = good_run(planned.plant, "R-1125-1");
    early.day -= Days{1};
    early.sequence = 3;
    early.batches = 7;
    early.flour = Grams{123'457};
    early.id = add_run(planned.book, early);
    const auto all = planned.runs.all();
    REQUIRE(all.size() == 3);
    CHECK(all[0] == early);
    CHECK(all[1].code == "R-1126-1");
    CHECK(planned.runs.between(early.day, early.day) == std::vector{early});
    CHECK(planned.runs.between(early.day + Days{1}, early.day + Days{1}).size() == 2);

    early.batches = 8;
    CHECK(add_run(planned.book, early) == early.id);
    CHECK(planned.runs.all()[0] == early);
}

TEST_CASE("How much longer a run ferments comes back with it, and goes when it is taken back or dropped") {
    Planned planned;
    Run run = *planned.runs.find(planned.run);
    run.longer_fermentation_minutes = 25;
    add_run(planned.book, run);
    CHECK(planned.runs.find(planned.run) == run);
    CHECK(planned.runs.find("R-1126-1") == run);
    CHECK(planned.runs.find(planned.next)->longer_fermentation_minutes == 0);
    run.longer_fermentation_minutes = 40;
    add_run(planned.book, run);
    CHECK(planned.runs.all().front().longer_fermentation_minutes == 40);
    run.longer_fermentation_minutes = 0;
    add_run(planned.book, run);
    CHECK(count_of(planned.book, "run_fermentation") == 0);
    run.longer_fermentation_minutes = 25;
    add_run(planned.book, run);
    Change change(planned.book, line("A run was dropped"));
    REQUIRE(planned.runs.remove(change, planned.run));
    change.commit();
    CHECK(count_of(planned.book, "run_fermentation") == 0);
    CHECK(planned.book.faults().empty());
}

TEST_CASE("A run's code is used once") {
    Planned planned;
    Change change(planned.book, line("A run was entered"));
    const auto refused = planned.runs.save(change, good_run(planned.plant, "R-1126-1"));
    REQUIRE_FALSE(refused);
    CHECK(refused.refusals()[0].field == "Run");
}

TEST_CASE("Assignments of the runs planned are replaced, those of others stay") {
    Planned planned;
    const Assignment first{planned.run, planned.old_lot, Grams{300'000}, false, "oldest that is ready"};
    const Assignment second{planned.run, planned.new_lot, Grams{100'000}, true, "chosen by the planner"};
    const Assignment other{planned.next, planned.new_lot, Grams{400'000}, false, ""};
    REQUIRE(planned.replace({planned.run, planned.next}, {first, second, other}));
    CHECK(planned.runs.assignments() == std::vector{first, second, other});

    const Assignment better{planned.run, planned.old_lot, Grams{290'000}, false, "polished"};
    REQUIRE(planned.replace({planned.run}, {better}));
    CHECK(planned.runs.assignments() == std::vector{better, second, other}); // the locked one stays
    CHECK(planned.runs.assignments_of(planned.next) == std::vector{other});
}

TEST_CASE("A plan that differs from what was locked meanwhile is refused, with nothing written") {
    Planned planned;
    const Assignment first{planned.run, planned.old_lot, Grams{300'000}, false, ""};
    REQUIRE(planned.replace({planned.run}, {first}));
    REQUIRE(planned.lock(Lock::locked));
    auto changed = first;
    changed.mass = Grams{200'000};
    const auto refused =
        planned.replace({planned.run}, {{planned.run, planned.new_lot, Grams{100'000}, false, ""}, changed});
    REQUIRE_FALSE(refused);
    CHECK_THAT(refused.refusals()[0].what, Catch::Contains("300.0 kg") && Catch::Contains("200.0 kg"));
    REQUIRE(planned.runs.assignments().size() == 1);
    CHECK(planned.runs.assignments()[0].is_locked);
    CHECK(planned.runs.assignments()[0].mass == Grams{300'000});

    REQUIRE(planned.lock(Lock::open));
    CHECK(planned.replace({planned.run}, {changed}));
    CHECK(planned.runs.assignments() == std::vector{changed});
}

TEST_CASE("An assignment for a run that is not being planned is refused, and so is a lock on none") {
    Planned planned;
    CHECK_FALSE(planned.replace({planned.run}, {{planned.next, planned.old_lot, Grams{1}, false, ""}}));
    CHECK_FALSE(planned.lock(Lock::locked));
}

TEST_CASE("A run is taken off the plan with its assignments, unless flour went into it") {
    Planned planned;
    REQUIRE(planned.replace({planned.run}, {{planned.run, planned.old_lot, Grams{1'000}, true, ""}}));
    {
        Change change(planned.book, line("Flour was used"));
        Movement use;
        use.lot = planned.old_lot;
        use.kind = MovementKind::use;
        use.from = planned.plant.bay;
        use.mass = Grams{500};
        use.run = planned.next;
        use.at = noon;
        REQUIRE(MovementStore(planned.book).append(change, use));
        change.commit();
    }
    {
        Change change(planned.book, line("Run R-1126-1 was taken off"));
        REQUIRE(planned.runs.remove(change, planned.run));
        change.commit();
    }
    CHECK(planned.runs.all().size() == 1);
    CHECK(planned.runs.assignments().empty());
    Change change(planned.book, line("Run R-1126-2 was taken off"));
    CHECK_FALSE(planned.runs.remove(change, planned.next));
}

TEST_CASE("A plan's promises are replaced with its assignments, those of other runs stay") {
    Planned planned;
    const ExpectedId delivery = planned.expect();
    const Promise first{planned.run, delivery, Grams{100'000}, "in time"};
    const Promise other{planned.next, delivery, Grams{50'000}, ""};
    REQUIRE(planned.replace({planned.run, planned.next}, {}, {first, other}));
    CHECK(planned.runs.promises() == std::vector{first, other});
    CHECK(planned.runs.promises_of(planned.next) == std::vector{other});
    REQUIRE(planned.replace({planned.run}, {{planned.run, planned.old_lot, Grams{1'000}, false, ""}}, {}));
    CHECK(planned.runs.promises() == std::vector{other});

    const auto refused = planned.replace({planned.run}, {}, {other});
    REQUIRE_FALSE(refused);
    CHECK(refused.refusals()[0].field == "Assignment");
    Change change(planned.book, line("Run R-1126-2 was taken off"));
    REQUIRE(planned.runs.remove(change, planned.next));
    change.commit();
    CHECK(planned.runs.promises().empty());
}

TEST_CASE("Nothing is promised of a delivery that came or was called off") {
    Planned planned;
    const ExpectedId delivery = planned.expect();
    const Promise promise{planned.run, delivery, Grams{100'000}, ""};
    REQUIRE(planned.replace({planned.run}, {}, {promise}));
    {
        Change change(planned.book, line("It came"));
        REQUIRE(SupplyStore(planned.book).end(change, delivery));
        change.commit();
    }
    CHECK(planned.runs.promises().empty());
    const auto refused = planned.replace({planned.run}, {}, {promise});
    REQUIRE_FALSE(refused);
    CHECK(refused.refusals()[0].field == "Delivery");
}

TEST_CASE("A change by hand replaces locked assignments too") {
    Planned planned;
    REQUIRE(planned.replace({planned.run}, {{planned.run, planned.old_lot, Grams{300'000}, false, ""}}));
    REQUIRE(planned.lock(Lock::locked));
    const std::vector<RunId> runs{planned.run};
    const std::vector<Assignment> by_hand{{planned.run, planned.old_lot, Grams{200'000}, true, "by hand"}};
    {
        Change change(planned.book, line("The run was changed"));
        REQUIRE(planned.runs.set_assignments(change, runs, by_hand, {}));
        change.commit();
    }
    CHECK(planned.runs.assignments() == by_hand);
    Change change(planned.book, line("Another run was changed"));
    const std::vector<Assignment> elsewhere{{planned.next, planned.old_lot, Grams{1}, true, ""}};
    CHECK_FALSE(planned.runs.set_assignments(change, runs, elsewhere, {}));
}

} // namespace mellowbin
