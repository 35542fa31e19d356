#pragma once

#include "core/bake.h"
#include "core/batch.h"
#include "core/lot.h"
#include "core/retest.h"
#include "core/stock.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

/// One struct for each thing a person does. A view appends one, the command line makes one; App::handle
/// carries it out and says what came of it. Ids are the book's; what people typed is text until it has been
/// read.
namespace mellowbin::app {

// Intake
struct TakeIn {
    std::vector<LotDraft> lots;
    std::string door_checks; ///< what was checked at the door, in words; goes into the journal
};
/// Reads a certificate file into drafts on the Intake screen; nothing is written to the book.
struct ReadCertificateFile {
    std::string path;
    LotDraft defaults; ///< mill, flour, place, delivered on: for what the file does not say
};

enum class FaultyLines { take_nothing, leave_out };
/// Takes in the lots of a certificate file at once.
struct TakeInFile {
    std::string path;
    LotDraft defaults; ///< as above
    FaultyLines faulty_lines = FaultyLines::take_nothing;
};

// A lot's life
struct ReleaseLot {
    LotId lot;
    std::string reason; ///< needed for a lot that was held
};
struct HoldLot {
    LotId lot;
    std::string reason;
};
struct RejectLot {
    LotId lot;
    std::string reason;
};
/// The counter-entry of TakeIn: the receipts are taken back and the lots rejected as taken in by mistake.
struct WithdrawLots {
    std::vector<LotId> lots;
};

// Stock
struct MoveLot {
    LotId lot;
    PlaceId from;
    PlaceId to;
    std::string kg;
};
struct CountLot {
    LotId lot;
    PlaceId place;
    std::string kg;
};
struct WasteLot {
    LotId lot;
    PlaceId place;
    std::string kg;
    std::string reason;
};
/// Takes a movement back by a second line.
struct CounterMovement {
    MovementId movement;
    std::string reason;
};

// Retests, storage climate, learning
struct LogRetest {
    LotId lot;
    RetestDraft retest;
};
struct WithdrawRetest {
    RetestId retest;
    std::string reason;
};
/// Reads a data logger's file into the book for a place.
struct ReadClimateLog {
    std::string place; ///< name
    std::string path;
};
struct WithdrawClimateLog {
    ClimateLogId log;
    std::string reason;
};
/// Works out what the plant's retests would teach, to be looked at; changes no book.
struct CompareLearned {};
/// The plant's own rates and amplitudes, learned from its retests, hold in place of the published ones from
/// now on.
struct AdoptLearned {};
/// Back to what held before: an earlier adoption, or 0 for the published figures.
struct RestoreLearned {
    LearningId learning;
};

// Plan
struct AddRun {
    std::string product; ///< name
    std::string line;    ///< name
    std::string day;     ///< ISO
    std::string batches;
};
struct DropRun {
    RunId run;
};
/// Other batches, another place in time or on another line; what is left empty stays as it is.
struct ChangeRun {
    RunId run;
    std::string line; ///< name
    std::string day;  ///< ISO
    std::string batches;
    std::string sequence; ///< its place among the runs of line and day, from 1
};
/// A lot of one run is wanted in another: as much as the other needs is locked to it there and taken from
/// where it stood; without `from` it comes from what no run has.
struct GiveLot {
    LotId lot;
    std::optional<RunId> from;
    RunId to;
};
struct PlanRuns {
    Day from;
    int days = 7;
    double seconds = 0; ///< to search for; 0: as Settings say
};
/// A plan close to the one in the book: what no longer holds is mended first, then what lies near it.
struct Replan {
    Day from;
    int days = 7;
};
struct StopPlanning {}; ///< and keep the best plan found
struct AdoptPlan {};
struct DiscardPlan {};
/// Writes the plan shown as a page to print (HTML); changes no book.
struct PrintPlan {
    std::string path; ///< empty: beside the book, named by the first day; needed for a book in memory
};
/// Puts assignments in place of the open ones of these runs: takes an adopted plan back.
struct RestoreAssignments {
    std::vector<RunId> runs;
    std::vector<Assignment> assignments;
    std::vector<Promise> promises = {}; ///< in the place of all of theirs
};
struct LockAssignment {
    RunId run;
    LotId lot;
};
struct UnlockAssignment {
    RunId run;
    LotId lot;
};

// Deliveries to come, flour that is spoken for
struct ExpectDelivery {
    std::string mill;  ///< name
    std::string flour; ///< name
    std::string kg;
    std::string arrives;   ///< ISO day
    std::string milled;    ///< ISO day; empty: not known
    ExpectedId again = {}; ///< one that ended: it is expected again as it stood, and nothing else is read
};
/// It came or was called off. With a lot, what plans had from it goes to that lot, as far as it reaches.
struct EndExpectation {
    ExpectedId delivery;
    std::optional<LotId> came_as;
    std::string reason; ///< where it was called off
};
struct ReserveLot {
    LotId lot;
    std::string product; ///< name; empty: nobody's, the kg are kept back from every plan
    std::string kg;      ///< empty with a product
    std::string reason;
};
struct EndReservation {
    ReservationId reservation;
    std::string reason;
};

// What if: tried on a copy, never in the book
struct SupposeRunMoved {
    RunId run;
    std::string line, day, sequence; ///< as in ChangeRun
};
struct SupposeOrder {
    std::string flour, kg, arrives;
};
struct SupposeNoOxidant {
    std::string market; ///< key
};
struct SupposeLotHeld {
    LotId lot;
};
struct DropSupposition {
    int index = 0; ///< into PlanModel::suppositions
};
/// Plans with what is supposed, beside the plan in the book; the result can be looked at, not adopted.
struct PlanSuppositions {};

// Mixer
/// What went in of one lot where it was not what the card says, in the house's unit of mass.
struct FlourGiven {
    LotId lot;
    std::string mass;
};
/// What went in, as typed in the units of the house. What is empty went in as the card says.
struct BatchDraft {
    std::vector<FlourGiven> flour;
    std::string water;
    std::string water_temperature;
    std::string ice;
    std::string oxidant;    ///< in the unit of the card: g, or mL of the stock solution
    std::string checked_by; ///< the second person, where the plant asks for one
};
struct ConfirmBatch {
    RunId run; ///< the next batch of it went in: its flour leaves the stock
    BatchDraft went_in = {};
    int batch = 0; ///< as the screen showed it; 0: whichever is next
};
/// A bag's lot held against the card: a wrong one is stopped.
struct ScanBag {
    RunId run;
    std::string scan; ///< a lot number, or a GS1 element string with one
};
/// What came of a batch, as typed; all that is known of it, since it stands for what was said before.
struct ResultDraft {
    std::string dough_temperature;
    std::string ph;
    std::string feel; ///< key: "stiff", "right", "slack"
    std::string mixing_minutes;
    std::string fermentation_minutes;
    std::string note;
};
struct LogResult {
    BatchId batch;
    ResultDraft result;
};
/// The batch was not mixed, or not so: its flour goes back, and it teaches nothing.
struct CounterBatch {
    BatchId batch;
    std::string reason;
};
/// An oxidant was dissolved for today's doughs.
struct MakeSolution {
    std::string substance; ///< name
    std::string grams_per_litre;
    std::string keeps_hours; ///< empty: as Settings say
};
struct EndSolution {
    SolutionId solution;
};
/// The counter-entry of EndSolution.
struct KeepSolution {
    SolutionId solution;
};
/// The levers of a run, worked out and shown; nothing: no longer.
struct ShowLevers {
    std::optional<RunId> run;
};

// Bakes and keeping
struct LogBake {
    LotId lot;
    BakeDraft bake;
};
struct WithdrawBake {
    BakeId bake;
    std::string reason;
};
struct LogKeeping {
    KeepingDraft record;
};
struct WithdrawKeeping {
    KeepingId record;
    std::string reason;
};
/// How a product's dough may be helped and its bread kept, as typed; empty: as it stands.
struct ChangeDough {
    std::string product;                   ///< name
    std::string process = {};              ///< name of the dough process
    std::string most_fermentation = {};    ///< minutes
    std::string maturity_per_hour = {};    ///< %, by the plant's own bakes; "none": not calibrated
    std::string water_offset = {};         ///< points against the farinograph
    std::string preservative = {};         ///< name
    std::string preservative_percent = {}; ///< of flour
    std::string cultured_acid = {};        ///< % propionic acid in the cultured wheat
    std::string erh = {};                  ///< % of the crumb, as measured; "none"
    std::string enzyme = {};               ///< in words; "none"
};

// Settings
struct ConfirmLimit {
    std::int64_t row = 0; ///< the person has read the law's text and takes responsibility for the row
};
/// Takes a confirmation back.
struct DoubtLimit {
    std::int64_t row = 0;
};
struct ChangeSetting {
    std::string key;
    std::string value;
};

// What is looked at: changes no book
struct OpenLot {
    LotId lot;
};
struct ShowAsOf {
    Day day; ///< readiness as of this day
};
struct OpenRun {
    RunId run; ///< its card on the Mixer screen
};
struct ShowPlan {
    Day from;
    int days = 7;
};
struct Search {
    std::string words;
};
struct PutAwayNotice {};

using Intent =
    std::variant<TakeIn, ReadCertificateFile, TakeInFile, ReleaseLot, HoldLot, RejectLot, WithdrawLots,
                 MoveLot, CountLot, WasteLot, CounterMovement, LogRetest, WithdrawRetest, ReadClimateLog,
                 WithdrawClimateLog, CompareLearned, AdoptLearned, RestoreLearned, AddRun, DropRun, ChangeRun,
                 GiveLot, PlanRuns, Replan, ExpectDelivery, EndExpectation, ReserveLot, EndReservation,
                 SupposeRunMoved, SupposeOrder, SupposeNoOxidant, SupposeLotHeld, DropSupposition,
                 PlanSuppositions, StopPlanning, AdoptPlan, DiscardPlan, RestoreAssignments, LockAssignment,
                 UnlockAssignment, ConfirmBatch, ScanBag, LogResult, CounterBatch, MakeSolution, EndSolution,
                 KeepSolution, ShowLevers, LogBake, WithdrawBake, LogKeeping, WithdrawKeeping, ChangeDough,
                 ConfirmLimit, DoubtLimit, ChangeSetting, OpenLot, ShowAsOf, OpenRun, ShowPlan, Search,
                 PutAwayNotice, PrintPlan>;
using Intents = std::vector<Intent>;

} // namespace mellowbin::app
