// Where flour lies now and lay at any instant, against the movements themselves.

#include "book_support.h"
#include "db/draw_store.h"
#include "db/movement_store.h"
#include "db/silo_store.h"
#include "db/stock_store.h"

#include <map>
#include <random>

namespace mellowbin {
namespace {

using Catch::Matchers::Contains;

/// A bay and a silo, and two lots that came into the bay at noon.
struct Stocked {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    LotId first = take_in_released(book, plant, "W1"), second = take_in_released(book, plant, "W2");
    MovementStore movements{book};
    StockStore stock{book};
    SiloStore silos{book};

    Result<MovementId> moved(LotId lot, MovementKind kind, std::optional<PlaceId> from,
                             std::optional<PlaceId> to, std::int64_t grams, Instant at = noon) {
        Movement m;
        m.lot = lot;
        m.kind = kind;
        m.from = from;
        m.to = to;
        m.mass = Grams{grams};
        m.at = at;
        m.who = "Ada Example";
        return appended(m);
    }
    Result<MovementId> appended(const Movement& m) {
        Change change(book, line("Flour was moved"));
        auto id = movements.append(change, m);
        if (id)
            change.commit();
        return id;
    }
    template <class Act> void done(Act act) {
        Change change(book, line("Something was said"));
        REQUIRE(act(change));
        change.commit();
    }
    void holds_at_most(std::int64_t grams) {
        done([&](Change& change) { return silos.set_capacity(change, plant.silo, Grams{grams}); });
    }
};

using Sums = std::map<std::pair<LotId, PlaceId>, Grams>;

Sums sums_of(const std::vector<StockLine>& lines) {
    Sums sums;
    for (const auto& line : lines)
        sums[{line.lot, line.place}] = line.mass;
    return sums;
}

/// Added up one by one.
Sums added_up(const std::vector<Movement>& movements, Instant until) {
    Sums sums;
    for (const auto& m : movements) {
        if (m.at > until)
            continue;
        if (m.from)
            sums[{m.lot, *m.from}] += -m.mass;
        if (m.to)
            sums[{m.lot, *m.to}] += m.mass;
    }
    std::erase_if(sums, [](const auto& one) { return one.second == Grams{0}; });
    return sums;
}

} // namespace

TEST_CASE("What lies where is what the movements add up to, now and at every instant before") {
    Stocked at;
    std::mt19937 random(20'261'201); // NOLINT(cert-msc32-c,cert-msc51-cpp): the same history each time
    const auto pick = [&](std::uint32_t below) { return random() % below; };
    for (int step = 0; step < 400; ++step) {
        const LotId lot = pick(2) == 0 ? at.first : at.second;
        const auto one = pick(2) == 0 ? at.plant.bay : at.plant.silo;
        const auto other = one == at.plant.bay ? at.plant.silo : at.plant.bay;
        const auto grams = 1 + static_cast<std::int64_t>(pick(900'000));
        const Instant when = noon + std::chrono::minutes(step);
        switch (pick(4)) {
        case 0:
            (void)at.moved(lot, MovementKind::count, {}, one, grams, when);
            break;
        case 1:
            (void)at.moved(lot, MovementKind::waste, one, {}, grams, when); // refused where less lies there
            break;
        default:
            (void)at.moved(lot, MovementKind::move, one, other, grams, when);
        }
    }
    const auto all = at.movements.all();
    REQUIRE(all.size() > 250);
    CHECK(sums_of(at.stock.now()) == added_up(all, noon + std::chrono::hours(24)));
    for (const int minute : {-1, 0, 1, 77, 200, 399, 1000})
        CHECK(sums_of(at.stock.at(noon + std::chrono::minutes(minute))) ==
              added_up(all, noon + std::chrono::minutes(minute)));
    CHECK(at.book.faults().empty());
}

TEST_CASE("A line of the stock bears the names, the bag and the days of its lot") {
    Stocked at;
    const auto lines = at.stock.now();
    REQUIRE(lines.size() == 2);
    CHECK(lines[0].code == "W1");
    CHECK(lines[0].mass == at.stock.lying(at.first, at.plant.bay));
    CHECK(lines[0].mass + lines[1].mass == at.stock.lying_in(at.plant.bay));
    CHECK(lines[0].bag == good_lot(at.plant, "W1").bag);
    CHECK(lines[0].delivered_on == good_lot(at.plant, "W1").delivered_on);
    CHECK(lines[0].state == LotState::released);
    CHECK(at.stock.lying(at.first, at.plant.silo) == Grams{0});
}

TEST_CASE("A book in which what lies is not what moved there is found out") {
    Stocked at;
    at.book.execute("UPDATE lying SET mass_g = mass_g + 5 WHERE lot_id = $1", {at.first});
    REQUIRE(at.book.faults().size() == 1);
    CHECK_THAT(at.book.faults().front(), Contains("what lies of lot 1 in place 1 is not what moved there"));
}

TEST_CASE("The book itself lets nothing leave a place that does not lie there") {
    Stocked at;
    const auto take = [&](std::int64_t grams, PlaceId from) {
        at.book.execute(
            "INSERT INTO movement (id, lot_id, kind, from_place_id, to_place_id, mass_g, at, who, run_id, "
            "counters_id, note) VALUES (900, $1, 'waste', $2, NULL, $3, '2026-11-25T12:00:00Z', 'Ada', "
            "NULL, NULL, '')",
            {at.first, from, grams});
    };
    CHECK(fault_of([&] { take(1, at.plant.silo); }).fault() == BookFault::rule_broken);
    CHECK(fault_of([&] { take(900'000'000, at.plant.bay); }).fault() == BookFault::rule_broken);
    CHECK_NOTHROW(take(1, at.plant.bay));
}

TEST_CASE("Nothing more comes into a silo than it takes, but what was counted or taken back") {
    Stocked at;
    const auto bay = at.plant.bay;
    const auto silo = at.plant.silo;
    at.holds_at_most(1'000'000);
    CHECK(at.moved(at.first, MovementKind::move, bay, silo, 900'000));
    const auto too_much = at.moved(at.second, MovementKind::move, bay, silo, 100'001);
    REQUIRE_FALSE(too_much);
    CHECK_THAT(in_words(too_much.refusals().front()),
               Contains("100 kg was read, but Silo 1 holds 1000 kg at most and 900 kg lie in it"));
    const auto emptied = at.moved(at.first, MovementKind::waste, silo, {}, 900'000);
    REQUIRE(emptied);
    CHECK(at.moved(at.second, MovementKind::move, bay, silo, 1'000'000));
    CHECK(at.moved(at.second, MovementKind::count, {}, silo, 5'000)); // it was there all the time
    Movement mistaken = at.movements.of(at.first).back();
    CHECK(at.appended(countering(mistaken, "Ada Example", noon, "it was not")));
    at.done([&](Change& change) { return at.silos.set_capacity(change, silo, {}); });
    CHECK(at.moved(at.second, MovementKind::move, bay, silo, 500'000));
    CHECK(at.silos.capacities().empty());
}

TEST_CASE("Only a silo has a capacity and care, and what was said last holds") {
    Stocked at;
    at.holds_at_most(2'000);
    at.holds_at_most(3'000);
    CHECK(at.silos.capacity(at.plant.silo) == Grams{3'000});
    {
        Change change(at.book, line("A bay holds"));
        CHECK_FALSE(at.silos.set_capacity(change, at.plant.bay, Grams{1'000}));
    }
    {
        Change change(at.book, line("A bay is clean"));
        CHECK_FALSE(at.silos.note(change, {at.plant.bay, CareKind::cleaned, {}, "Bo", "", {}, ""}));
    }
    const Day day = date::sys_days{2026_y / 11 / 20};
    for (const auto kind : {CareKind::emptied, CareKind::cleaned, CareKind::sanitised})
        at.done([&](Change& change) {
            return at.silos.note(change, {at.plant.silo, kind, day, "Bo", "by hand", {}, ""});
        });
    const auto care = at.silos.care_of(at.plant.silo, 2);
    REQUIRE(care.size() == 2);
    CHECK(care[0].kind == CareKind::sanitised);
    CHECK(care[1].kind == CareKind::cleaned);
    CHECK(care[0].day == day);
    CHECK(care[0].by == "Bo");
    CHECK(care[0].who == line("").who);
}

TEST_CASE("From where a run draws is what was said last of it") {
    Stocked at;
    const auto run = add_run(at.book, good_run(at.plant, "R-1"));
    DrawStore draws(at.book);
    for (const auto place : {at.plant.bay, at.plant.silo}) {
        Change change(at.book, line("It draws from there"));
        draws.say(change, {run, at.first, place});
        change.commit();
    }
    CHECK(draws.of(run) == std::vector{DrawPlace{run, at.first, at.plant.silo}});
    CHECK(draws.of_runs_since(good_run(at.plant, "R-1").day).size() == 1);
    CHECK(draws.of_runs_since(good_run(at.plant, "R-1").day + Days{1}).empty());
}

} // namespace mellowbin
