#include "a_bakery.h"
#include "support/catch.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

namespace {

/// The bakery, whose pan bread takes 0.3 % of calcium propionate, with a run of it today of lot W24-201.
struct Keeping {
    ABakery bakery;
    std::string run;

    Keeping() {
        bakery.done({"release", "W24-201"});
        const auto said = bakery.done({"add-run", "--product", "Pan bread", "--line", "Line 1", "--day",
                                       "2026-11-25", "--batches", "2"});
        const auto at = said.find("R26");
        run = said.substr(at, said.find(' ', at) - at);
        bakery.done({"give-lot", "W24-201", "--to", run});
        bakery.done({"change-dough", "Pan bread", "--preservative-dose", "0.3"});
    }
    nlohmann::json limit(const std::string& substance, const std::string& market, const std::string& food) {
        for (const auto& row : bakery.json({"limits"}))
            if (row["substance"] == substance && row["market"] == market && row["food"] == food)
                return row;
        throw std::runtime_error("no limit of " + substance);
    }
    std::string propionate() { return limit("Propionate", "Canada", "bread")["number"]; }
    nlohmann::json of_card() {
        const auto card = bakery.json({"card", run});
        for (const auto& figure : card[0]["figures"])
            if (figure["label"] == "Calcium propionate")
                return figure;
        throw std::runtime_error("no propionate on the card");
    }
};

} // namespace

TEST_CASE("Limits on propionate are listed and confirmed by their number, and doubted again") {
    Keeping at;
    CHECK(at.propionate().front() == 'P');
    CHECK_THAT(at.bakery.done({"limits"}), Contains("Propionate") && Contains(at.propionate()));
    CHECK_THAT(at.bakery.done({"confirm-limit", at.propionate()}),
               Contains("Limit confirmed: Propionate in bread, Canada") &&
                   Contains("; touches 1 run: " + at.run));
    CHECK(at.limit("Propionate", "Canada", "bread")["confirmed"] == true);
    CHECK_THAT(at.bakery.done({"doubt-limit", at.propionate()}), Contains("touches 1 run: " + at.run));
    CHECK(at.limit("Propionate", "Canada", "bread")["confirmed"] == false);
    CHECK_THAT(at.bakery.done({"journal"}),
               Contains("Limit marked unconfirmed: Propionate in bread, Canada"));
}

TEST_CASE("A number that is no limit's is refused with what was read and what is expected") {
    Keeping at;
    for (const char* command : {"confirm-limit", "doubt-limit", "change-limit"}) {
        INFO(command);
        CHECK_THAT(at.bakery.refused({command, "third"}),
                   Contains("\"third\" was read") && Contains("P3 for one on propionate"));
        CHECK_THAT(at.bakery.refused({command, "P4711"}), Contains("Limit: "));
    }
}

TEST_CASE("A limit is corrected from the command line, what is not typed stays, and it is then unconfirmed") {
    Keeping at;
    const std::string number = at.limit("Ascorbic acid", "Canada", "bread")["number"];
    CHECK_THAT(at.bakery.done({"change-limit", number, "--limit", "150,5"}),
               Contains("Limit changed: Ascorbic acid, Canada: 150.5 mg/kg, was 200 mg/kg") &&
                   Contains("not confirmed until"));
    auto row = at.limit("Ascorbic acid", "Canada", "bread");
    CHECK(row["limit"] == "150.5 mg/kg");
    CHECK(row["confirmed"] == false);
    CHECK_THAT(row["source"].get<std::string>(), Contains("List 2"));
    at.bakery.done({"change-limit", at.propionate(), "--limit", "none", "--status", "not_permitted",
                    "--source", "Ordinance 7", "--source-date", "2026-11-01"});
    row = at.limit("Propionate", "Canada", "bread");
    CHECK(row["status"] == "not_permitted");
    CHECK(row["source"] == "Ordinance 7 (2026-11-01)");
    CHECK_THAT(at.bakery.refused({"change-limit", number, "--limit", "much", "--status", "allowed"}),
               Contains("Limit: ") && Contains("Status: \"allowed\" is not known"));
}

TEST_CASE("A withheld preservative is told as withheld by card, keeping and plan, as text and as JSON") {
    Keeping at;
    CHECK(at.of_card()["value"].is_null());
    CHECK_THAT(at.of_card()["note"].get<std::string>(), Contains("withheld: Canada, bread"));
    CHECK_THAT(at.bakery.done({"card", at.run}), Contains("withheld: Canada, bread") && !Contains("300 g"));
    auto keeping = at.bakery.json({"keeping", "Pan bread"});
    CHECK(keeping["withheld"] == true);
    CHECK(keeping["figures"][0]["value"].is_null());
    CHECK(keeping["limits"].size() == 1);
    CHECK_THAT(at.bakery.done({"keeping", "Pan bread"}), Contains("withheld: Canada"));
    auto plan = at.bakery.json({"plan"});
    CHECK(plan["runs"][0]["keeping_withheld"] == true);
    REQUIRE(plan["withheld"].size() == 1);
    CHECK_THAT(at.bakery.done({"plan"}), Contains("Withheld by law, which no plan mends") &&
                                             Contains("** Calcium propionate is withheld: Canada"));
    at.bakery.done({"confirm-limit", at.propionate()});
    CHECK(at.of_card()["value"] == 300);
    CHECK(at.bakery.json({"keeping", "Pan bread"})["withheld"] == false);
    plan = at.bakery.json({"plan"});
    CHECK(plan["runs"][0]["keeping_withheld"] == false);
    CHECK(plan["withheld"].empty());
}

TEST_CASE(
    "What a product is sold as is said from the command line, and the one line of the law holds by it") {
    Keeping at;
    at.bakery.done({"confirm-limit", at.propionate()});
    CHECK_THAT(at.bakery.done({"change-dough", "Pan bread", "--market", "EU"}), Contains("touches 1 run"));
    CHECK_THAT(at.bakery.done({"keeping", "Pan bread"}), Contains("say what the product is sold as"));
    CHECK_THAT(at.bakery.done({"change-dough", "Pan bread", "--sold-as", "prepacked_sliced"}),
               Contains("touches 1 run: " + at.run));
    const auto keeping = at.bakery.json({"keeping", "Pan bread"});
    CHECK(keeping["sold_as"] == "prepacked_sliced");
    REQUIRE(keeping["limits"].size() == 1);
    CHECK(keeping["limits"][0]["standing"] == "permitted");
    CHECK(at.of_card()["value"] == 300);
    CHECK_THAT(at.bakery.refused({"change-dough", "Pan bread", "--sold-as", "loose"}),
               Contains("Sold as: \"loose\" is not known"));
}

TEST_CASE("A plant file put over a book names the runs whose cards it changes") {
    Keeping at;
    at.bakery.terminal.write("other.json", R"({"plant": "Small plant", "mills": ["Weir Mill"],
      "flours": [{"name": "Strong white", "class": "white"}],
      "products": [{"name": "Pan bread", "flour": "Strong white", "market": "US-federal", "food": "bread",
                    "maturity_target": 0.5, "oxidant": "ascorbic_acid", "house_maximum_ppm": 60,
                    "batch_flour_kg": 100, "propionate_percent": 0.3}]})");
    CHECK_THAT(at.bakery.done({"plant", at.bakery.terminal.file("other.json")}),
               Contains("touches 1 run: " + at.run) && Contains("is set up in"));
}
