#include "core/dispatch.h"
#include "core/rework.h"
#include "support/catch.h"
#include "support/iso.h"

using namespace mellowbin;
using Catch::Matchers::Contains;

namespace {

const Day today = day_from_iso("2026-11-25");

DispatchDraft good_draft() {
    return {"Pan bread", "R-1", "K-17", "100", "", "800", "2026-11-24", "van 2", ""};
}

std::string joined(const Refusals& refusals) {
    std::string words;
    for (const auto& refusal : refusals)
        words += in_words(refusal) + "\n";
    return words;
}
std::string why_not(const DispatchDraft& draft) {
    const auto read = accept(draft, today);
    return read ? std::string() : joined(read.refusals());
}

Dispatch of(double kg, const char* reason = "") {
    Dispatch dispatch;
    dispatch.mass = to_grams(Kilograms{kg});
    dispatch.reason = reason;
    return dispatch;
}

} // namespace

TEST_CASE("A dispatch is read with pieces, what they weigh, and its day") {
    const auto read = accept(good_draft(), today);
    REQUIRE(read);
    CHECK(read->customer == "K-17");
    CHECK(read->pieces == 100);
    CHECK(read->mass == Grams{80'000});
    CHECK(read->day == day_from_iso("2026-11-24"));
    CHECK(read->note == "van 2");
    auto only_pieces = good_draft();
    only_pieces.piece_g = only_pieces.day = "";
    CHECK_FALSE(accept(only_pieces, today)->mass);
    CHECK(accept(only_pieces, today)->day == today);
    auto typed = good_draft();
    typed.kg = "81,5";
    CHECK(accept(typed, today)->mass == Grams{81'500}); // what was weighed, before what it should weigh
}

TEST_CASE("A dispatch is refused with every reason at once") {
    DispatchDraft empty;
    CHECK_THAT(why_not(empty), Contains("Customer: is empty") && Contains("Weight: is empty, and so are"));
    auto draft = good_draft();
    draft.pieces = "10.5";
    draft.day = "2026-11-26";
    CHECK_THAT(why_not(draft), Contains("Enter whole pieces") && Contains("which is after today"));
    draft = good_draft();
    draft.kg = "800"; // a slip of ten
    CHECK_THAT(why_not(draft), Contains("800 kg was read, but 100 pieces of 800 g are 80 kg"));
    for (const char* pieces : {"0", "-3", "many", "10000001"}) {
        draft = good_draft();
        draft.pieces = pieces;
        CHECK_THAT(why_not(draft), Contains("Pieces"));
    }
}

TEST_CASE("More bread than the yield gives of the run's flour is refused with the figures, or taken with a "
          "reason") {
    const Baked baked{Grams{100'000}, Grams{170'000}, 1.45, Grams{100'000}, 1};
    CHECK(what_stands_against(of(45), baked).empty());
    CHECK_THAT(
        joined(what_stands_against(of(45.1), baked)),
        Contains("45.1 kg after 100.0 kg before are 145.1 kg, but 100.0 kg of flour give about 145.0 kg"));
    CHECK(what_stands_against(of(45.1, "heavier loaves"), baked).empty());
}

TEST_CASE(
    "More bread than its dough weighed is refused whatever the reason, and so is a run without a batch") {
    const Baked baked{Grams{100'000}, Grams{170'000}, 1.45, Grams{100'000}, 1};
    CHECK_THAT(joined(what_stands_against(of(70.1, "really"), baked)),
               Contains("its dough weighed 170.0 kg"));
    Baked dry = baked; // nobody logged the water: what the dough weighed is not known
    dry.dough = dry.flour;
    CHECK(what_stands_against(of(70.1, "really"), dry).empty());
    CHECK_THAT(joined(what_stands_against(of(1, "really"), Baked{})), Contains("nothing was baked of it"));
    Dispatch pieces;
    pieces.pieces = 100'000;
    CHECK(what_stands_against(pieces, baked).empty()); // what they weigh nobody said
}

TEST_CASE("Rework is of an earlier batch, and no more than that batch made") {
    const auto read = accept(ReworkDraft{"R-1", "1", "R-1", "2", "", "12,5", " end of dough "});
    REQUIRE(read);
    CHECK(read->kind == ReworkKind::dough);
    CHECK(read->mass == Grams{12'500});
    CHECK(read->note == "end of dough");
    CHECK(accept(ReworkDraft{"", "", "", "", "flour", "1", ""})->kind == ReworkKind::flour);
    const auto refused = accept(ReworkDraft{"", "", "", "", "bread", "0", ""});
    REQUIRE_FALSE(refused);
    CHECK(refused.refusals().size() == 2);

    Rework rework = *read;
    rework.from = BatchId{4};
    rework.into = BatchId{5};
    CHECK(what_stands_against(rework, Grams{20'000}, Grams{7'500}).empty());
    CHECK_THAT(joined(what_stands_against(rework, Grams{20'000}, Grams{7'501})),
               Contains("the batch made 20.0 kg, and 7.5 kg of it was put back before"));
    rework.into = BatchId{4};
    CHECK_THAT(joined(what_stands_against(rework, Grams{20'000}, Grams{})), Contains("not mixed before"));
}
