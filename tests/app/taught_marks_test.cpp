// What doughs taught is kept in the book: a start from a mark, and whatever happens to what a mark rests on,
// must give what a start from the first batch gives.
#include "app/book/taught_check.h"
#include "db/batch_store.h"
#include "support/catch.h"
#include "taught_bakery.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using namespace mellowbin::tests;
using Catch::Matchers::Contains;

namespace {

BeliefStore kept_of(TaughtBakery& plant) { return {plant.connection, dough::form_of_taught_state()}; }

/// Weeks in which marks were kept as a running program keeps them.
struct KeptWeeks : DicedWeeks {
    explicit KeptWeeks(unsigned seed, int batches = 1100) : DicedWeeks(seed) {
        for (int i = 0; i < batches; ++i) {
            one_more();
            if (i % 5 == 0)
                doughs.follow(connection, book);
        }
        doughs.follow(connection, book);
        REQUIRE(kept_of(*this).marks().size() >= 3);
    }
    /// Here, and at a program started now.
    void check_all() {
        doughs.follow(connection, book);
        const auto everything = of_everything(*this);
        CHECK(difference(doughs, everything, live_lots(book)) < 1e-9);
        CHECK(difference(started(*this), everything, live_lots(book)) < 1e-9);
    }
    Doughs doughs;
};

} // namespace

TEST_CASE("A start from a mark believes what a start from the first batch believes") {
    KeptWeeks plant(1);
    const auto live = live_lots(plant.book);
    const auto from_mark = started(plant);
    Doughs anew;
    anew.make_anew(plant.connection, plant.book);
    CHECK(difference(from_mark, anew, live) < 1e-9);
    CHECK(difference(from_mark, of_everything(plant), live) < 1e-9);
    // Of lots let go, too, as they were believed to be then.
    int gone = 0;
    for (const auto& lot : plant.book.lots) {
        CHECK(from_mark.water().was_let_go(lot.id) == anew.water().was_let_go(lot.id));
        gone += from_mark.water().was_let_go(lot.id) ? 1 : 0;
        CHECK(deviation(from_mark, lot.id) == Approx(deviation(anew, lot.id)).margin(0.05));
    }
    CHECK(gone > 150);
    CHECK(faults_of_what_is_taught(plant.connection).empty());
}

TEST_CASE("Only lots that may be asked for are held on to; one that is asked for later is recalled") {
    KeptWeeks plant(2);
    const auto old = plant.book.lots.front();
    const double was = deviation(plant.doughs, old.id);
    CHECK(was != 0);
    std::erase_if(plant.book.lots, [](const Lot& lot) { return lot.state != LotState::released; });
    auto later = started(plant);
    CHECK_FALSE(later.water().was_let_go(old.id));
    CHECK(deviation(later, old.id) == 0);
    plant.book.lots.insert(plant.book.lots.begin(), old);
    later.follow(plant.connection, plant.book);
    CHECK(later.water().was_let_go(old.id));
    CHECK(deviation(later, old.id) == was);
}

TEST_CASE(
    "An old batch that is taken back takes the marks after it along, and is unlearned from the one before") {
    KeptWeeks plant(3);
    const auto marks = kept_of(plant).marks();
    BatchId old{marks.at(1).number() + 30};
    while (plant.is_countered(old))
        old = BatchId{old.number() + 1};
    plant.counter(old);
    CHECK(kept_of(plant).marks() == std::vector<BatchId>(marks.begin(), marks.begin() + 2));
    plant.check_all();
    CHECK(kept_of(plant).newest()->last_batch > old);
    CHECK(faults_of_what_is_taught(plant.connection).empty());
}

TEST_CASE("A word that comes days after its dough is heard") {
    KeptWeeks plant(4);
    BatchId old{kept_of(plant).marks().at(2).number() - 20};
    while (plant.is_countered(old))
        old = BatchId{old.number() + 1};
    const auto before = started(plant);
    plant.say(old, Feel::slack);
    plant.check_all();
    CHECK(difference(before, plant.doughs, live_lots(plant.book)) > 1e-6);
}

TEST_CASE("What the plant says anew of a product holds from its next dough on, in a running program and at a "
          "start") {
    KeptWeeks plant(5);
    const auto before = started(plant);
    plant.expect(pan, 4.5, false);
    plant.check_all();
    CHECK(difference(before, plant.doughs, live_lots(plant.book)) > 0.1);
    for (int i = 0; i < 400; ++i)
        plant.one_more();
    plant.check_all();
    CHECK(faults_of_what_is_taught(plant.connection).empty());
    Doughs anew;
    anew.make_anew(plant.connection, plant.book);
    CHECK(difference(anew, of_everything(plant), live_lots(plant.book)) < 1e-9);
}

TEST_CASE("What the plant said and took back before the next dough changes nothing") {
    KeptWeeks plant(6, 800);
    const auto before = started(plant);
    plant.expect(pan, 4.5, false);
    plant.doughs.follow(plant.connection, plant.book);
    plant.expect(pan, 0, true);
    plant.check_all();
    CHECK(difference(before, plant.doughs, live_lots(plant.book)) < 1e-9);
}

TEST_CASE("A lot that comes back is taken up from a mark in which it still was") {
    for (const bool is_mixed_at_once : {false, true}) {
        KeptWeeks plant(7);
        const auto marks = kept_of(plant).marks();
        const auto lot = *std::find_if(plant.book.lots.begin(), plant.book.lots.end(), [&](const Lot& one) {
            const auto gone = kept_of(plant).let_go(one.id, marks.back());
            return gone && gone->after > marks.at(1);
        });
        REQUIRE(plant.doughs.water().was_let_go(lot.id));
        if (is_mixed_at_once)
            plant.mix(bun, {lot.id}, 4, Feel::stiff);
        else
            plant.becomes(lot.id, LotState::released);
        plant.doughs.follow(plant.connection, plant.book);
        CHECK(plant.doughs.water().knows(lot.id));
        CHECK(kept_of(plant).marks().front() == marks.front());
        CHECK(difference(plant.doughs, of_everything(plant), {lot.id, LotId{1'000'000}}) < 1e-9);
        CHECK(difference(started(plant), of_everything(plant), {lot.id, LotId{1'000'000}}) < 1e-9);
        CHECK(faults_of_what_is_taught(plant.connection).empty());
    }
}

TEST_CASE("Two stations on one book believe the same, whoever keeps the marks") {
    DicedWeeks plant(8);
    Doughs one, other;
    for (int i = 0; i < 900; ++i) {
        plant.one_more();
        if (i % 3 == 0)
            one.follow(plant.connection, plant.book);
        if (i % 97 == 0)
            other.follow(plant.connection, plant.book);
        if (i == 700) {
            BatchId old{400};
            while (plant.is_countered(old))
                old = BatchId{old.number() + 1};
            plant.counter(old);
        }
    }
    for (auto* station : {&one, &other})
        station->follow(plant.connection, plant.book);
    const auto everything = of_everything(plant);
    for (const auto* station : {&one, &other})
        CHECK(difference(*station, everything, live_lots(plant.book)) < 1e-9);
    CHECK(difference(started(plant), everything, live_lots(plant.book)) < 1e-9);
    CHECK(faults_of_what_is_taught(plant.connection).empty());
}

TEST_CASE("Marks do not pile up") {
    DicedWeeks plant(10);
    Doughs doughs;
    for (int i = 0; i < 3000; ++i) {
        plant.one_more();
        if (i % 20 == 0)
            doughs.follow(plant.connection, plant.book);
    }
    CHECK(kept_of(plant).marks().size() <= 9);
    std::size_t longest = 0;
    plant.connection.query("SELECT LENGTH(state) FROM belief_mark", {}, [&](const Row& row) {
        longest = std::max(longest, static_cast<std::size_t>(row.integer(0)));
    });
    CHECK(longest < 40'000); // of what is live, not of the 700 lots that were
}

TEST_CASE("A mark that was tampered with is found, and made anew") {
    KeptWeeks plant(11);
    CHECK(faults_of_what_is_taught(plant.connection).empty());
    const auto mark = *kept_of(plant).newest();
    auto state = mark.state;
    const auto tamper = [&](const std::string& with) {
        plant.connection.execute("UPDATE belief_mark SET state = $2 WHERE last_batch_id = $1",
                                 {mark.last_batch, with});
    };
    const auto digit = state.find("\"mean\":[") + 10;
    state.at(digit) = state.at(digit) == '5' ? '6' : '5';
    for (const auto& with : {state, std::string("{}"), std::string("nothing")}) {
        tamper(with);
        const auto faults = faults_of_what_is_taught(plant.connection);
        REQUIRE(faults.size() == 1);
        CHECK_THAT(faults.front(), Contains("doughs-anew") && Contains("up to batch"));
    }
    // Where it cannot be read it is passed over.
    CHECK(difference(started(plant), of_everything(plant), live_lots(plant.book)) < 1e-9);
    tamper(state);
    Doughs anew;
    anew.make_anew(plant.connection, plant.book);
    CHECK(faults_of_what_is_taught(plant.connection).empty());
    plant.check_all();
}

TEST_CASE("A lot whose last belief was tampered with is found") {
    KeptWeeks plant(12);
    const auto marks = kept_of(plant).marks();
    const auto gone = kept_of(plant).let_go_between(marks.at(marks.size() - 2), marks.back());
    REQUIRE_FALSE(gone.empty());
    plant.connection.execute("UPDATE belief_lot SET mean = mean + 0.5 WHERE lot_id = $1", {gone.front().lot});
    CHECK(faults_of_what_is_taught(plant.connection).size() == 1);
}

TEST_CASE("A book that cannot take a mark is followed all the same") {
    DicedWeeks plant(13);
    plant.connection.execute("CREATE TEMP TRIGGER no_mark BEFORE INSERT ON belief_mark "
                             "BEGIN SELECT RAISE(ABORT, 'the disk is full'); END");
    Doughs doughs;
    for (int i = 0; i < 600; ++i) {
        plant.one_more();
        doughs.follow(plant.connection, plant.book);
    }
    CHECK(kept_of(plant).marks().empty());
    CHECK(difference(doughs, of_everything(plant), live_lots(plant.book)) < 1e-9);
    CHECK(faults_of_what_is_taught(plant.connection).empty());
}

TEST_CASE("A long way to go is told on the way, from nothing to everything") {
    DicedWeeks plant(14);
    for (int i = 0; i < 4500; ++i)
        plant.one_more();
    std::vector<double> told;
    Doughs().follow(plant.connection, plant.book, [&](double share) { told.push_back(share); });
    REQUIRE(told.size() >= 2);
    CHECK(std::is_sorted(told.begin(), told.end()));
    CHECK(told.front() > 0);
    CHECK(told.back() <= 1);
}
