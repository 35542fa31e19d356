#include "core/limit_draft.h"
#include "support/refusal_words.h"

namespace mellowbin {
namespace {

// The figures are invented.
PropionateRow a_row() {
    PropionateRow row;
    row.id = 3;
    row.market = "EU";
    row.bread = "other prepacked bread";
    row.status = LimitStatus::permitted;
    row.mg_per_kg = 1000;
    row.source = "Annex II";
    row.source_date = "2024";
    row.is_confirmed = true;
    row.confirmed_by = "Ada Example";
    return row;
}

std::string refused(const LimitDraft& draft) {
    const auto after = changed(a_row(), draft);
    return after ? "" : testing::all_words(after.refusals());
}

} // namespace

TEST_CASE("A limit that is changed takes what was typed, and is confirmed by nobody") {
    const auto after = changed(a_row(), {"1 ", "permitted", " Annex III ", "2026-01-01"});
    REQUIRE(after);
    CHECK(after->mg_per_kg == 1);
    CHECK(after->source == "Annex III");
    CHECK(after->source_date == "2026-01-01");
    CHECK_FALSE(after->is_confirmed);
    CHECK(after->confirmed_by.empty());
    CHECK(after->market == "EU");
    CHECK(after->id == 3);
}

TEST_CASE("A limit that is typed as it stands stays confirmed") {
    CHECK(*changed(a_row(), draft_of(a_row())) == a_row());
    LimitRow oxidant;
    oxidant.status = LimitStatus::permitted;
    oxidant.limit = OxidantPpm{1234.567};
    oxidant.source = "List 2";
    oxidant.is_confirmed = true;
    CHECK(*changed(oxidant, draft_of(oxidant)) == oxidant);
}

TEST_CASE("A status is read by its key or its name, a figure with point or comma") {
    const auto gmp = changed(a_row(), {"", "Good manufacturing practice, no figure", "Annex II", ""});
    REQUIRE(gmp);
    CHECK(gmp->status == LimitStatus::permitted_gmp);
    CHECK_FALSE(gmp->mg_per_kg);
    LimitRow oxidant;
    oxidant.source = "List 2";
    const auto half = changed(oxidant, {"0,5", "permitted", "List 2", ""});
    REQUIRE(half);
    CHECK(half->limit == OxidantPpm{0.5});
}

TEST_CASE("A figure goes with what is permitted up to it, and with nothing else") {
    CHECK(testing::says(refused({"", "permitted", "Annex II", ""}), "Limit: is empty"));
    CHECK(testing::says(refused({"50", "not_permitted", "Annex II", ""}),
                        "Limit: 50 was read, and \"Not permitted\" goes without a figure"));
    CHECK(testing::says(refused({"50", "permitted_gmp", "Annex II", ""}), "Limit: 50 was read"));
    CHECK(changed(a_row(), {"0", "not_permitted", "Annex II", ""}));
}

TEST_CASE("Every fault of a corrected limit is said at once, each with its field") {
    const auto words = refused({"much", "allowed", "  ", ""});
    CHECK(testing::says(words, "Limit: \"much\""));
    CHECK(testing::says(words, "Status: \"allowed\" is not known"));
    CHECK(testing::says(words, "permitted, permitted_gmp, not_permitted, unclear"));
    CHECK(testing::says(words, "Source: is empty"));
    CHECK(testing::says(refused({"-1", "permitted", "Annex II", ""}), "Limit: -1 was read"));
}

} // namespace mellowbin
