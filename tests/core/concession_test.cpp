#include "core/concession.h"
#include "core/lot.h"
#include "support/good_lot.h"
#include "support/iso.h"
#include "support/refusal_words.h"

#include <functional>

namespace mellowbin {
namespace {

using testing::all_words;
using testing::good_lot;
using testing::reasons_for;
using testing::says;

struct Bakery {
    std::vector<Product> products{3};
    Day today = day_from_iso("2026-11-25");

    Bakery() {
        const char* names[] = {"Pan bread", "Bun", "Rusk"};
        for (std::size_t i = 0; i < products.size(); ++i) {
            products[i].id = ProductId{static_cast<std::int64_t>(i) + 1};
            products[i].name = names[i];
        }
        products[2].is_retired = true;
    }
    [[nodiscard]] Result<Concession> accepted(const ConcessionDraft& draft) const {
        return accept(draft, {today, products, "Ines"});
    }
};

ConcessionDraft good_draft() { return {" protein 11.2 % ", "", "2026-11-27", {"Bun", "Pan bread"}, false}; }

Lot released() {
    Lot lot = good_lot();
    lot.state = LotState::released;
    return lot;
}

} // namespace

TEST_CASE("A concession says what, by whom, until when and for what") {
    const Bakery bakery;
    const auto concession = bakery.accepted(good_draft());
    REQUIRE(concession);
    CHECK(*concession ==
          Concession{"protein 11.2 %", "Ines", day_from_iso("2026-11-27"), {ProductId{1}, ProductId{2}}});
    auto by_another = good_draft();
    by_another.by = "Tomas";
    CHECK(bakery.accepted(by_another)->by == "Tomas");
    auto of_today = good_draft();
    of_today.until = "2026-11-25";
    CHECK(bakery.accepted(of_today)); // today is the last day
    const auto typed = draft_of(*concession, bakery.products);
    CHECK(bakery.accepted(typed).value() == *concession);
}

TEST_CASE("Every reason against a concession is given at once, and it is never for all unless that is said") {
    const Bakery bakery;
    const auto refused = bakery.accepted({"", "", "2026-11-24", {}, false});
    REQUIRE_FALSE(refused);
    CHECK(refused.refusals().size() == 3);
    CHECK(says(all_words(refused.refusals()), "Conceded: is empty"));
    CHECK(says(all_words(refused.refusals()), "2026-11-24 was read, which is over: today is 2026-11-25"));
    CHECK(says(all_words(refused.refusals()), "For products: none was chosen"));

    auto for_all = good_draft();
    for_all.products.clear();
    for_all.for_all = true;
    CHECK(bakery.accepted(for_all)->products.empty());
    CHECK(products_in_words(*bakery.accepted(for_all), bakery.products) == "all products");

    const auto one_refusal = [&](const std::function<void(ConcessionDraft&)>& edit) {
        auto draft = good_draft();
        edit(draft);
        const auto result = bakery.accepted(draft);
        REQUIRE_FALSE(result);
        CHECK(result.refusals().size() == 1);
        return all_words(result.refusals());
    };
    CHECK(says(one_refusal([](auto& d) { d.for_all = true; }), "both all products and some"));
    CHECK(says(one_refusal([](auto& d) { d.products = {"Rye"}; }), "\"Rye\" is not known"));
    CHECK(says(one_refusal([](auto& d) { d.products = {"Rusk"}; }), "\"Rusk\" is retired"));
    CHECK(says(one_refusal([](auto& d) { d.until = ""; }), "Until: is empty"));
    CHECK(says(one_refusal([](auto& d) { d.until = "27.11.2026"; }), "Until"));
}

TEST_CASE(
    "A lot goes into the products conceded until the last day, and stands as on hold from the next on") {
    const Bakery bakery;
    const Day last = day_from_iso("2026-11-27");
    Lot lot = released();
    CHECK(against_by_concession(lot, bakery.products[1], last + Days{400}).empty());
    CHECK_FALSE(stands_on_hold(lot, last + Days{400}));

    lot.concession = Concession{"protein low", "Ines", last, {ProductId{1}}};
    CHECK(against_by_concession(lot, bakery.products[0], last).empty());
    CHECK(against_by_concession(lot, bakery.products[1], last) == "its concession is not for Bun");
    CHECK(against_by_concession(lot, bakery.products[0], last + Days{1}) ==
          "its concession ended on Fri 27 Nov");
    CHECK_FALSE(stands_on_hold(lot, last));
    CHECK(stands_on_hold(lot, last + Days{1}));

    lot.concession->products.clear();
    CHECK(against_by_concession(lot, bakery.products[1], last).empty());
    lot.state = LotState::held; // on hold already, for its own reason
    CHECK_FALSE(stands_on_hold(lot, last + Days{1}));
}

TEST_CASE("A state is called by its concession, with the year where it is another one") {
    Lot lot = released();
    const Day last = day_from_iso("2026-11-07");
    CHECK(standing_by_concession(lot, last).empty());
    lot.concession = Concession{"protein low", "Ines", last, {}};
    CHECK(standing_by_concession(lot, last) == "concession until 7 Nov");
    CHECK(standing_by_concession(lot, last + Days{1}) == "concession ended 7 Nov");
    CHECK(standing_by_concession(lot, day_from_iso("2027-01-02")) == "concession ended 7 Nov 2026");
    lot.state = LotState::used_up;
    CHECK(standing_by_concession(lot, last).empty());
}

TEST_CASE("A hold and a rejection end a concession; being used up and having flour again do not") {
    const Instant noon = day_from_iso("2026-11-25") + std::chrono::hours{12};
    Lot lot = released();
    lot.concession = Concession{"protein low", "Ines", day_from_iso("2026-11-27"), {}};
    CHECK_FALSE(with_state(lot, LotState::held, "retest", "Ana", noon)->concession);
    CHECK_FALSE(with_state(lot, LotState::rejected, "wet", "Ana", noon)->concession);
    const auto used_up = with_state(lot, LotState::used_up, "", "Ana", noon);
    CHECK(used_up->concession == lot.concession);
    CHECK(with_state(*used_up, LotState::released, "", "Ana", noon)->concession == lot.concession);
}

} // namespace mellowbin
