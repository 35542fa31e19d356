#include "app/acts/batches.h"
#include "app/acts/doughs.h"
#include "app/acts/limits.h"
#include "app/acts/notice.h"
#include "app/acts/plant_set_up.h"
#include "app/models/journal.h"
#include "app/models/settings.h"
#include "dough_plant.h"
#include "exchange/plant_file.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

/// The dosing plant with runs of pan bread, a batch each, one a day from today on. Its propionate is within
/// the figure of Canada, which nobody has confirmed; its flour is young and asks for ascorbic acid.
struct Ruled {
    SmallPlant plant{day_from_iso("2026-11-25"), tests::preserving_plant()};
    std::vector<RunId> runs;

    void does(const Intent& intent) { plant.app().handle(intent); }
    void has_done(const Intent& intent) {
        does(intent);
        INFO(plant.said() << plant.refusals());
        REQUIRE(plant.was_done());
    }
    void take_back() {
        for (const auto& undo : Intents(plant.app().notice().undoing))
            has_done(undo);
    }
    void plan_runs(int days, int a_day = 1) {
        plant.released_lot(tests::young_draft(plant, "A"));
        plant.released_lot(tests::young_draft(plant, "B"));
        for (int i = 0; i < days * a_day; ++i)
            runs.push_back(
                plant.add_run("Pan bread", iso(day_from_iso("2026-11-25") + Days{i / a_day}), "1"));
        plant.plan_week();
    }
    std::string code(std::size_t run) { return plant.planned(runs.at(run)).code; }

    LimitLine limit(const std::string& substance, const std::string& market, const std::string& food) {
        for (const auto& line : plant.app().settings().limits)
            if (line.substance == substance && line.market == market && line.food == food)
                return line;
        throw std::runtime_error("no limit of " + substance + " in " + food + ", " + market);
    }
    LimitLine propionate() { return limit("Propionate", "Canada", "bread"); }
    LimitLine of_sliced_bread() { return limit("Propionate", "EU", "prepacked sliced bread and rye bread"); }
    LimitLine ascorbic_acid() { return limit("Ascorbic acid", "Canada", "bread"); }
};

LimitDraft with_figure(LimitDraft draft, const std::string& figure) {
    draft.figure = figure;
    return draft;
}

} // namespace

TEST_CASE("Limits on propionate stand beside those on oxidants, and are confirmed and doubted as they are") {
    Ruled at;
    CHECK(at.propionate().figure == "2000 mg/kg");
    CHECK(at.propionate().matters);
    CHECK_THAT(at.propionate().standing, Contains("unconfirmed"));
    at.has_done(ConfirmLimit{at.propionate().id});
    CHECK(at.propionate().standing == "confirmed by Tomas");
    const auto line = at.plant.app().journal(1).front();
    CHECK(line.what == "confirm_limit");
    CHECK_THAT(line.words, Contains("Limit confirmed: Propionate in bread, Canada (List 11 Part 3"));
    at.has_done(DoubtLimit{at.propionate().id});
    CHECK_FALSE(at.propionate().is_confirmed);
    at.take_back();
    CHECK(at.propionate().standing == "confirmed by Tomas");
}

TEST_CASE("A limit of either kind is corrected, and is confirmed by nobody until somebody does") {
    Ruled at;
    for (auto line : {at.of_sliced_bread(), at.ascorbic_acid()}) {
        INFO(line.substance);
        REQUIRE(line.is_confirmed);
        at.has_done(ChangeLimit{line.id, {"150,5", "permitted", "Ordinance 7", "2026-11-01"}});
        const auto now = at.limit(line.substance, line.market, line.food);
        CHECK(now.figure == "150.5 mg/kg");
        CHECK(now.source == "Ordinance 7 (2026-11-01)");
        CHECK_FALSE(now.is_confirmed);
        CHECK_THAT(at.plant.app().journal(1).front().words,
                   Contains("150.5 mg/kg, was " + line.figure) && Contains("not confirmed until"));
        at.has_done(ConfirmLimit{line.id});
        CHECK(at.limit(line.substance, line.market, line.food).standing == "confirmed by Tomas");
    }
}

TEST_CASE("A corrected limit taken back stands as it did, with who confirmed it") {
    Ruled at;
    at.has_done(ConfirmLimit{at.propionate().id});
    at.has_done(ChangeLimit{at.propionate().id, with_figure(at.propionate().draft, "500")});
    at.take_back();
    CHECK(at.propionate().figure == "2000 mg/kg");
    CHECK(at.propionate().standing == "confirmed by Tomas");
}

TEST_CASE("A correction that somebody else corrected since is not taken back over theirs") {
    Ruled at;
    at.has_done(ChangeLimit{at.of_sliced_bread().id, with_figure(at.of_sliced_bread().draft, "2500")});
    const Intents undo = at.plant.app().notice().undoing;
    at.has_done(ChangeLimit{at.of_sliced_bread().id, with_figure(at.of_sliced_bread().draft, "2000")});
    at.does(undo.front());
    REQUIRE(at.plant.was_refused());
    CHECK_THAT(at.plant.refusals(), Contains("was changed meanwhile"));
    CHECK(at.of_sliced_bread().figure == "2000 mg/kg");
    CHECK_FALSE(at.of_sliced_bread().is_confirmed);
}

TEST_CASE("A correction with faults is refused field by field, with nothing written") {
    Ruled at;
    const auto before = at.plant.app().journal(1).front().words;
    at.does(ChangeLimit{at.of_sliced_bread().id, {"much", "allowed", "", ""}});
    REQUIRE(at.plant.was_refused());
    for (const char* field : {"Limit: ", "Status: ", "Source: "})
        CHECK_THAT(at.plant.refusals(), Contains(field));
    at.does(ChangeLimit{{LimitRef::Of::propionates, 4711}, at.of_sliced_bread().draft});
    CHECK_THAT(at.plant.refusals(), Contains("Limit: is not in the book"));
    CHECK(at.plant.app().journal(1).front().words == before);
    CHECK(at.of_sliced_bread().is_confirmed);
}

TEST_CASE("A limit corrected by the plant is still so when the program starts again") {
    Ruled at;
    const auto count = at.plant.app().settings().limits.size();
    auto draft = at.of_sliced_bread().draft;
    draft.figure.clear();
    draft.status = "not_permitted";
    at.has_done(ChangeLimit{at.of_sliced_bread().id, draft});
    at.has_done(ConfirmLimit{at.of_sliced_bread().id});
    at.plant.open_again();
    CHECK(at.plant.app().settings().limits.size() == count);
    CHECK(at.of_sliced_bread().figure == "not permitted");
    CHECK(at.of_sliced_bread().standing == "confirmed by Tomas");
}

TEST_CASE("A limit confirmed, doubted or changed names the runs to come whose cards it changes") {
    Ruled at;
    at.plan_runs(3);
    const auto all_three = "; touches 3 runs: " + at.code(0) + ", " + at.code(1) + ", " + at.code(2);
    at.has_done(ConfirmLimit{at.propionate().id});
    CHECK_THAT(at.plant.said(), Contains(all_three));
    CHECK_THAT(at.plant.app().journal(1).front().words, Contains(all_three));
    at.has_done(DoubtLimit{at.propionate().id});
    CHECK_THAT(at.plant.said(), Contains(all_three));
    at.has_done(DoubtLimit{at.ascorbic_acid().id});
    CHECK_THAT(at.plant.said(), Contains(all_three));
    at.take_back();
    CHECK_THAT(at.plant.said(), Contains(all_three));
    at.has_done(ChangeLimit{at.ascorbic_acid().id, with_figure(at.ascorbic_acid().draft, "2")});
    CHECK_THAT(at.plant.said(), Contains(all_three));
}

TEST_CASE("A limit that leaves every card as it is names no run") {
    Ruled at;
    at.plan_runs(2);
    at.has_done(DoubtLimit{at.limit("Ascorbic acid", "Canada", "whole wheat flour").id});
    CHECK_THAT(at.plant.said(), !Contains("touches"));
    at.has_done(DoubtLimit{at.of_sliced_bread().id}); // another market
    CHECK_THAT(at.plant.said(), !Contains("touches"));
    at.has_done(ChangeLimit{at.propionate().id, with_figure(at.propionate().draft, "1900")});
    CHECK_THAT(at.plant.said(), !Contains("touches")); // withheld before and after
}

TEST_CASE("Runs that are past or mixed are not named, and of many only the first") {
    Ruled at;
    at.plan_runs(5, 2);
    ConfirmBatch mixed{at.runs[0], {}, 0};
    mixed.went_in.answer = "a trial";
    at.has_done(mixed);
    at.has_done(ConfirmLimit{at.propionate().id});
    CHECK_THAT(at.plant.said(), Contains("touches 9 runs: " + at.code(1)) && Contains(", and 1 more"));
    CHECK_THAT(at.plant.said(), !Contains(at.code(0)) && !Contains(at.code(9)));
    at.plant.open_again_on(day_from_iso("2026-11-28"));
    at.has_done(DoubtLimit{at.propionate().id});
    CHECK_THAT(at.plant.said(), Contains("touches 4 runs: "));
}

TEST_CASE("What a product is sold as, its market, its dose and its house maximum name the runs they touch") {
    Ruled at;
    at.plan_runs(1);
    const auto touched = "touches 1 run: " + at.code(0);
    at.has_done(ChangeDough{.product = "Pan bread", .enzyme = "maltogenic amylase"});
    CHECK_THAT(at.plant.said(), !Contains("touches"));
    at.has_done(ChangeDough{.product = "Pan bread", .house_maximum = "0.5"});
    CHECK_THAT(at.plant.said(), Contains(touched));
    at.has_done(ConfirmLimit{at.propionate().id});
    at.has_done(ChangeDough{.product = "Pan bread", .preservative_percent = "0.2"});
    CHECK_THAT(at.plant.said(), Contains(touched));
    at.has_done(ChangeDough{.product = "Pan bread", .market = "EU"});
    CHECK_THAT(at.plant.said(), Contains(touched));
    at.has_done(ChangeDough{.product = "Pan bread", .sold_as = "prepacked_sliced"});
    CHECK_THAT(at.plant.said(), Contains(touched));
    at.has_done(ChangeDough{.product = "Plain loaf", .market = "EU"});
    CHECK_THAT(at.plant.said(), !Contains("touches"));
}

TEST_CASE("A plant file that sends a product elsewhere names the runs it touches") {
    Ruled at;
    at.plan_runs(2);
    auto plant = exchange::read_plant_file(tests::preserving_plant());
    REQUIRE(plant);
    at.has_done(SetUpPlant{*plant});
    CHECK_THAT(at.plant.said(), !Contains("touches"));
    plant->products.at(0).product.market = "EU"; // where nobody has confirmed ascorbic acid
    at.has_done(SetUpPlant{*plant});
    CHECK_THAT(at.plant.said(), Contains("touches 2 runs: " + at.code(0) + ", " + at.code(1)));
    CHECK(at.plant.app().journal(1).front().what == "set_up_plant");
    plant->products.at(0).product.market = "Atlantis";
    at.does(SetUpPlant{*plant});
    CHECK_THAT(at.plant.refusals(), Contains("its market \"Atlantis\" is not known"));
}
