#include "book_support.h"
#include "db/complaint_store.h"
#include "db/journal_store.h"
#include "support/explained_book.h"

namespace mellowbin {
namespace {

constexpr Day day(int of_november) {
    return date::sys_days{2026_y / 11 / static_cast<unsigned>(of_november)};
}

struct Complained {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    LotId lot = take_in(book, plant, "W1");
    ComplaintStore store{book};

    Complaint good() const {
        Complaint complaint;
        complaint.mill = plant.mill;
        complaint.lot = lot;
        complaint.property = Property::protein;
        complaint.subject = "low";
        complaint.words = "lower than on the certificate";
        complaint.affected = Grams{1'000'000};
        complaint.noticed_on = day(24);
        return complaint;
    }
    template <class Act> auto done(Act act) {
        Change change(book, line("Something was done"));
        auto result = act(change);
        if (result)
            change.commit();
        return result;
    }
    ComplaintId logged(const Complaint& complaint) {
        return done([&](Change& change) { return store.log(change, complaint); }).value();
    }
    auto answered(ComplaintId id, std::string words = "other wheat") {
        return done([&](Change& change) { return store.answer(change, id, {day(25), words, "", {}}); });
    }
    auto taken_back(ComplaintId id) {
        return done([&](Change& change) { return store.take_answer_back(change, id, "of another mill"); });
    }
    auto withdrawn(ComplaintId id) {
        return done([&](Change& change) { return store.withdraw(change, id, "our own fault"); });
    }
};

} // namespace

TEST_CASE(
    "A complaint comes back as it was logged, by the person of the change; what is not said is missing") {
    Complained at;
    auto full = at.good();
    full.id = at.logged(full);
    full.who = "Ada Example";
    full.logged_at = noon;
    CHECK(at.store.find(full.id) == full);
    auto bare = at.good();
    bare.lot.reset();
    bare.property.reset();
    bare.affected = Grams{0};
    bare.id = at.logged(bare);
    bare.who = "Ada Example";
    bare.logged_at = noon;
    CHECK(at.store.find(bare.id) == bare);
    CHECK(at.store.open_of(at.plant.mill) == std::vector{full, bare});
    CHECK_FALSE(at.store.find(ComplaintId{9}));
    const auto changes = JournalStore(at.book).since(0);
    CHECK(std::count(changes.records.begin(), changes.records.end(), record_of(full.id)) == 1);
}

TEST_CASE("Complaints of some days come in the order of their days; another mill's do not") {
    Complained at;
    const auto on = [&](int of_november) {
        auto complaint = at.good();
        complaint.noticed_on = day(of_november);
        return at.logged(complaint);
    };
    const auto late = on(20), early = on(10), first = on(5), last = on(22);
    std::vector<ComplaintId> ids;
    for (const auto& complaint : at.store.of_mill(at.plant.mill, day(5), day(20)))
        ids.push_back(complaint.id);
    CHECK(ids == std::vector{first, early, late});
    CHECK(at.store.of_mill(MillId{9}, day(1), day(30)).empty());
    CHECK(at.store.open_of(MillId{9}).empty());
    CHECK(at.store.open_of(at.plant.mill).size() == 4);
    CHECK(at.store.open_of(at.plant.mill).back().id == last);
}

TEST_CASE("An answer closes a complaint once, and taken back it is open again; both stay in the book") {
    Complained at;
    const auto id = at.logged(at.good());
    REQUIRE(at.answered(id));
    const auto answer = at.store.find(id)->answer;
    REQUIRE(answer);
    CHECK(*answer == ComplaintAnswer{day(25), "other wheat", "Ada Example", noon});
    CHECK(at.store.open_of(at.plant.mill).empty());
    const auto twice = at.answered(id, "sorry");
    REQUIRE_FALSE(twice);
    CHECK(twice.refusals().front().what == "was answered on 2026-11-25: other wheat");
    REQUIRE(at.taken_back(id));
    CHECK_FALSE(at.store.find(id)->answer);
    CHECK(at.store.open_of(at.plant.mill).size() == 1);
    CHECK_FALSE(at.taken_back(id));
    REQUIRE(at.answered(id, "sorry"));
    CHECK(at.store.find(id)->answer->words == "sorry");
    CHECK(count_of(at.book, "complaint_answer") == 3);
    CHECK_FALSE(at.answered(ComplaintId{9}));
    CHECK_FALSE(at.taken_back(ComplaintId{9}));
}

TEST_CASE("A complaint is withdrawn once by a second row, which is no complaint of its own") {
    Complained at;
    const auto id = at.logged(at.good());
    REQUIRE(at.withdrawn(id));
    const auto all = at.store.of_mill(at.plant.mill, day(1), day(30));
    REQUIRE(all.size() == 1);
    CHECK(all.front().is_withdrawn);
    CHECK(all.front().words == "lower than on the certificate");
    CHECK(at.store.open_of(at.plant.mill).empty());
    const auto lines = count_of(at.book, "journal");
    CHECK_FALSE(at.withdrawn(id));
    CHECK_FALSE(at.answered(id));
    CHECK_FALSE(at.withdrawn(ComplaintId{id.number() + 1})); // the second row
    CHECK_FALSE(at.withdrawn(ComplaintId{9}));
    CHECK(count_of(at.book, "complaint") == 2);
    CHECK(count_of(at.book, "journal") == lines);
}

TEST_CASE("By SQL, too, no impossible complaint is written, and what was written is not edited") {
    Complained at;
    const auto id = at.logged(at.good());
    REQUIRE(at.answered(id));
    at.book.execute("INSERT INTO mill VALUES (2, 'Lower mill')");
    const auto before = at.store.find(id);
    for (const char* sql : {
             "INSERT INTO complaint VALUES (2, 1, NULL, NULL, '', 'x', 0, '2026-11-25', "
             "'2026-11-25T12:00:00Z', "
             "'', NULL, 1)",
             "INSERT INTO complaint VALUES (2, 1, NULL, NULL, 'bags', '', 0, '2026-11-25', "
             "'2026-11-25T12:00:00Z', '', NULL, 1)",
             "INSERT INTO complaint VALUES (2, 1, NULL, NULL, 'bags', 'x', -1, '2026-11-25', "
             "'2026-11-25T12:00:00Z', '', NULL, 1)",
             "INSERT INTO complaint VALUES (2, 2, 1, NULL, 'bags', 'x', 0, '2026-11-25', "
             "'2026-11-25T12:00:00Z', '', NULL, 1)", // the lot is the other mill's
             "INSERT INTO complaint VALUES (2, 2, NULL, NULL, 'bags', 'x', 0, '2026-11-25', "
             "'2026-11-25T12:00:00Z', '', 1, 0)", // and so is the complaint
             "INSERT INTO complaint VALUES (2, 1, NULL, NULL, 'bags', 'x', 0, '2026-11-25', "
             "'2026-11-25T12:00:00Z', '', 1, 1)", // a withdrawal is not open
             "UPDATE complaint SET words = 'y'",
             "UPDATE complaint SET mill_id = 2",
             "DELETE FROM complaint",
             "INSERT INTO complaint_answer VALUES (2, 9, '2026-11-25', 'x', '2026-11-25T12:00:00Z', '')",
             "INSERT INTO complaint_answer VALUES (2, 1, '2026-11-25', '', '2026-11-25T12:00:00Z', '')",
             "UPDATE complaint_answer SET words = 'y'",
             "DELETE FROM complaint_answer",
         }) {
        INFO(sql);
        CHECK(fault_of([&] { at.book.execute(sql); }).fault() == BookFault::rule_broken);
    }
    CHECK(at.store.find(id) == before);
}

TEST_CASE("Complaints are found without walking through all there are") {
    tests::Walks walks;
    const auto book = tests::open_explained(walks, ":memory:");
    const auto plant = add_small_plant(*book);
    walks.is_listening = true;
    const ComplaintStore store(*book);
    (void)store.of_mill(plant.mill, day(1), day(30));
    (void)store.open_of(plant.mill);
    (void)store.find(ComplaintId{1});
    CHECK(walks.questions == 3);
    CHECK(walks.steps == std::vector<std::string>{});
    CHECK(walks.of_all_years() == std::vector<std::string>{});
}

} // namespace mellowbin
