// From where flour is drawn at the bowl, silos that are looked after, and what lay where.

#include "app/acts/batches.h"
#include "app/acts/draws.h"
#include "app/acts/give_lot.h"
#include "app/acts/looking.h"
#include "app/acts/scans.h"
#include "app/models/card.h"
#include "app/models/settings.h"
#include "app/models/trace_page.h"
#include "silo_plant.h"
#include "support/catch.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;

namespace {

/// 1,000 kg of a lot, of which 300 lie in Bay 2 and the rest in Bay 1; a run of three batches of 100 kg.
struct TwoBays : tests::SiloPlant {
    LotId lot = comes("W24-118", "Bay 1", "1000");
    RunId run;

    TwoBays() {
        done(MoveLot{lot, place("Bay 1"), place("Bay 2"), "300"});
        run = add_run("Pan bread", "2026-11-25", "4");
        done(GiveLot{lot, {}, run});
    }
    double lying(const std::string& bay) {
        app().handle(ShowStock{});
        for (const auto& row : app().trace().stock->rows)
            if (row.place == bay)
                return row.kg;
        return 0;
    }
    CardLot on_card() { return app().card_of(run).lots.at(0); }
    void mixes(const char* kg = "100") {
        BatchDraft draft;
        draft.flour = {{lot, kg, ""}};
        draft.answer = "for a test";
        done(ConfirmBatch{run, draft, 0});
    }
    std::string journal() {
        std::string words;
        for (const auto& line : app().settings().journal)
            words += line.words + "\n";
        return words;
    }
};

} // namespace

TEST_CASE("A batch is drawn from the place that the card shows, not from the fullest") {
    TwoBays at;
    CHECK(at.on_card().place == "Bay 2");
    REQUIRE(at.on_card().places.size() == 2);
    CHECK_FALSE(at.on_card().places[0].is_first);
    CHECK(at.on_card().places[1].is_first);
    at.mixes();
    CHECK(at.lying("Bay 1") == 700);
    CHECK(at.lying("Bay 2") == 200);
    CHECK_THAT(at.journal(), Contains("of lot W24-118 used for run") && Contains("from Bay 2"));
}

TEST_CASE("A place that is chosen is drawn from until it is empty, and then the next one with it") {
    TwoBays at;
    at.done(DrawFrom{at.run, at.lot, "Bay 1"});
    CHECK_THAT(at.said(), Contains("draws W24-118 from Bay 1"));
    CHECK(at.on_card().place == "Bay 1");
    at.mixes();
    CHECK(at.lying("Bay 1") == 600);
    at.open_again(); // it stands in the book
    CHECK(at.on_card().place == "Bay 1");
    at.done(DrawFrom{at.run, at.lot, "Bay 2"});
    at.mixes();
    at.mixes();
    at.mixes("100");
    CHECK(at.lying("Bay 2") == 0);
    CHECK(at.lying("Bay 1") == 600);
}

TEST_CASE("A batch that is more than lies in the chosen place takes the rest from where the card says") {
    TwoBays at;
    at.done(MoveLot{at.lot, at.place("Bay 2"), at.place("Bay 1"), "260"}); // 40 are left
    CHECK(at.on_card().place == "Bay 2 40.0 kg, Bay 1 60.0 kg");
    at.mixes();
    CHECK(at.lying("Bay 2") == 0);
    CHECK(at.lying("Bay 1") == 900);
}

TEST_CASE("A batch that is taken back puts its flour where it was drawn") {
    TwoBays at;
    at.mixes();
    at.undo();
    CHECK(at.lying("Bay 2") == 300);
    CHECK(at.lying("Bay 1") == 700);
}

TEST_CASE("The name of a place is scanned in the place of a bag, and says where the batch is drawn from") {
    TwoBays at;
    at.done(ScanBag{at.run, "bay 1"});
    CHECK_THAT(at.said(), Contains("draws W24-118 from Bay 1"));
    CHECK(at.on_card().place == "Bay 1");
    CHECK_THAT(at.refused(ScanBag{at.run, "Silo 1"}),
               Contains("Place: nothing of this batch lies in Silo 1") && Contains("W24-118: Bay 1, Bay 2"));
    CHECK(at.app().card_of(at.run).verdict.reasons.empty()); // and no wrong bag stands against it
}

TEST_CASE("A draw from a place that is not known, or where the lot does not lie, is refused by its field") {
    TwoBays at;
    CHECK_THAT(at.refused(DrawFrom{at.run, at.lot, "Cellar"}), Contains("Place: \"Cellar\" is not known"));
    CHECK_THAT(at.refused(DrawFrom{at.run, at.lot, "Silo 1"}),
               Contains("nothing of this batch lies in Silo 1"));
}

TEST_CASE("A draw larger than all that lies there books nothing") {
    TwoBays at;
    BatchDraft draft;
    draft.flour = {{at.lot, "250", ""}};
    draft.answer = "for a test";
    at.done(WasteLot{at.lot, at.place("Bay 1"), "700", "wet"});
    at.done(WasteLot{at.lot, at.place("Bay 2"), "120", "wet"});
    CHECK_THAT(at.refused(ConfirmBatch{at.run, draft, 0}),
               Contains("250.0 kg is needed, 180.0 kg is in stock"));
    CHECK(at.lying("Bay 2") == 180);
}

TEST_CASE("Of a silo the card says what really comes beside the lot that is named") {
    tests::SiloPlant at;
    const auto a = at.comes("A", "Silo 1", "1000");
    at.comes("B", "Silo 1", "3000");
    const RunId run = at.add_run("Pan bread", "2026-11-25", "3");
    at.done(GiveLot{a, {}, run});
    CHECK(at.app().card_of(run).lots.at(0).drawn == "may hold A 25 %, may hold B 75 %");
    at.done(SetSiloZone{"Silo 1", "none"});
    CHECK(at.app().card_of(run).lots.at(0).drawn.empty()); // the lot alone
}

TEST_CASE("Two people who count one bay book the difference once") {
    TwoBays at;
    at.done(CountLot{at.lot, at.place("Bay 1"), "690", "a bag was torn"});
    at.done(CountLot{at.lot, at.place("Bay 1"), "690", "a bag was torn"});
    CHECK_THAT(at.said(), Contains("as the book says"));
    CHECK(at.lying("Bay 1") == 690);
    CHECK_THAT(at.refused(CountLot{at.lot, at.place("Silo 1"), "5", ""}),
               Contains("are not the 0.0 kg booked"));
}

TEST_CASE("Stock at an instant that has been is what lay there then, with its age on that day") {
    TwoBays at; // all at noon of the 25th
    at.mixes();
    at.open_again_on(day_from_iso("2026-11-27"));
    at.done(WasteLot{at.lot, at.place("Bay 2"), "50", "wet"});
    const auto stock_at = [&](const char* typed) {
        at.done(ShowStock{typed});
        return *at.app().trace().stock;
    };
    CHECK(stock_at("").kg == 850);
    CHECK(stock_at("2026-11-26").kg == 900);
    CHECK(stock_at("2026-11-25 23:00").kg == 900);
    CHECK(stock_at("2026-11-24").kg == 0);
    CHECK(stock_at("2026-11-27").rows.size() == 2);
    const auto now = stock_at("");
    REQUIRE(now.rows.size() == 2);
    CHECK(now.rows[0].age_days == stock_at("2026-11-25 23:00").rows[0].age_days + 2);
    double of_ages = 0;
    for (const auto& age : now.ages)
        of_ages += age.kg;
    CHECK(of_ages == now.kg);
    CHECK(now.flours.at(0).kg == now.kg);
    for (const char* typed : {"yesterday", "2026-11-25 25:00", "2026-11-25 8", "2026-13-01"})
        CHECK_THAT(at.refused(ShowStock{typed}), Contains("At: \"" + std::string(typed) + "\" was read"));
    CHECK_THAT(at.refused(ShowStock{"2026-12-24"}), Contains("which is to come"));
}

TEST_CASE("What is left in a silo that was emptied goes off the book with the reason, or it is refused") {
    tests::SiloPlant at;
    at.comes("A", "Silo 1", "1000");
    CHECK_THAT(at.refused(NoteCare{"Silo 1", "cleaned", "", "", ""}),
               Contains("Silo 1 holds flour by the book: 1000 kg of A") && Contains("that it was emptied"));
    CHECK_THAT(at.refused(NoteCare{"Silo 1", "emptied", "", "", " "}), Contains("Reason: is empty"));
    CHECK_THAT(at.refused(NoteCare{"Bay 1", "swept", "2027-01-01", "", ""}),
               Contains("\"Bay 1\" is no silo") && Contains("\"swept\" was read") && Contains("Day: "));
    at.done(NoteCare{"Silo 1", "emptied", "2026-11-24", "Joris", "the rest ran to the floor"});
    CHECK(at.row("A").stock_kg == 0);
    CHECK(at.row("A").state == LotState::used_up);
    at.done(NoteCare{"Silo 1", "cleaned", "", "", "brushed"});
    at.done(NoteCare{"Silo 1", "sanitised", "", "", ""});
    at.done(ShowSiloDraw{"500"});
    const auto& silo = at.app().trace().silos.at(0);
    REQUIRE(silo.care.size() == 3);
    CHECK_THAT(silo.care[0], Contains("sanitised on 2026-11-25 by"));
    CHECK(silo.care[2] == "emptied on 2026-11-24 by Joris: the rest ran to the floor");
    CHECK(silo.layers.empty());
}

TEST_CASE("A silo tells what lies in it and what a draw would hold, by the rules for blends") {
    tests::SiloPlant at;
    at.comes("A", "Silo 1", "1000", "12");
    at.comes("B", "Silo 1", "3000", "13");
    at.done(ShowSiloDraw{"400"});
    auto silo = at.app().trace().silos.at(0);
    REQUIRE(silo.layers.size() == 2);
    CHECK(silo.layers[0].code == "A");
    CHECK(silo.layers[0].percent == Approx(25));
    REQUIRE(silo.draw.size() == 2);
    CHECK(silo.draw[0].kg == Approx(100));
    CHECK(silo.draw[0].certainty == "may contain");
    const auto protein = std::ranges::find(silo.figures, "Protein", &Figure::label);
    REQUIRE(protein != silo.figures.end());
    CHECK(*protein->value == Approx(12.75));
    CHECK_THAT(at.refused(ShowSiloDraw{"0"}), Contains("Draw: "));
    at.done(SetSiloZone{"Silo 1", "none"});
    at.done(ShowSiloDraw{"9999"});
    silo = at.app().trace().silos.at(0);
    CHECK(silo.draw_kg == 4000);
    CHECK(silo.draw[1].certainty == "contains");
}

TEST_CASE("A delivery into a silo that has no room for it is refused, and nothing of it is taken in") {
    tests::SiloPlant at;
    at.done(SetSiloCapacity{"Silo 1", "1500"});
    at.comes("A", "Silo 1", "1000");
    auto lot = at.draft("B");
    lot.place = "Silo 1";
    CHECK_THAT(at.refused(TakeIn{{lot}}), Contains("Silo 1 holds 1500 kg at most and 1000 kg lie in it"));
    CHECK_THROWS(at.lot("B"));
    CHECK_THAT(at.refused(SetSiloCapacity{"Silo 1", "-1"}), Contains("Holds at most: "));
    at.done(SetSiloCapacity{"Silo 1", ""});
    at.done(TakeIn{{lot}});
}

TEST_CASE(
    "A lot on hold stops every batch that is drawn from the mixture it lies in, until quality lifts it") {
    tests::SiloPlant at;
    const auto a = at.comes("A", "Silo 1", "1000");
    const auto b = at.comes("B", "Silo 1", "3000");
    const RunId run = at.add_run("Pan bread", "2026-11-25", "3");
    at.done(GiveLot{a, {}, run});
    at.done(HoldLot{b, "smells musty"});
    const auto card = at.app().card_of(run);
    CHECK(card.verdict.ruling == CardVerdict::Ruling::do_not_mix);
    CHECK(card.lots.at(0).is_withheld);
    CHECK_THAT(card.verdict.reasons.at(0).words,
               Contains("Silo 1 may give B with it, and that one is on hold"));
    CHECK_THAT(at.refused(ConfirmBatch{run, {}, 0}), Contains("Do not mix: Silo 1 may give B"));
    at.done(MoveLot{a, at.place("Silo 1"), at.place("Bay 1"), "200"});
    at.done(DrawFrom{run, a, "Bay 1"});
    CHECK(at.app().card_of(run).verdict.ruling != CardVerdict::Ruling::do_not_mix); // another place
    at.done(DrawFrom{run, a, "Silo 1"});
    CHECK(at.app().card_of(run).verdict.ruling == CardVerdict::Ruling::do_not_mix);
    at.done(ReleaseLot{b, "aired"});
    CHECK(at.app().card_of(run).verdict.ruling != CardVerdict::Ruling::do_not_mix);
}

TEST_CASE("More than the card says, so that a lot on hold comes with it, is stopped by what really went in") {
    tests::SiloPlant at;
    const auto a = at.comes("A", "Silo 1", "200");
    const auto b = at.comes("B", "Silo 1", "3000");
    at.done(SetSiloZone{"Silo 1", "50"}); // B reaches the foot once 150 kg are drawn
    const RunId run = at.add_run("Pan bread", "2026-11-25", "1");
    at.done(GiveLot{a, {}, run});
    at.done(HoldLot{b, "smells musty"});
    CHECK(at.app().card_of(run).verdict.ruling != CardVerdict::Ruling::do_not_mix);
    BatchDraft went_in;
    went_in.flour = {{a, "180", ""}};
    went_in.water = "110";
    went_in.answer = "for a test";
    CHECK_THAT(at.refused(ConfirmBatch{run, went_in, 0}), Contains("Do not mix: Silo 1 may give B"));
    went_in.flour.front().mass = "140";
    went_in.water = "85";
    at.done(ConfirmBatch{run, went_in, 0});
}
