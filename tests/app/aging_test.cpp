#include "app/acts/climate.h"
#include "app/acts/learning.h"
#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/retests.h"
#include "app/acts/stock.h"
#include "app/models/card.h"
#include "app/models/lots.h"
#include "app/models/outlook.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"
#include "app/models/story.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/iso.h"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

const Day today = day_from_iso("2026-11-25");

/// A fresh lot: milled 10 days ago, delivered 8 days ago, in Bay 1.
LotDraft fresh(const SmallPlant& plant, const std::string& code) {
    auto draft = plant.draft(code);
    draft.milled_on = "2026-11-15";
    draft.delivered_on = "2026-11-17";
    return draft;
}

RetestDraft retest(const std::string& day, Property property, const std::string& value) {
    RetestDraft draft;
    draft.taken_on = day;
    draft.figure(property) = {property, value, traits(property).has_basis ? "14 % moisture" : "", "in-house",
                              ""};
    return draft;
}

void log(SmallPlant& plant, LotId lot, const std::string& day, Property property, const std::string& value) {
    plant.app().handle(LogRetest{lot, retest(day, property, value)});
    INFO(plant.said() << plant.refusals());
    REQUIRE(plant.was_done());
}

const AgingStory& story(SmallPlant& plant, LotId lot) {
    plant.app().handle(OpenLot{lot});
    REQUIRE(plant.app().readiness().opened);
    return *plant.app().readiness().opened;
}

/// The results of one property, the certificate's first.
std::vector<TestRow> tests_of(SmallPlant& plant, LotId lot, Property property) {
    std::vector<TestRow> found;
    for (const auto& row : story(plant, lot).tests)
        if (row.property == property)
            found.push_back(row);
    return found;
}

/// A logger's file of these temperatures, one every six hours from a day on.
std::string log_file(const std::string& from, const std::vector<double>& temperatures,
                     const char* humidity = "60") {
    static int count = 0;
    const auto path =
        std::filesystem::temp_directory_path() / fmt::format("mellowbin-log-{}-{}.csv", ::getpid(), ++count);
    std::ofstream file(path);
    file << "time,degC,%RH\n";
    Instant at{day_from_iso(from)};
    for (const double t : temperatures) {
        file << iso(at) << ',' << t << ',' << humidity << '\n';
        at += std::chrono::hours{6};
    }
    return path.string();
}

std::optional<Day> ready(SmallPlant& plant, const std::string& code) { return plant.row(code).ready_on; }

} // namespace

TEST_CASE("Two retests of the dough move the ready date, and taking one back moves it back") {
    SmallPlant plant;
    const auto lot = plant.released_lot(fresh(plant, "W24-118"));
    const auto before = ready(plant, "W24-118");
    log(plant, lot, "2026-11-17", Property::extensograph_resistance, "300");
    CHECK(ready(plant, "W24-118") == before); // one result tells nothing
    log(plant, lot, "2026-11-25", Property::extensograph_resistance, "400,5");
    REQUIRE(before);
    CHECK(*ready(plant, "W24-118") < *before);
    CHECK_THAT(plant.said(), Contains("ready on") && Contains("was"));
    CHECK(plant.app().readiness().rows.front().tests == 2);
    for (const auto& intent : Intents(plant.app().notice().undoing))
        plant.app().handle(intent);
    CHECK(plant.was_done());
    CHECK(ready(plant, "W24-118") == before);
}

TEST_CASE(
    "Glutathione retests show their own course, leave the ready date alone and scale the guess of oxidant") {
    SmallPlant plant;
    const auto lot = plant.released_lot(fresh(plant, "W24-118"));
    const auto before = ready(plant, "W24-118");
    log(plant, lot, "2026-11-17", Property::glutathione, "150");
    log(plant, lot, "2026-11-25", Property::glutathione, "90");
    CHECK(ready(plant, "W24-118") == before);
    CHECK(plant.app().readiness().rows.front().tests == 0);
    const auto tests = tests_of(plant, lot, Property::glutathione);
    REQUIRE(tests.size() == 2);
    for (const auto& row : tests) {
        CHECK_FALSE(row.counts);
        CHECK_THAT(row.standing, Contains("own course"));
    }
    const auto& told = story(plant, lot);
    const auto course = std::find_if(told.courses.begin(), told.courses.end(), [](const PropertyCourse& one) {
        return one.property == Property::glutathione;
    });
    REQUIRE(course != told.courses.end());
    CHECK_FALSE(course->band.empty()); // shown
    for (const auto& worth : told.retests)
        if (worth.property == Property::glutathione)
            CHECK_THAT(worth.words, Contains("says nothing of the ready date"));
}

TEST_CASE("The story names what one curve leaves out, and how long aging takes by common practice") {
    SmallPlant plant;
    const auto lot = plant.released_lot(fresh(plant, "W24-118"));
    const auto& words = story(plant, lot).reservations;
    const auto says = [&](const char* part) {
        return std::any_of(words.begin(), words.end(),
                           [&](const std::string& one) { return one.find(part) != std::string::npos; });
    };
    CHECK(says("model of the first weeks"));
    CHECK(says("13 months (Borsuk et al. 2016)"));
    // common practice, no source
    CHECK(says("weeks, up to a month, at times several months (common practice, no source)"));
    CHECK_FALSE(says("extrapolation"));
}

TEST_CASE(
    "Of flour kept above 30 C the story says that strength may be lost too, and readiness is extrapolated") {
    SmallPlant plant(today, R"({
  "plant": "Hot plant", "mills": ["Mill"], "flours": [{"name": "Strong white", "class": "white"}],
  "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": 33}],
  "lines": [{"name": "Line 1", "friction_factor_c": 24}],
  "products": [{"name": "Plain loaf", "flour": "Strong white", "market": "Canada", "food": "bread",
                "batch_flour_kg": 100}]})");
    const auto lot = plant.released_lot(fresh(plant, "W24-118"));
    const auto& words = story(plant, lot).reservations;
    CHECK(std::any_of(words.begin(), words.end(), [](const std::string& one) {
        return one.find("Above 30 °C strength may be lost as well as gained") != std::string::npos &&
               one.find("extrapolation") != std::string::npos;
    }));
}

TEST_CASE("Fat acidity goes by one method, from the lot's own first reading, and the story says what is set "
          "aside") {
    SmallPlant plant;
    const auto lot = plant.released_lot(fresh(plant, "W24-118"));
    CHECK_THAT(story(plant, lot).fat_acidity_words, Contains("assumed of fresh flour of this kind"));
    auto iso = retest("2026-11-18", Property::fat_acidity, "52");
    iso.figures.front().method = "ISO 7305";
    plant.app().handle(LogRetest{lot, iso});
    REQUIRE(plant.was_done());
    log(plant, lot, "2026-11-19", Property::fat_acidity, "21");
    log(plant, lot, "2026-11-25", Property::fat_acidity, "22");
    const auto words = story(plant, lot).fat_acidity_words;
    CHECK_THAT(words,
               Contains("from 2 determinations, starting from the lot's own first, 21") &&
                   Contains("1 reading by another method than the newest (in-house) is set aside: methods "
                            "are never mixed"));
}

TEST_CASE("Retests are there when the program is opened again, with the same estimate") {
    SmallPlant plant;
    const auto lot = plant.released_lot(fresh(plant, "W24-118"));
    log(plant, lot, "2026-11-17", Property::extensograph_resistance, "300");
    log(plant, lot, "2026-11-25", Property::extensograph_resistance, "390");
    const auto before = ready(plant, "W24-118");
    plant.open_again();
    CHECK(ready(plant, "W24-118") == before);
    CHECK(tests_of(plant, lot, Property::extensograph_resistance).size() == 2);
}

TEST_CASE("A retest that cannot be is refused with its field, and nothing is written") {
    SmallPlant plant;
    const auto lot = plant.released_lot(fresh(plant, "W24-118"));
    const auto refused = [&](const RetestDraft& draft, const char* field) {
        plant.app().handle(LogRetest{lot, draft});
        CHECK(plant.was_refused());
        CHECK_THAT(plant.refusals(), Contains(field));
    };
    refused(retest("2026-11-14", Property::glutathione, "150"), "Taken on");
    refused(retest("2026-11-26", Property::glutathione, "150"), "Taken on");
    refused(retest("2026-11-20", Property::glutathione, "0"), "Glutathione");
    refused(retest("2026-11-20", Property::glutathione, "-5"), "Glutathione");
    refused(retest("2026-11-20", Property::glutathione, "much"), "Glutathione");
    auto no_basis = retest("2026-11-20", Property::glutathione, "150");
    no_basis.figures.front().basis.clear();
    refused(no_basis, "Glutathione");
    refused(RetestDraft{}, "");
    CHECK(tests_of(plant, lot, Property::glutathione).empty());
    CHECK(plant.app().readiness().retests_logged == 0);
}

TEST_CASE("A retest by another method is set aside with the reason, and the others count on") {
    SmallPlant plant;
    const auto lot = plant.released_lot(fresh(plant, "W24-118"));
    auto other = retest("2026-11-16", Property::free_sulfhydryl, "3");
    other.figures.front().method = "HPLC";
    plant.app().handle(LogRetest{lot, other});
    REQUIRE(plant.was_done());
    log(plant, lot, "2026-11-17", Property::free_sulfhydryl, "6");
    log(plant, lot, "2026-11-25", Property::free_sulfhydryl, "5.8");
    const auto tests = tests_of(plant, lot, Property::free_sulfhydryl);
    REQUIRE(tests.size() == 3);
    CHECK_FALSE(tests[0].counts);
    CHECK_THAT(tests[0].standing, Contains("another method"));
    CHECK(tests[1].counts);
    CHECK(tests[2].counts);
}

TEST_CASE("The certificate is the first point when it names the method that the plant retests by") {
    SmallPlant plant;
    auto draft = fresh(plant, "W24-118");
    draft.figure(Property::free_sulfhydryl) = {Property::free_sulfhydryl, "6", "14 % moisture", "In-house",
                                               ""};
    const auto lot = plant.released_lot(draft);
    log(plant, lot, "2026-11-25", Property::free_sulfhydryl, "5.8");
    const auto tests = tests_of(plant, lot, Property::free_sulfhydryl);
    REQUIRE(tests.size() == 2);
    CHECK(tests[0].counts);
    CHECK_FALSE(tests[0].retest);
}

TEST_CASE("A result far from what the others predict asks for a check, and still counts") {
    SmallPlant plant;
    const auto lot = plant.released_lot(fresh(plant, "W24-118"));
    log(plant, lot, "2026-11-17", Property::extensograph_resistance, "300");
    log(plant, lot, "2026-11-21", Property::extensograph_resistance, "305");
    log(plant, lot, "2026-11-25", Property::extensograph_resistance, "560");
    CHECK_THAT(plant.said(), Contains("standard errors above"));
    const auto& tests = story(plant, lot).tests;
    CHECK(std::any_of(tests.begin(), tests.end(), [](const TestRow& t) { return t.asks_check && t.counts; }));
    CHECK(plant.app().readiness().rows.front().asks_check);
}

TEST_CASE("A logger's file moves the estimates of the lots in that place, and of no others") {
    SmallPlant plant;
    plant.released_lot(fresh(plant, "HERE"));
    auto elsewhere = fresh(plant, "THERE");
    elsewhere.place = "Bay 2";
    plant.released_lot(elsewhere);
    const auto here = ready(plant, "HERE"), there = ready(plant, "THERE");
    plant.app().handle(
        ReadClimateLog{"Bay 1", log_file("2026-11-17", std::vector<double>(30, 31.0)), "kept so"});
    INFO(plant.refusals());
    REQUIRE(plant.was_done());
    CHECK(*ready(plant, "HERE") < *here);
    CHECK(ready(plant, "THERE") == there);
    CHECK_THAT(plant.app().settings().places.front().measured, Contains("30 readings"));
    for (const auto& intent : Intents(plant.app().notice().undoing))
        plant.app().handle(intent);
    CHECK(ready(plant, "HERE") == here);
    CHECK(plant.app().settings().places.front().logs.front().is_withdrawn);
}

TEST_CASE("The story says how much of the storage was measured, and where gaps were bridged") {
    SmallPlant plant;
    const auto lot = plant.released_lot(fresh(plant, "W24-118"));
    CHECK_THAT(story(plant, lot).storage_words, Contains("No logger measured"));
    for (const char* from : {"2026-11-17", "2026-11-22"})
        plant.app().handle(
            ReadClimateLog{"Bay 1", log_file(from, std::vector<double>(12, 18.0)), "kept at it"});
    REQUIRE(plant.was_done());
    const auto& told = story(plant, lot);
    CHECK_THAT(told.storage_words, Contains("1 gap is bridged"));
    CHECK(told.storage.front().measured == Approx(1));
    const auto bridged = std::find_if(told.storage.begin(), told.storage.end(), [](const StorageDay& d) {
        return d.day == day_from_iso("2026-11-20");
    });
    CHECK(bridged->measured == Approx(0).margin(0.01));
}

TEST_CASE("A file that is no log, of no place, or of another year is refused and nothing is lost") {
    SmallPlant plant;
    plant.released_lot(fresh(plant, "W24-118"));
    plant.app().handle(ReadClimateLog{"Bay 9", "no-such.csv"});
    CHECK_THAT(plant.refusals(), Contains("Bay 9"));
    plant.app().handle(ReadClimateLog{"Bay 1", "no-such.csv"});
    CHECK_THAT(plant.refusals(), Contains("no-such.csv"));
    plant.app().handle(ReadClimateLog{"Bay 1", log_file("2027-11-17", std::vector<double>(12, 18.0))});
    CHECK_THAT(plant.refusals(), Contains("clock"));
    plant.app().handle(ReadClimateLog{"Bay 1", log_file("2025-11-17", std::vector<double>(12, 18.0))});
    CHECK_THAT(plant.refusals(), Contains("clock"));
    CHECK(plant.app().settings().places.front().measured.empty());
    plant.app().handle(ReadClimateLog{"Bay 1", log_file("2026-11-18", {18, -999, 19, 18})});
    CHECK(plant.was_done());
    CHECK_THAT(plant.said(), Contains("3 readings") && Contains("1 line set aside"));
    const auto& read = plant.app().settings().log_read;
    REQUIRE(read.set_aside.size() == 1);
    CHECK(read.set_aside.front().line == 3);
    CHECK_THAT(read.set_aside.front().what, Contains("-999"));
    CHECK_THAT(read.set_aside.front().why, Contains("from -40 to 60 °C is expected"));
    CHECK(set_aside_head(read) == "1 line set aside");
    const auto undo = plant.app().notice().undoing;
    for (const auto& intent : undo)
        plant.app().handle(intent);
    CHECK(plant.app().settings().log_read.set_aside.empty()); // taken back, it is listed no more
}

TEST_CASE("A lot split over a warm and a cool place is followed in each") {
    SmallPlant plant;
    const auto lot = plant.released_lot(fresh(plant, "W24-118"));
    plant.app().handle(
        ReadClimateLog{"Bay 2", log_file("2026-11-17", std::vector<double>(36, 34.0)), "kept so"});
    const auto& places = plant.app().lots().places;
    const auto whole = ready(plant, "W24-118");
    plant.app().handle(MoveLot{lot, places[0].first, places[1].first, "500"});
    REQUIRE(plant.was_done());
    CHECK_THAT(story(plant, lot).storage_words, Contains("2 places"));
    CHECK(whole);
}

TEST_CASE("What a plant's retests teach holds only when adopted, and goes back in one step") {
    SmallPlant plant;
    for (int i = 0; i < 4; ++i) {
        const auto lot = plant.released_lot(fresh(plant, "L-" + std::to_string(i)));
        log(plant, lot, "2026-11-15", Property::extensograph_resistance, "300");
        log(plant, lot, "2026-11-19", Property::extensograph_resistance, "380");
        log(plant, lot, "2026-11-22", Property::extensograph_resistance, "390");
        log(plant, lot, "2026-11-25", Property::extensograph_resistance, "390");
    }
    const auto untested = plant.released_lot(fresh(plant, "NEW"));
    const auto before = ready(plant, "NEW");
    plant.app().handle(CompareLearned{});
    const auto& learning = plant.app().settings().learning;
    REQUIRE_FALSE(learning.rows.empty());
    CHECK(learning.blocked.empty());
    CHECK_THAT(learning.rows.front().meaning, Contains("faster"));
    CHECK_THAT(learning.rows.front().from, Contains("4 lots"));
    CHECK(ready(plant, "NEW") == before);

    plant.app().handle(AdoptLearned{});
    INFO(plant.refusals());
    REQUIRE(plant.was_done());
    const auto after = ready(plant, "NEW");
    CHECK(*after < *before);
    CHECK_THAT(plant.app().settings().learning.standing, Contains("4 lots") && Contains("Tomas"));
    plant.open_again();
    CHECK(ready(plant, "NEW") == after);
    plant.app().handle(RestoreLearned{});
    REQUIRE(plant.was_done());
    CHECK(ready(plant, "NEW") == before);
    CHECK(tests_of(plant, untested, Property::extensograph_resistance).empty());
}

TEST_CASE("Too few retested lots are not offered as the plant's own") {
    SmallPlant plant;
    const auto lot = plant.released_lot(fresh(plant, "L-1"));
    log(plant, lot, "2026-11-17", Property::extensograph_resistance, "300");
    log(plant, lot, "2026-11-22", Property::extensograph_resistance, "330");
    plant.app().handle(AdoptLearned{});
    CHECK(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("1 lot was retested twice") && Contains("3 are needed"));
}

TEST_CASE("The story tells what to do, what a retest would be worth and what another place would change") {
    SmallPlant plant;
    const auto lot = plant.released_lot(fresh(plant, "W24-118"));
    log(plant, lot, "2026-11-17", Property::extensograph_resistance, "300");
    const auto& told = story(plant, lot);
    CHECK(told.advice == Advice::wait);
    CHECK_THAT(told.reasons.front(), Contains("ready from"));
    REQUIRE_FALSE(told.retests.empty());
    const auto worth = std::find_if(told.retests.begin(), told.retests.end(), [](const auto& one) {
        return one.property == Property::extensograph_resistance;
    });
    REQUIRE(worth != told.retests.end());
    CHECK(worth->days_expected <= worth->days_now);
    CHECK_THAT(worth->words, Contains("ready date"));
    CHECK(told.retests.back().property == Property::glutathione);
    CHECK(told.elsewhere.size() == 1);
    CHECK_FALSE(told.origins.empty());
    CHECK_FALSE(told.reservations.empty());
    CHECK_FALSE(told.curve.empty());
}

TEST_CASE("Flour that drew moisture from a humid place is to be held, with the reason") {
    SmallPlant plant;
    auto draft = fresh(plant, "W24-118");
    draft.figure(Property::moisture).value = "14.9";
    const auto lot = plant.released_lot(draft);
    plant.app().handle(
        ReadClimateLog{"Bay 1", log_file("2026-11-17", std::vector<double>(36, 15.0), "95"), "kept so"});
    REQUIRE(plant.was_done());
    const auto& told = story(plant, lot);
    CHECK(*told.moisture_now > 14.9);
    CHECK(told.advice == Advice::hold);
    CHECK(std::any_of(told.alarms.begin(), told.alarms.end(), [](const Alarm& a) { return a.is_stop; }));
    CHECK(plant.app().readiness().rows.front().advice == Advice::hold);
}

TEST_CASE("The mixer's water follows the moisture that the flour came to in its place") {
    SmallPlant plant;
    plant.released_lot(plant.draft("W24-118"));
    const auto run = plant.add_run("Plain loaf", "2026-11-25", "2");
    plant.plan_week();
    const double before = plant.app().card_of(run).water.value.value();
    CHECK_THAT(plant.app().card_of(run).water.note, !Contains("by drift"));
    plant.app().handle(
        ReadClimateLog{"Bay 1", log_file("2026-06-03", std::vector<double>(4 * 180, 20.0), "55"), "kept so"});
    INFO(plant.refusals());
    REQUIRE(plant.was_done());
    const auto card = plant.app().card_of(run);
    CHECK_THAT(card.water.note, Contains("by drift") && Contains("14.0 % on its certificate"));
    CHECK(card.water.value.value() > before + 1); // drier flour takes more water
}
