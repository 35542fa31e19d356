#include "a_bakery.h"
#include "cli/command_line.h"
#include "support/catch.h"

#include <fmt/format.h>

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

namespace {

/// Lots whose dough had gained all it would within ten days: faster than what is published.
void retest_fast_lots(ABakery& bakery, int count) {
    for (int i = 0; i < count; ++i) {
        const auto lot = fmt::format("W24-{}", 201 + i);
        bakery.retest(lot, "2026-11-02", "extensograph_resistance=300");
        bakery.retest(lot, "2026-11-13", "extensograph_resistance=390");
        bakery.retest(lot, "2026-11-24", "extensograph_resistance=392");
    }
}

} // namespace

TEST_CASE("With too few lots retested there is nothing to adopt, and why is said") {
    ABakery bakery;
    CHECK_THAT(bakery.done({"learned"}), Contains("The published figures hold.") &&
                                             Contains("Nothing to adopt: 0 lots were retested twice"));
    const auto before = bakery.journal_lines();
    CHECK_THAT(bakery.refused({"learned", "--adopt"}),
               Contains("Learned figures: 0 lots were retested twice by one method so far") &&
                   Contains("Log retests of more lots"));
    CHECK_THAT(bakery.refused({"learned", "--published"}), Contains("Learning: holds already"));
    CHECK(bakery.terminal.on_book({"learned", "--adopt", "--published"}) == cli::bad_usage);
    CHECK(bakery.journal_lines() == before);
}

TEST_CASE("What the retests teach is shown beside what is published, adopted, and given up again") {
    ABakery bakery;
    retest_fast_lots(bakery, 5);
    const auto published_ready = bakery.json({"lot", "W24-206"})["ready_on"]; // never retested
    const auto compared = bakery.json({"learned"});
    CHECK(compared["learned_holds"] == false);
    CHECK(compared["blocked"] == "");
    REQUIRE(compared["figures"].size() >= 3);
    const auto& rate = compared["figures"][0];
    CHECK_THAT(rate["what"].get<std::string>(), Contains("Maturing rate of White flour at 20 °C"));
    CHECK(rate["holds"] == rate["published"]);
    CHECK(rate["offered"] != rate["published"]);
    CHECK_THAT(rate["from"].get<std::string>(), Contains("5 lots") && Contains("W24-201"));
    CHECK_THAT(bakery.done({"learned"}), Contains("published  " + rate["published"].get<std::string>()) &&
                                             Contains("offered    " + rate["offered"].get<std::string>()));

    const auto adopted = bakery.json({"learned", "--adopt"});
    CHECK(adopted["learned_holds"] == true);
    CHECK_THAT(adopted["standing"].get<std::string>(), Contains("learned from 5 lots") && Contains("tester"));
    CHECK(adopted["figures"][0]["holds"] == rate["offered"]);
    CHECK(adopted["figures"][0]["published"] == rate["published"]);
    const auto learned = bakery.json({"lot", "W24-206"});
    CHECK(learned["ready_on"] != published_ready);
    CHECK_THAT(learned["origins"][0]["from"].get<std::string>(), Contains("learned from 5 lots"));

    CHECK_THAT(bakery.done({"learned", "--published"}), Contains("The published figures hold."));
    CHECK(bakery.json({"lot", "W24-206"})["ready_on"] == published_ready);
    CHECK(bakery.json({"learned"})["learned_holds"] == false);
}
