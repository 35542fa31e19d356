#include "core/complaint.h"
#include "support/catch.h"
#include "support/iso.h"

using namespace mellowbin;
using Catch::Matchers::Contains;

namespace {

const Day today = day_from_iso("2026-11-25");

ComplaintDraft good_draft() {
    return {"W24-118", "protein", "", "lower than on the certificate", "1 000,5", "2026-11-20"};
}

std::string why_not(const ComplaintDraft& draft) {
    const auto complaint = accept(draft, today);
    if (complaint)
        return {};
    std::string words;
    for (const auto& refusal : complaint.refusals())
        words += in_words(refusal) + "\n";
    return words;
}

} // namespace

TEST_CASE("A complaint is read with its property by name or key, weight with comma, and day") {
    const auto complaint = accept(good_draft(), today);
    REQUIRE(complaint);
    CHECK(complaint->property == Property::protein);
    CHECK(complaint->affected == Grams{1'000'500});
    CHECK(complaint->noticed_on == day_from_iso("2026-11-20"));
    CHECK(about_in_words(*complaint) == "Protein");
    auto draft = good_draft();
    draft.property = "Falling Number";
    draft.subject = " sprouted ";
    draft.kg = draft.noticed_on = "";
    const auto other = accept(draft, today);
    REQUIRE(other);
    CHECK(other->property == Property::falling_number);
    CHECK(other->affected == Grams{0});
    CHECK(other->noticed_on == today);
    CHECK(about_in_words(*other) == "Falling number: sprouted");
    draft.property = "";
    CHECK(about_in_words(*accept(draft, today)) == "sprouted");
}

TEST_CASE("A complaint that cannot be is refused with every reason at once") {
    auto draft = good_draft();
    draft.property = "softness";
    draft.words = "  ";
    draft.kg = "-5";
    draft.noticed_on = "2026-11-26";
    CHECK_THAT(why_not(draft), Contains("Property: \"softness\" is not known") &&
                                   Contains("Complaint: is empty") && Contains("Weight: ") &&
                                   Contains("Noticed on: 2026-11-26 was read, which is after today"));
    draft = good_draft();
    draft.property = "";
    CHECK_THAT(why_not(draft), Contains("Subject: is empty, and no property is chosen"));
    draft = good_draft();
    draft.kg = "0";
    CHECK_THAT(why_not(draft), Contains("Weight"));
    draft.kg = "1000001";
    CHECK_THAT(why_not(draft), Contains("Weight"));
    draft.kg = "much";
    CHECK_THAT(why_not(draft), Contains("Weight"));
    CHECK(why_not(good_draft()).empty());
}

TEST_CASE("An answer has words and a day, not before the complaint was noticed and not to come") {
    const auto complaint = accept(good_draft(), today).value();
    const auto answer = accept(ComplaintAnswerDraft{" other wheat ", ""}, complaint, today);
    REQUIRE(answer);
    CHECK(answer->words == "other wheat");
    CHECK(answer->answered_on == today);
    CHECK(accept(ComplaintAnswerDraft{"x", "2026-11-20"}, complaint, today));
    const auto refused = accept(ComplaintAnswerDraft{"", "2026-11-19"}, complaint, today);
    REQUIRE_FALSE(refused);
    CHECK(refused.refusals().size() == 2);
    CHECK_FALSE(accept(ComplaintAnswerDraft{"x", "2026-11-26"}, complaint, today));
    CHECK_FALSE(accept(ComplaintAnswerDraft{"x", "soon"}, complaint, today));
}
