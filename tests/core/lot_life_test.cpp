#include "core/lot.h"
#include "support/good_lot.h"
#include "support/refusal_words.h"

#include <set>

namespace mellowbin {
namespace {

using enum LotState;
using testing::good_lot;
using testing::says;

constexpr LotState all_states[] = {awaiting_judgement, held, released, rejected, used_up};
const Instant noon = Day{date::year{2026} / 11 / 25} + std::chrono::hours{12};

} // namespace

TEST_CASE("The life of a lot: judged, held and released, rejected, used up, and nothing else") {
    const std::set<std::pair<LotState, LotState>> allowed{
        {awaiting_judgement, held},
        {awaiting_judgement, released},
        {awaiting_judgement, rejected},
        {held, released},
        {held, rejected},
        {released, held},
        {released, rejected},
        {released, used_up},
        {rejected, held},
        {used_up, released},
    };
    for (const LotState from : all_states) {
        for (const LotState to : all_states) {
            INFO(name_of(from) << " to " << name_of(to));
            CHECK(may_become(from, to) == allowed.contains({from, to}));
            Lot lot = good_lot();
            lot.state = from;
            const auto changed = with_state(lot, to, "as agreed", "Ana", noon);
            CHECK(static_cast<bool>(changed) == allowed.contains({from, to}));
        }
    }
}

TEST_CASE("A change of state says who, when and why, and changes nothing else") {
    const Lot before = good_lot();
    const auto after = with_state(before, held, "  seal broken ", "Ana", noon);
    REQUIRE(after);
    CHECK(after->state == held);
    CHECK(after->state_reason == "seal broken");
    CHECK(after->state_by == "Ana");
    CHECK(after->state_at == noon);
    Lot undone = *after;
    undone.state = before.state;
    undone.state_reason = before.state_reason;
    undone.state_by = before.state_by;
    undone.state_at = before.state_at;
    CHECK(undone == before);
}

TEST_CASE("A hold, a rejection and the release of a held lot need a reason; a first release does not") {
    Lot lot = good_lot();
    CHECK(with_state(lot, released, "", "Ana", noon));
    for (const LotState to : {held, rejected}) {
        const auto refused = with_state(lot, to, " \t", "Ana", noon);
        REQUIRE(!refused);
        CHECK(refused.refusals().front().field == "Reason");
    }
    lot.state = held;
    CHECK(!with_state(lot, released, "", "Ana", noon));
    CHECK(with_state(lot, released, "retest inside the window", "Ana", noon));
}

TEST_CASE("A rejected lot is not released in one step, and the refusal says how") {
    Lot lot = good_lot();
    lot.state = rejected;
    const auto refused = with_state(lot, released, "it is fine", "Ana", noon);
    REQUIRE(!refused);
    CHECK(says(refused.refusals().front().what, "is rejected and cannot become released"));
    CHECK(says(refused.refusals().front().remedy, "Hold it first"));
}

TEST_CASE("Every state has a key and a name of its own") {
    std::set<std::string_view> names;
    for (const LotState state : all_states) {
        CHECK(lot_state_from_key(key_of(state)) == state);
        CHECK(names.insert(name_of(state)).second);
    }
    CHECK(!lot_state_from_key("On hold"));
}

} // namespace mellowbin
