#include "a_bakery.h"
#include "cli/command_line.h"
#include "support/catch.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

namespace {

/// One lot's row of a list.
nlohmann::json row(ABakery& bakery, const std::string& code) {
    for (const auto& lot : bakery.json({"lots"}))
        if (lot["lot"] == code)
            return lot;
    return {};
}

} // namespace

TEST_CASE("A lot is released with a concession at the terminal, and its page and lists say so") {
    ABakery bakery;
    const auto told = bakery.done({"release", "W24-201", "--concession", "smells of the sack", "--until",
                                   "2026-11-27", "--for", "Pan bread", "--conceded-by", "Ines"});
    CHECK_THAT(told,
               Contains("Lot W24-201 released with a concession by Ines until 2026-11-27 for Pan bread: "
                        "smells of the sack"));
    CHECK(row(bakery, "W24-201")["state"] == "released");
    CHECK(row(bakery, "W24-201")["standing"] == "concession until 27 Nov");
    const auto lot = bakery.json({"lot", "W24-201"});
    CHECK(lot["concession"]["conceded"] == "smells of the sack");
    CHECK(lot["concession"]["until"] == "2026-11-27");
    CHECK(lot["concession"]["products"] == "Pan bread");
    CHECK(lot["concession"]["over"] == false);
    CHECK_THAT(bakery.done({"lot", "W24-201"}),
               Contains("Concession by Ines until 2026-11-27 for Pan bread: smells of the sack"));
    CHECK_THAT(bakery.done({"lots"}), Contains("Concession until 27 Nov"));
    CHECK(bakery.json({"lot", "W24-202"})["concession"].is_null());
}

TEST_CASE(
    "After its day the terminal says so in every list, and the lot can be judged anew or for all dough") {
    ABakery bakery;
    bakery.done({"release", "W24-201", "--concession", "smells", "--until", "2026-11-27", "--for-all"});
    bakery.terminal.today = "2026-11-28";
    const auto on_later = [&](std::vector<std::string> words) { return bakery.done(std::move(words)); };
    CHECK_THAT(on_later({"lots"}), Contains("Concession ended 27 Nov"));
    CHECK_THAT(on_later({"readiness"}), Contains("concession ended 27 Nov, "));
    CHECK_THAT(on_later({"lot", "W24-201"}), Contains("STOP: over. Concession by"));
    on_later(
        {"release", "W24-201", "--concession", "smells less", "--until", "2026-12-05", "--for", "Pan bread"});
    CHECK_THAT(on_later({"lots"}), Contains("Concession until 5 Dec"));
    on_later({"end-concession", "W24-201", "--reason", "retest is sound"});
    CHECK(row(bakery, "W24-201")["standing"] == "");
}

TEST_CASE("Half a concession is refused with every reason, and nothing is released") {
    ABakery bakery;
    const auto why = bakery.refused({"release", "W24-201", "--until", "2026-11-20"});
    CHECK_THAT(why, Contains("Conceded: is empty") && Contains("For products: none was chosen") &&
                        Contains("which is over"));
    CHECK_THAT(bakery.refused(
                   {"release", "W24-201", "--concession", "failed", "--until", "2026-11-27", "--for-all"}),
               Contains("nothing of the lot fails its specification"));
    CHECK(row(bakery, "W24-201")["state"] == "awaiting_judgement");
}

TEST_CASE("Flour goes back to the mill from the terminal, a part of it or all") {
    ABakery bakery;
    CHECK_THAT(bakery.done({"return-to-mill", "W24-201", "--place", "Bay 1", "--kg", "250", "--reason", "wet",
                            "--document", "RN 12"}),
               Contains("250.0 kg of lot W24-201 back to the mill: wet (RN 12)"));
    CHECK(row(bakery, "W24-201")["stock_kg"] == 750);
    bakery.done({"return-to-mill", "W24-201", "--reason", "wet"});
    CHECK(row(bakery, "W24-201")["standing"] == "returned to the mill");
    CHECK_THAT(bakery.done({"lots", "--past"}), Contains("Returned to the mill"));
    bakery.done({"release", "W24-202"});
    CHECK_THAT(bakery.refused({"return-to-mill", "W24-202", "--reason", "wet"}),
               Contains("Put it on hold first"));
}

TEST_CASE("The plant's r and R are listed, entered, changed and dropped, and the lot's page judges by them") {
    ABakery bakery;
    CHECK_THAT(bakery.done({"test-precision"}), Contains("from memory") && Contains("does not repeat"));
    bakery.retest("W24-201", "2026-11-24", "protein=13.4 @ 14 % moisture");
    auto against = bakery.json({"lot", "W24-201"})["against_certificate"];
    REQUIRE(against.size() == 1);
    CHECK(against[0]["verdict"] == "not_said");
    CHECK_THAT(bakery.done({"lot", "W24-201"}), Contains("no published R at hand for protein"));

    bakery.done({"set-test-precision", "--property", "protein", "--reproducibility", "0,5", "--source",
                 "ISO 20483, table B.1"});
    against = bakery.json({"lot", "W24-201"})["against_certificate"];
    CHECK(against[0]["verdict"] == "contradicts");
    CHECK(against[0]["difference"] == Approx(0.9));
    CHECK(against[0]["chance_up_to"] == Approx(0.5));
    CHECK_THAT(bakery.done({"lot", "W24-201"}), Contains("MIND: Protein, retest of 2026-11-24, against the "
                                                         "certificate: contradicts: differs 0.9 %"));
    const auto rows = bakery.json({"test-precision"});
    REQUIRE(rows[0]["row"] == 1);
    CHECK(rows[0]["limits"] == "R 0.5 %");
    CHECK(rows[1]["row"].is_null());
    bakery.done({"set-test-precision", "--row", "1", "--reproducibility", "1"});
    CHECK(bakery.json({"test-precision"})[0]["source"] == "ISO 20483, table B.1"); // what is not typed stays
    CHECK(bakery.json({"lot", "W24-201"})["against_certificate"][0]["verdict"] == "agrees");
    bakery.done({"drop-test-precision", "1"});
    CHECK(bakery.json({"lot", "W24-201"})["against_certificate"][0]["verdict"] == "not_said");
    CHECK_THAT(bakery.refused({"set-test-precision", "--property", "gluten"}),
               Contains("Property: ") && Contains("R: is empty") && Contains("Source: is empty"));
}

TEST_CASE("Whoever releases a lot whose retest contradicts the certificate is told before") {
    ABakery bakery;
    bakery.done(
        {"set-test-precision", "--property", "protein", "--reproducibility", "0.5", "--source", "ours"});
    bakery.retest("W24-201", "2026-11-24", "protein=13.4 @ 14 % moisture");
    bakery.done({"release", "W24-201"});
    CHECK_THAT(bakery.terminal.err, Contains("note: Protein, retest of 2026-11-24, against the certificate: "
                                             "contradicts"));
}
