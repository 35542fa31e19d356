#include "dough/keeping.h"
#include "support/catch.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::dough;

namespace {

std::vector<KeepingJudged> judge_in(const std::string& market, double percent) {
    const auto content = propionate_in_bread(PropionateSalt::calcium, percent, 1.45);
    REQUIRE(content);
    return judge_propionate(shipped_propionate_limits(), markets(), market, *content);
}

Keeping as(const std::vector<KeepingJudged>& all, const std::string& bread) {
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const KeepingJudged& one) { return one.row.bread == bread; });
    REQUIRE(found != all.end());
    return found->keeping;
}

} // namespace

TEST_CASE("At the acid's own pKa half of it is undissociated") {
    CHECK(*undissociated_share(4.87) == Approx(0.5));
    CHECK(!undissociated_share(1.2));
    CHECK(!undissociated_share(9));
}

TEST_CASE("Bread at pH 5.6 takes twice the propionate of bread at 5.2") {
    CHECK(*dose_at_other_ph(1, 5.2, 5.6) == Approx(2.03).margin(0.005));
    CHECK(!dose_at_other_ph(1, 5.2, 12));
}

TEST_CASE("0.30 % of calcium propionate passes the EU's sliced bread and fails its other prepacked bread") {
    const auto all = judge_in("EU", 0.30);
    CHECK(as(all, "prepacked sliced bread and rye bread") == Keeping::permitted);
    CHECK(as(all, "other prepacked bread") == Keeping::forbidden);
    CHECK(as(all, "bread that is not prepacked") == Keeping::forbidden);
}

TEST_CASE("Where the law does not say as what, the salt's own mass is counted") {
    // 0.44 % at 1.45: 3034 as salt, 2414 as acid, against 3000
    CHECK(as(judge_in("EU", 0.44), "prepacked sliced bread and rye bread") == Keeping::forbidden);
    CHECK(as(judge_in("EU", 0.43), "prepacked sliced bread and rye bread") == Keeping::permitted);
}

TEST_CASE("A recalled figure within its limit is unconfirmed, above it forbidden") {
    CHECK(as(judge_in("Canada", 0.30), "bread") == Keeping::unconfirmed); // 1646 as acid of 2000
    CHECK(as(judge_in("Canada", 0.40), "bread") == Keeping::forbidden);   // 2195 as acid
}

TEST_CASE("A narrower market stands under the wider one's rows, a market without any permits nothing") {
    CHECK(as(judge_in("US-CA", 0.30), "any bread") == Keeping::permitted);
    const auto nothing = judge_in("JP", 0.30);
    REQUIRE(nothing.size() == 1);
    CHECK(nothing[0].keeping == Keeping::forbidden);
}

TEST_CASE("Mould-free days are refused outside what was studied, bread among it") {
    CHECK(mould_free_days(MouldLine::at_21, 80));
    CHECK(!mould_free_days(MouldLine::at_21, 95));
    CHECK(!mould_free_days(MouldLine::at_27, 91.5));
    CHECK(!mould_free_days(MouldLine::at_21, 60));
}

TEST_CASE("Within the range the warmer line is always the shorter") {
    for (double erh = 74; erh <= 90; erh += 1)
        CHECK(*mould_free_days(MouldLine::at_27, erh) < *mould_free_days(MouldLine::at_21, erh));
}

TEST_CASE("A negative dose and an impossible yield are refused together") {
    const auto refused = propionate_in_bread(PropionateSalt::calcium, -1, 0.5);
    REQUIRE(!refused);
    CHECK(refused.refusals().size() == 2);
}
