#include "app/models/own_tests.h"

#include "app/book/settings.h"
#include "app/book/station.h"
#include "db/complaint_store.h"
#include "db/mill_store.h"
#include "db/retest_store.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::app {
namespace {

/// So many tested lots tell how the next is tested: normal to reduced takes fifteen. Older ones than these,
/// or than two years, are not asked for, so that a lot costs the same in every year of the book.
constexpr int lots_looked_at = 60;
constexpr Days looked_back{730};

/// The lots of a mill's flour before another one, as their own tests found them.
struct InTurn {
    std::vector<TestedLot> lots;
    bool is_mended_since = false;
};

std::vector<Day> answers_of(const Station& s, MillId mill, FlourId flour, Day since) {
    std::vector<Day> days;
    for (const auto& complaint : ComplaintStore(*s.connection).of_mill(mill, since, s.today())) {
        if (!complaint.answer || complaint.is_withdrawn)
            continue;
        const Lot* lot = complaint.lot ? s.book.lot(*complaint.lot) : nullptr;
        if (!lot || lot->flour == flour) // of no lot, or of one that is not at hand: of the mill
            days.push_back(complaint.answer->answered_on);
    }
    return days;
}

/// Each answer at the first lot that came after it.
void note_answers(const std::vector<Day>& answers, const std::vector<LotInTurn>& came, InTurn& turn) {
    for (const Day day : answers) {
        const auto next = std::find_if(came.begin(), came.end(),
                                       [&](const LotInTurn& lot) { return lot.delivered_on > day; });
        if (next == came.end())
            turn.is_mended_since = true;
        else
            turn.lots[static_cast<std::size_t>(next - came.begin())].is_mended = true;
    }
}

InTurn in_turn(const Station& s, MillId mill, FlourId flour, std::optional<LotId> before) {
    const MillStore mills(*s.connection);
    const RetestStore tests(*s.connection);
    const Flour* kind = s.book.flour(flour);
    const auto came = mills.tested_in_turn(mill, flour, s.today() - looked_back, before, lots_looked_at);
    InTurn turn;
    for (const auto& lot : came)
        turn.lots.push_back(
            {lot.code,
             is_inside_by_own_tests(tests.of(lot.id), kind ? kind->specification : Specification{},
                                    lot.delivered_on),
             false});
    if (came.empty())
        return turn;
    note_answers(answers_of(s, mill, flour, came.front().delivered_on), came, turn);
    const auto skipped = mills.came_after(came.back(), mill, flour, before);
    turn.lots.resize(turn.lots.size() + static_cast<std::size_t>(skipped));
    return turn;
}

struct OfLot {
    MillId mill;
    FlourId flour;
    std::string_view code;
    std::optional<LotId> id; ///< where it is in the book
    int taken = 0;           ///< own tests of it
};

OwnTestAdvice advice(const Station& s, const OfLot& lot) {
    const auto testing = own_testing(s.book.settings);
    if (testing.plan == TestingPlan::none)
        return {};
    const Mill* mill = s.book.mill(lot.mill);
    const bool goes_by_others = testing.plan != TestingPlan::every_lot;
    const auto turn = goes_by_others ? in_turn(s, lot.mill, lot.flour, lot.id) : InTurn{};
    const auto due = own_test_due(testing, mill ? mill->name : "", lot.code, turn.lots, turn.is_mended_since);
    return {in_words(due, lot.taken), std::string(source_of(testing.plan)), lot.taken < due.samples};
}

int standing_tests(const Book& book, LotId lot) {
    const auto tests = book.retests_of(lot);
    return static_cast<int>(
        std::count_if(tests.begin(), tests.end(), [](const Retest* test) { return !test->is_withdrawn; }));
}

} // namespace

OwnTesting own_testing(std::span<const Setting> stored) {
    const Choices choices(stored);
    return {testing_plan_named(choices.words("mill_testing")).value_or(TestingPlan::none),
            static_cast<int>(std::lround(choices.number("mill_testing_one_in")))};
}

OwnTestAdvice own_test_advice(const Station& s, const Lot& lot) {
    if (lot.state != LotState::awaiting_judgement && lot.state != LotState::held)
        return {};
    return advice(s, {lot.mill, lot.flour, lot.code, lot.id, standing_tests(s.book, lot.id)});
}

OwnTestAdvice own_test_advice(const Station& s, const LotToCome& lot) {
    return advice(s, {lot.mill, lot.flour, lot.code, {}, 0});
}

std::string testing_of_flour(const Station& s, MillId mill, FlourId flour) {
    auto testing = own_testing(s.book.settings);
    if (testing.plan == TestingPlan::none || testing.plan == TestingPlan::every_lot)
        return {};
    const auto turn = in_turn(s, mill, flour, {});
    const Mill* whose = s.book.mill(mill);
    return own_test_due(testing, whose ? whose->name : "", "", turn.lots, turn.is_mended_since).why;
}

} // namespace mellowbin::app
