#pragma once

#include "app/app.h"
#include "app/book/beliefs.h"
#include "app/book/book.h"
#include "app/book/estimates.h"
#include "app/book/job.h"
#include "app/plan/what_if.h"
#include "app/plan/work.h"
#include "db/change.h"

#include <memory>
#include <optional>
#include <string>

namespace mellowbin::app {

/// What an accepted intent changed, so that only the read-models it touches are made anew.
enum class Touched : unsigned {
    nothing = 0,
    lots = 1, ///< lots, movements, stock
    runs = 2, ///< runs and assignments
    law = 4,
    choices = 8,   ///< settings
    retests = 256, ///< of State::retested
    climate = 512,
    learning = 1024,
    comparison = 2048, ///< what was learned, beside what could be
    batches = 4096,    ///< batches and solutions
    bakes = 8192,      ///< bakes, and how bread kept
    // Only what is looked at:
    opened_lot = 16,
    opened_run = 32,
    as_of = 64,
    plan_span = 128,
};
constexpr Touched operator|(Touched a, Touched b) {
    return static_cast<Touched>(static_cast<unsigned>(a) | static_cast<unsigned>(b));
}
constexpr bool has(Touched all, Touched one) {
    return (static_cast<unsigned>(all) & static_cast<unsigned>(one)) != 0;
}

/// What an accepted intent has to say.
struct Told {
    std::string words;
    Touched touched = Touched::nothing;
    std::string undo = {};
    Intents undoing = {};
    std::string screen = {};
};

struct App::State {
    AppSetup setup;
    std::unique_ptr<Connection> connection;
    Book book;
    Estimates estimates;
    Doughs doughs;

    Notice notice;
    Overview overview;
    IntakeModel intake;
    LotsModel lots;
    ReadinessModel readiness;
    PlanModel plan;
    MixerModel mixer;
    SettingsModel settings;

    LotId opened_lot;
    RunId opened_run;
    std::optional<Day> as_of;
    Day plan_from;
    int plan_days = 7;
    PlanWork plan_work;
    std::vector<Supposition> suppositions; ///< in the order they were made
    LotId retested;                        ///< whose retests changed last
    std::optional<aging::Learned>
        offered; ///< what the retests would teach now; none: not worked out since they changed
    std::uint64_t retests_logged = 0;
    std::uint64_t batches_logged = 0; ///< what was accepted on the Mixer screen
    std::uint64_t bakes_logged = 0;
    std::optional<RunId> levers_of; ///< the run whose levers are shown
    /// Bags scanned for the batch at hand of a run.
    struct Scanned {
        RunId run;
        int batch = 0;
        std::vector<LotId> lots;
    } scanned;
    std::string set_aside;          ///< of the last logger's file, line by line
    std::uint64_t book_changes = 0; ///< by this program since the book was opened

    [[nodiscard]] Day today() const { return setup.clock.today(); }
    /// The head of a journal line: now, by this person.
    [[nodiscard]] JournalLine line(std::string intent, std::string subject, std::string words) const;
};

// One function for each intent: what came of it, or why not. Throws BookError when the world fails.
Result<Told> run(App::State&, const TakeIn&);
Result<Told> run(App::State&, const ReadCertificateFile&);
Result<Told> run(App::State&, const TakeInFile&);
Result<Told> run(App::State&, const ReleaseLot&);
Result<Told> run(App::State&, const HoldLot&);
Result<Told> run(App::State&, const RejectLot&);
Result<Told> run(App::State&, const WithdrawLots&);
Result<Told> run(App::State&, const MoveLot&);
Result<Told> run(App::State&, const CountLot&);
Result<Told> run(App::State&, const WasteLot&);
Result<Told> run(App::State&, const CounterMovement&);
Result<Told> run(App::State&, const LogRetest&);
Result<Told> run(App::State&, const WithdrawRetest&);
Result<Told> run(App::State&, const ReadClimateLog&);
Result<Told> run(App::State&, const WithdrawClimateLog&);
Result<Told> run(App::State&, const CompareLearned&);
Result<Told> run(App::State&, const AdoptLearned&);
Result<Told> run(App::State&, const RestoreLearned&);
Result<Told> run(App::State&, const AddRun&);
Result<Told> run(App::State&, const DropRun&);
Result<Told> run(App::State&, const ChangeRun&);
Result<Told> run(App::State&, const GiveLot&);
Result<Told> run(App::State&, const PlanRuns&);
Result<Told> run(App::State&, const Replan&);
Result<Told> run(App::State&, const ExpectDelivery&);
Result<Told> run(App::State&, const EndExpectation&);
Result<Told> run(App::State&, const ReserveLot&);
Result<Told> run(App::State&, const EndReservation&);
Result<Told> run(App::State&, const SupposeRunMoved&);
Result<Told> run(App::State&, const SupposeOrder&);
Result<Told> run(App::State&, const SupposeNoOxidant&);
Result<Told> run(App::State&, const SupposeLotHeld&);
Result<Told> run(App::State&, const DropSupposition&);
Result<Told> run(App::State&, const PlanSuppositions&);
Result<Told> run(App::State&, const StopPlanning&);
Result<Told> run(App::State&, const AdoptPlan&);
Result<Told> run(App::State&, const DiscardPlan&);
Result<Told> run(App::State&, const PrintPlan&);
Result<Told> run(App::State&, const RestoreAssignments&);
Result<Told> run(App::State&, const LockAssignment&);
Result<Told> run(App::State&, const UnlockAssignment&);
Result<Told> run(App::State&, const ConfirmBatch&);
Result<Told> run(App::State&, const ScanBag&);
Result<Told> run(App::State&, const LogResult&);
Result<Told> run(App::State&, const CounterBatch&);
Result<Told> run(App::State&, const MakeSolution&);
Result<Told> run(App::State&, const EndSolution&);
Result<Told> run(App::State&, const KeepSolution&);
Result<Told> run(App::State&, const ShowLevers&);
Result<Told> run(App::State&, const LogBake&);
Result<Told> run(App::State&, const WithdrawBake&);
Result<Told> run(App::State&, const LogKeeping&);
Result<Told> run(App::State&, const WithdrawKeeping&);
Result<Told> run(App::State&, const ChangeDough&);
Result<Told> run(App::State&, const ConfirmLimit&);
Result<Told> run(App::State&, const DoubtLimit&);
Result<Told> run(App::State&, const ChangeSetting&);
Result<Told> run(App::State&, const OpenLot&);
Result<Told> run(App::State&, const ShowAsOf&);
Result<Told> run(App::State&, const OpenRun&);
Result<Told> run(App::State&, const ShowPlan&);
Result<Told> run(App::State&, const Search&);
Result<Told> run(App::State&, const PutAwayNotice&);

// The read-models, made anew from the book.
void make_overview(App::State&);
void make_intake(App::State&);
void make_lots(App::State&);
void make_lot_sheet(App::State&); ///< the opened lot only
void make_readiness(App::State&);
void make_plan(App::State&);
void make_mixer(App::State&);
void make_settings(App::State&);
/// What the Storage and Learned pages show; Settings' other parts stay.
void make_storage(App::State&);
void make_learning(App::State&);
/// Everything about the aging of the opened lot.
void make_story(App::State&);
CardModel make_card(const App::State&, RunId run);
LeversModel make_levers(const App::State&, RunId run);
KeepingModel make_keeping(const App::State&, ProductId product);
/// One a substance and measure that the lot was baked with.
std::vector<LadderModel> make_ladders(const App::State&, LotId lot);
std::string plan_in_words(const ProposedPlan& plan); ///< one line: what was found

} // namespace mellowbin::app
