#include "exchange/taught.h"
#include "support/catch.h"
#include "support/iso.h"

using namespace mellowbin;

namespace {

dough::TaughtState some_state() {
    dough::TaughtState state;
    for (int group = 0; group < 6; ++group)
        state.water.groups.push_back(
            {0.1 / 3 + 0.1 * group,
             {{2.0 / 3, -1e-300, 0.1 * group}, {1.0 / 7, -2e-9, 4, 0.1, 1e6, 5.0000000000000009}}});
    state.water.operators = {{LineId{3}, std::vector<double>(48, 1.0 / 48)}};
    state.water.expected = {{ProductId{1}, 1.7, false}, {ProductId{2}, 0, true}};
    state.water.products = {{ProductId{1}, 2, 40, {LotId{12'345'678'901}}}};
    state.water.lines = {{ProductId{1}, LineId{3}, 0, 39}};
    state.water.lots = {{LotId{12'345'678'901}, 1}};
    state.water.today = day_from_iso("2026-03-01");
    state.mixing.unknowns = {{20.3, 0.2, -0.4}, {1, 0, 2, 0, 0, 3}};
    state.mixing.mixers = {{LineId{3}, 0, 1, 2, 41.25, 9}};
    state.mixing.products = {{LineId{3}, ProductId{1}, 2, 7}};
    state.newest = {{ProductId{1}, {LotId{12}, LotId{13}}}, {ProductId{2}, {}}};
    return state;
}

} // namespace

TEST_CASE("What doughs taught comes back from its text to the last bit") {
    const auto text = exchange::taught_as_json(some_state());
    CHECK(exchange::taught_from_json(text) == some_state());
    CHECK(exchange::taught_as_json(exchange::taught_from_json(text)) == text);
    CHECK(exchange::taught_from_json(exchange::taught_as_json({})) == dough::TaughtState{});
}

TEST_CASE("What doughs taught and cannot be read says so") {
    for (const char* text : {"", "{", "[]", "{\"water\":1}", "{\"water\":{},\"mixing\":{},\"newest\":[]}"})
        CHECK_THROWS_WITH(exchange::taught_from_json(text), Catch::Contains("cannot be read"));
    auto wrong = some_state();
    wrong.water.groups[2].unknowns.covariance.pop_back();
    CHECK_THROWS_WITH(exchange::taught_from_json(exchange::taught_as_json(wrong)),
                      Catch::Contains("do not fit"));
}
