#include "app/acts/batches.h"
#include "app/acts/give_lot.h"
#include "app/acts/intent.h"
#include "app/acts/lots.h"
#include "app/acts/scans.h"
#include "app/acts/settings.h"
#include "app/book/setup.h"
#include "app/models/card.h"
#include "app/models/journal.h"
#include "app/models/mixer.h"
#include "app/models/plan.h"
#include "app/models/plan_sheet.h"
#include "dough_plant.h"
#include "mixed_plant.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/sheet_words.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;
using Ruling = CardVerdict::Ruling;

namespace {

/// A run of three batches today from one released lot.
struct AtTheBowl {
    SmallPlant plant;
    RunId run;

    explicit AtTheBowl(const LotDraft& change = {}) {
        auto draft = plant.draft("W24-118");
        if (!change.best_before.empty())
            draft.best_before = change.best_before;
        plant.released_lot(draft);
        run = plant.add_run("Pan bread", "2026-11-25", "3");
        plant.plan_week();
    }
    CardModel card() { return plant.app().card_of(run); }
    Ruling ruling() { return card().verdict.ruling; }
    bool has(const std::string& key) {
        const auto reasons = card().verdict.reasons;
        return std::any_of(reasons.begin(), reasons.end(), [&](const auto& one) { return one.key == key; });
    }
    void does(const Intent& intent) { plant.app().handle(intent); }
    void confirms(BatchDraft draft = {}) { does(ConfirmBatch{run, std::move(draft), 0}); }
    void sets(const std::string& key, const std::string& value) {
        does(ChangeSetting{key, value});
        REQUIRE(plant.was_done());
    }
    std::string journal() {
        std::string words;
        for (const auto& row : plant.app().journal(20))
            words += row.words + "\n";
        return words;
    }
};

} // namespace

TEST_CASE(
    "A wrong bag is journalled with its code, stops the batch, and stays after the program was closed") {
    AtTheBowl at;
    REQUIRE(at.ruling() == Ruling::mix);
    at.does(ScanBag{at.run, "W24-999"});
    REQUIRE(at.plant.was_refused());
    CHECK_THAT(at.plant.refusals(), Contains("STOP: lot W24-999"));
    CHECK_THAT(at.journal(), Contains("wrong bag was scanned, lot W24-999"));
    CHECK(at.has("wrong_bag"));
    at.plant.open_again();
    CHECK(at.ruling() == Ruling::do_not_mix);
    at.confirms();
    CHECK_THAT(at.plant.refusals(), Contains("Do not mix: Lot W24-999"));
    BatchDraft draft;
    draft.answer = "I looked"; // there is no way around it at the bowl
    at.confirms(draft);
    CHECK(at.plant.was_refused());
    CHECK(at.card().logged.empty());
}

TEST_CASE("The right bags lift the stop of a wrong one; a right one before it does not") {
    AtTheBowl at;
    at.does(ScanBag{at.run, "W24-118"});
    at.does(ScanBag{at.run, "W24-999"});
    CHECK(at.ruling() == Ruling::do_not_mix);
    at.does(ScanBag{at.run, "W24-118"});
    CHECK(at.ruling() == Ruling::mix);
    at.confirms();
    CHECK(at.plant.was_done());
    CHECK(at.ruling() == Ruling::mix); // the next batch starts anew
}

TEST_CASE("Quality clears a wrong bag by name and reason, and both stand in the journal") {
    AtTheBowl at;
    at.does(ClearBags{at.run, "Ines", "never opened"});
    CHECK_THAT(at.plant.refusals(), Contains("no wrong bag"));
    at.does(ScanBag{at.run, "W24-999"});
    at.does(ClearBags{at.run, " ", ""});
    REQUIRE(at.plant.was_refused());
    CHECK_THAT(at.plant.refusals(), Contains("Cleared by: ") && Contains("Reason: "));
    CHECK(at.ruling() == Ruling::do_not_mix);
    at.does(ClearBags{at.run, "Ines", "never opened"});
    REQUIRE(at.plant.was_done());
    CHECK_THAT(at.journal(), Contains("W24-999 cleared by Ines: never opened"));
    CHECK(at.ruling() == Ruling::mix);
}

TEST_CASE(
    "What was scanned is counted, by whatever station, and the rest asks for a reason that the batch keeps") {
    AtTheBowl at;
    at.sets("scan_bags", "yes");
    CHECK(at.card().scanned_words == "0 of 1 scanned");
    at.confirms();
    CHECK_THAT(at.plant.refusals(), Contains("Reason: "));
    BatchDraft draft;
    draft.answer = "label torn";
    at.confirms(draft);
    REQUIRE(at.plant.was_done());
    CHECK_THAT(at.journal(),
               Contains("all the same: label torn") && Contains("Against it stood: 0 of 1 scanned"));
    CHECK_THAT(at.card().logged[0].words, Contains("label torn"));
    at.does(ScanBag{at.run, "W24-118"});
    at.plant.open_again(); // a scan belongs to the book
    CHECK(at.card().scanned_words == "1 of 1 scanned");
    CHECK(at.ruling() == Ruling::mix);
}

TEST_CASE("A reason that nothing asked for is not kept with the batch") {
    AtTheBowl at;
    BatchDraft draft;
    draft.answer = "label torn";
    at.confirms(draft);
    REQUIRE(at.plant.was_done());
    CHECK_THAT(at.card().logged[0].words, !Contains("label torn"));
}

TEST_CASE(
    "A lot held after its card was drawn goes into no dough, and the card of the other station changes") {
    AtTheBowl at;
    App other({at.plant.book_path(), "Ines", Clock::standing_at(day_from_iso("2026-11-25"))});
    REQUIRE(other.card_of(at.run).verdict.ruling == Ruling::mix);
    at.does(HoldLot{at.plant.lot("W24-118"), "smells of oil"});
    REQUIRE(at.plant.was_done());
    other.handle(ConfirmBatch{at.run});
    CHECK(other.notice().kind == Notice::Kind::refused);
    other.poll();
    CHECK(other.card_of(at.run).verdict.ruling == Ruling::do_not_mix);
    CHECK(other.card_of(at.run).logged.empty());
    const auto reasons = other.card_of(at.run).verdict.reasons;
    REQUIRE(reasons.size() == 1);
    CHECK(reasons[0].key == "lot_not_released");
    CHECK_THAT(reasons[0].words, Contains("smells of oil"));
}

TEST_CASE("Flour past its best-before day goes into no dough, not even for the run of the day before") {
    LotDraft dated;
    dated.best_before = "2026-11-25";
    AtTheBowl at(dated);
    CHECK(at.ruling() == Ruling::mix);
    at.plant.open_again_on(day_from_iso("2026-11-26"));
    CHECK(at.has("best_before_passed"));
    CHECK(at.ruling() == Ruling::do_not_mix);
    CHECK(at.card().lots[0].is_withheld); // no amount of it is read as one to weigh
    at.confirms();
    CHECK_THAT(at.plant.refusals(), Contains("Do not mix: Lot W24-118 is past its best-before day"));
}

TEST_CASE("Water typed far from the card asks for a reason, hotter than 60 °C it is refused") {
    AtTheBowl at; // 60 kg of water at 15 °C
    BatchDraft draft;
    draft.water = "35";
    at.confirms(draft);
    CHECK_THAT(at.plant.refusals(),
               Contains("Reason: ") && Contains("Water: 35.0 kg was read, the card says 60.0 kg"));
    draft.answer = "the meter stuck";
    at.confirms(draft);
    REQUIRE(at.plant.was_done());
    CHECK_THAT(at.journal(), Contains("the meter stuck"));
    for (const char* hot : {"61", "99"}) {
        BatchDraft boiling;
        boiling.water_temperature = hot;
        boiling.answer = "so it was";
        at.confirms(boiling);
        CHECK_THAT(at.plant.refusals(), Contains("Water temperature: "));
    }
    BatchDraft warm;
    warm.water_temperature = "30";
    at.confirms(warm);
    CHECK_THAT(at.plant.refusals(), Contains("Water temperature: 30.0 °C was read, the card says 15.0 °C"));
    at.sets("water_temperature_distance", "20");
    at.confirms(warm);
    CHECK(at.plant.was_done());
}

TEST_CASE("A dough of 45 °C for 27 aimed at is not written down without a word") {
    AtTheBowl at;
    at.confirms();
    REQUIRE(at.plant.was_done());
    const auto batch = at.card().logged.front().id;
    at.does(LogResult{batch, {"45", "", "", "", "", ""}});
    CHECK_THAT(at.plant.refusals(),
               Contains("Reason: ") && Contains("Dough temperature: 45.0 °C was read, 27.0 °C is aimed at"));
    at.does(LogResult{batch, {"45", "", "", "", "", "", "the chiller failed"}});
    REQUIRE(at.plant.was_done());
    CHECK_THAT(at.card().logged[0].result_words, Contains("the chiller failed"));
}

TEST_CASE("After a batch no shortage is told that is none, and the figures of what is left are right") {
    AtTheBowl at;
    at.confirms();
    REQUIRE(at.plant.was_done());
    const auto card = at.card();
    CHECK(std::none_of(card.cautions.begin(), card.cautions.end(), [](const CardCaution& caution) {
        return caution.words.find("enough for") != std::string::npos ||
               caution.words.find("short") != std::string::npos;
    }));
    CHECK(at.ruling() == Ruling::mix);
}

TEST_CASE("Every figure of card and refusals is read in the house's units") {
    AtTheBowl at;
    at.sets("mass_unit", "lb");
    at.sets("temperature_unit", "°F");
    at.sets("hot_water_from", "20");
    CHECK_FALSE(at.has("water_hot")); // 15 °C
    BatchDraft draft;
    draft.water = "80"; // the card says 132.3 lb
    at.confirms(draft);
    CHECK_THAT(at.plant.refusals(), Contains("80.0 lb was read, the card says 132.3 lb") && !Contains("kg"));
    draft.water = "300";
    at.confirms(draft);
    CHECK_THAT(at.plant.refusals(), Contains("lb") && !Contains(" kg"));
    draft.water.clear();
    draft.water_temperature = "33";
    at.confirms(draft);
    CHECK_THAT(at.plant.refusals(), Contains("°F") && !Contains("°C"));
}

TEST_CASE("Water that cannot be is withheld on the card, and Confirm is refused with the cause") {
    // 5 kg of flour take 3 kg of water: by a step of 10 kg none.
    std::string file = tests::dosing_plant;
    const auto change = [&](const std::string& was, const std::string& is) {
        const auto at = file.find(was);
        REQUIRE(at != std::string::npos);
        file.replace(at, was.size(), is);
    };
    change("\"water_step_kg\": 0.1", "\"water_step_kg\": 10");
    change("\"batch_flour_kg\": 100", "\"batch_flour_kg\": 5");
    SmallPlant plant(day_from_iso("2026-11-25"), file);
    plant.released_lot(plant.draft("W24-118"));
    const auto run = plant.add_run("Pan bread", "2026-11-25", "3");
    plant.plan_week();
    const auto card = plant.app().card_of(run);
    CHECK(card.verdict.ruling == Ruling::do_not_mix);
    CHECK_FALSE(card.water.value);
    CHECK_FALSE(card.water_temperature.value);
    CHECK(shown(card.water).value == "withheld");
    plant.app().handle(ConfirmBatch{run});
    CHECK_THAT(plant.refusals(), Contains("Do not mix: ") && Contains("by a step of 10.0 kg"));
}

TEST_CASE("The plan shows the verdict of the run's card, and its page to print says it too") {
    AtTheBowl at;
    const auto shown_on_plan = [&] { return at.plant.planned(at.run).verdict; };
    REQUIRE(shown_on_plan());
    CHECK(shown_on_plan()->ruling == Ruling::mix);
    at.does(ScanBag{at.run, "W24-999"});
    REQUIRE(shown_on_plan());
    CHECK(shown_on_plan()->ruling == at.ruling());
    CHECK(shown_on_plan()->reasons.front().words == at.card().verdict.reasons.front().words);
    const auto page = tests::words_of(plan_sheet(at.plant.app().plan(), {"", "now", Instant{}}));
    CHECK_THAT(page, Contains("Do not mix") && Contains("W24-999"));
}

TEST_CASE("Where a batch takes one lot alone, a bag of that lot is all that lifts the stop of a wrong one") {
    SmallPlant plant(day_from_iso("2026-11-25"), tests::mixed_plant);
    auto small = plant.draft("W24-1");
    small.mass_kg = "100";
    const auto first = plant.released_lot(small);
    plant.released_lot(plant.draft("W24-2"));
    const auto run = plant.add_run("Traced loaf", "2026-11-25", "3");
    plant.app().handle(GiveLot{first, {}, run});
    plant.plan_week();
    REQUIRE(plant.planned(run).lots.size() == 2);
    const auto card = plant.app().card_of(run);
    REQUIRE(card.lots.size() == 1);
    plant.app().handle(ScanBag{run, "W24-999"});
    CHECK(plant.app().card_of(run).verdict.ruling == Ruling::do_not_mix);
    plant.app().handle(ScanBag{run, card.lots[0].code});
    CHECK(plant.app().card_of(run).verdict.ruling == Ruling::mix);
}

TEST_CASE("A bag scanned of a run that is mixed to the end is refused and not written down as a wrong one") {
    AtTheBowl at;
    for (int batch = 1; batch <= 3; ++batch)
        at.confirms();
    const auto before = at.journal();
    at.does(ScanBag{at.run, "W24-999"});
    CHECK_THAT(at.plant.refusals(), Contains("all batches of this run are mixed"));
    CHECK(at.journal() == before);
}
