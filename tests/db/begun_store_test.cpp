#include "book_support.h"
#include "db/begun_store.h"
#include "db/journal_store.h"

namespace mellowbin {
namespace {

const BegunHolder ines{"Ines Example", "Office", noon + std::chrono::minutes(8)};
const BegunHolder joris{"Joris Example", "Dock", noon + std::chrono::minutes(9)};

/// Two stations at one book.
struct Half {
    TemporaryFolder folder;
    SqliteConnection book{folder / "book"};
    SqliteConnection elsewhere{folder / "book"};
    BegunStore begun{book};

    static BegunDelivery typed() {
        BegunDelivery delivery;
        delivery.who = "Ada Example";
        delivery.station = "Dock";
        delivery.at = noon;
        delivery.how_far = "3 lots of Upper mill";
        delivery.text_form = "1";
        delivery.text.begun = {"3 lots of Upper mill"};
        delivery.text.fields = {
            {"lots", "3"}, {"lots/0/draft/code", "W1\n\t“x”"}, {"lots/1/draft/code", "\xff\xfe"}};
        return delivery;
    }
    template <class Act> auto done(Connection& station, Act act) {
        Change change(station, line("Something was done"));
        auto result = act(change);
        if (result)
            change.commit();
        return result;
    }
    BegunId put_aside(const BegunHold& from = {}) {
        const auto id = done(book, [&](Change& change) { return begun.put_aside(change, typed(), from); });
        REQUIRE(id);
        return *id;
    }
    Result<BegunHold> take_over(BegunId id, const BegunHolder& holder,
                                TakeFrom from = TakeFrom::where_it_waits) {
        return done(elsewhere, [&](Change& change) { return begun.take_over(change, id, holder, from); });
    }
};

std::string why(const Refusals& refusals) { return in_words(refusals.at(0)); }

} // namespace

TEST_CASE("A delivery that is put aside comes back letter by letter, and its list costs no text") {
    Half at;
    const auto id = at.put_aside();
    auto expected = Half::typed();
    expected.id = id;
    CHECK(at.begun.find(id) == expected);
    expected.text = {};
    CHECK(at.begun.open() == std::vector{expected});
}

TEST_CASE("Only one of two takes it over, and the second is told who has it") {
    Half at;
    const auto id = at.put_aside();
    const auto hold = at.take_over(id, ines);
    REQUIRE(hold);
    CHECK(hold->hold == 1);
    CHECK(at.begun.open().at(0).holder == ines);
    const auto second = at.take_over(id, joris);
    REQUIRE_FALSE(second);
    CHECK_THAT(why(second.refusals()), Catch::Contains("Ines Example at Office has it"));
    CHECK(at.begun.open().at(0).holder == ines);
    // From whoever has it: then the first one has lost it.
    const auto taken = at.take_over(id, joris, TakeFrom::whoever_has_it);
    REQUIRE(taken);
    const auto lost = at.done(at.book, [&](Change& change) { return at.begun.came_in(change, *hold); });
    REQUIRE_FALSE(lost);
    CHECK_THAT(why(lost.refusals()), Catch::Contains("Joris Example at Dock has it"));
    REQUIRE(at.done(at.book, [&](Change& change) { return at.begun.came_in(change, *taken); }));
    CHECK(at.begun.open().empty());
    const auto gone = at.take_over(id, ines);
    REQUIRE_FALSE(gone);
    CHECK_THAT(why(gone.refusals()), Catch::Contains("came in meanwhile"));
}

TEST_CASE("Put aside again it waits with its new text under its number, and an old hold holds nothing") {
    Half at;
    const auto id = at.put_aside();
    const auto hold = at.take_over(id, ines);
    REQUIRE(hold);
    auto more = Half::typed();
    more.how_far = "4 lots of Upper mill";
    more.text.fields = {{"lots", "4"}};
    const auto again =
        at.done(at.elsewhere, [&](Change& change) { return at.begun.put_aside(change, more, *hold); });
    REQUIRE(again);
    CHECK(*again == id);
    const auto now = at.begun.find(id);
    CHECK(now->how_far == "4 lots of Upper mill");
    CHECK(now->text.fields == more.text.fields);
    CHECK_FALSE(now->holder);
    const auto old = at.done(at.book, [&](Change& change) { return at.begun.came_in(change, *hold); });
    REQUIRE_FALSE(old);
    CHECK_THAT(why(old.refusals()), Catch::Contains("was put aside again"));
    CHECK_FALSE(at.done(at.book, [&](Change& change) { return at.begun.put_aside(change, more, *hold); }));
    CHECK(at.take_over(id, joris)->hold == 2);
}

TEST_CASE("Thrown away it is off the list, not under the hands of who has it, and can be brought back") {
    Half at;
    const auto id = at.put_aside();
    const auto throw_away = [&](const BegunHold& hold) {
        return at.done(at.book, [&](Change& change) { return at.begun.throw_away(change, hold); });
    };
    const auto bring_back = [&] {
        return at.done(at.book, [&](Change& change) { return at.begun.bring_back(change, id); });
    };
    CHECK_FALSE(bring_back());
    const auto hold = at.take_over(id, ines);
    REQUIRE(hold);
    CHECK_FALSE(throw_away({id, 0}));
    REQUIRE(throw_away(*hold));
    CHECK(at.begun.open().empty());
    CHECK_FALSE(throw_away(*hold));
    REQUIRE(bring_back());
    REQUIRE(at.begun.open().size() == 1);
    CHECK_FALSE(at.begun.open()[0].holder);
    CHECK(at.begun.find(id)->text.fields == Half::typed().text.fields);
    REQUIRE(throw_away({id, 0})); // it waits: anybody may
    CHECK_FALSE(throw_away({BegunId{9}, 0}));
    CHECK(fault_of([&] { at.book.execute("DELETE FROM begun_delivery"); }).fault() == BookFault::rule_broken);
}

TEST_CASE("Each of these is told by the journal, so that every station's list follows") {
    Half at;
    const auto told = [&](auto act) {
        const auto before = JournalStore(at.book).version();
        act();
        return JournalStore(at.book).since(before).records == std::vector{record_of(BegunId{1})};
    };
    CHECK(told([&] { at.put_aside(); }));
    CHECK(told([&] { REQUIRE(at.take_over(BegunId{1}, ines)); }));
    CHECK(told([&] {
        REQUIRE(at.done(at.book, [&](Change& change) {
            return at.begun.throw_away(change, {BegunId{1}, 1});
        }));
    }));
    CHECK(told([&] {
        REQUIRE(at.done(at.book, [&](Change& change) { return at.begun.bring_back(change, BegunId{1}); }));
    }));
}

} // namespace mellowbin
