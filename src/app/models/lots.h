#pragma once

#include "app/models/journal.h"
#include "app/models/ladders.h"
#include "app/models/lot_standing.h"
#include "app/models/outlook.h"
#include "app/models/own_tests.h"
#include "app/models/past.h"
#include "core/lot.h"
#include "core/stock.h"
#include "core/test_precision.h"

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace mellowbin::app {

/// A lot by its names alone.
struct NamedLot {
    LotId id;
    std::string mill, code;
};

struct LotRow {
    LotId id;
    std::string code, mill, flour;
    LotState state{};
    Day delivered_on;
    std::optional<Day> milled_on;
    double stock_kg = 0;
    std::string places;
    std::optional<double> protein_14, absorption_14, falling_number_s, moisture;
    std::string mill_additions; ///< "Potassium bromate 30 mg/kg"; empty for none
    Readiness readiness{};
    double probability_mature = 0;   ///< on the day looked at
    std::optional<Day> ready_on;     ///< at the confidence set
    std::optional<Day> past_best_on; ///< at the confidence set
    std::string changed;             ///< "04:12, Ines": by another station, and not looked at here since
    LotStanding standing = {};       ///< where it stands otherwise than its state says
};

struct CheckedWindow {
    Judgement judgement;
    std::optional<double> low, high; ///< of the window, at 14 % moisture where it has a basis
};

struct PlaceShare {
    PlaceId place;
    std::string name;
    double kg = 0;
};

struct MovementRow {
    MovementId id;
    std::string at, who, words; ///< "1 200 kg from Bay 2 to Silo 1"
    bool can_counter = false;
};

/// Something that a person looks at before the lot is released.
struct Finding {
    enum class Weight { well, mind, against };
    Weight weight{};
    std::string words; ///< "Bags dry and not torn: no, 3 bags, wet at one corner"
};

/// A retest that stands, held against the flour's specification.
struct JudgedRetest {
    RetestId id;
    Day taken_on;
    std::string words;                  ///< "Retest of 2026-11-24, Ines"
    std::vector<CheckedWindow> windows; ///< of what was measured
};

/// A result of a retest held against the certificate's.
struct AgreementRow {
    RetestId retest;
    Day taken_on;
    Property property{};
    ComparedResult::Verdict verdict{};
    std::optional<double> difference, allowed; ///< at 14 % moisture where it has a basis
    std::string words;           ///< "contradicts: differs 1.4 %, only up to 0.5 % is chance (R, …)"
    std::string aging = {};      ///< what aging says of the difference, beside that; empty: nothing
    bool aging_explains = false; ///< a contradiction that is not the mill's error
};

/// The concession that a lot was released under.
struct ConcessionShown {
    std::string deviation, by, products; ///< "Pan bread, Bun", "all products"
    Day until;
    bool is_over = false;
    ConcessionDraft draft; ///< as a form begins that changes it
};

/// Flour of the lot that went into dough and did not come back.
struct FlourOut {
    std::optional<RunId> run;
    std::string run_words; ///< "R261125-1-1"
    double kg = 0;
};

/// How a lot stands, in one sentence, and the act that follows from it.
struct LotVerdict {
    enum class Follows { nothing, release, hold, extend, retest, write_off, judge_anew };
    Finding::Weight weight{};
    std::string words;   ///< "On hold since Sun 15 Nov"
    std::string reasons; ///< "The mill's falling number, 228 s, is under 250 s."; empty: none to tell
    Follows follows{};
};

/// One lot opened.
struct LotSheet {
    LotRow row;
    MillId mill;
    OwnTestAdvice own_test; ///< while it is new
    LotVerdict verdict;
    std::optional<Day> certified_on; ///< the certificate's own date
    double bag_kg = 0;               ///< one bag; 0: it came loose
    Day state_since;                 ///< in the plant's time
    std::string state_reason, state_by;
    std::string state_words; ///< "Released by Ines on 2026-11-20: inside the specification"
    std::optional<Day> best_before, last_day;
    std::string best_before_words; ///< "Best before 2026-11-01, may be used until 2026-12-01: …"; empty: none
    bool is_over = false;          ///< the last day is past
    std::string delivered_words;   ///< "The flour came at 31.0 °C"; empty: nobody said
    std::string
        came_words; ///< "Came on Tue 24 Nov from Harrow Mill, note 4711"; empty: before deliveries were kept
    std::optional<DeliveryId> came_with;
    std::vector<Pallet> pallets;       ///< that it came on, as far as they were scanned
    std::vector<Finding> door;         ///< the checks at the door, as they were answered
    std::vector<JudgedRetest> retests; ///< the newest first
    std::vector<Finding> results;      ///< retests, the newest first, and the certificate, in one line each
    std::vector<std::string> failing;  ///< "Protein 11.2 %, below …": by the newest figure of each property
    std::vector<AgreementRow> agreements; ///< of the retests with the certificate, the newest first
    std::optional<ConcessionShown> concession;
    std::vector<std::string> products; ///< of its flour, that a concession may name
    Certificate certificate;
    std::string
        certificate_file; ///< the name of the file it came as, to be saved again; empty: none was kept
    std::string certificate_words; ///< "harrow.xlsx, line 7, kept 24 Nov 14:20 by Ines"; empty: none was kept
    std::vector<CheckedWindow> windows; ///< against the flour's specification
    std::vector<std::string> fits;      ///< "Pan bread: inside the specification" / "Bun: protein below"
    std::vector<PlaceShare> places;
    std::vector<FlourOut> out;
    std::vector<MovementRow> movements;
    std::vector<JournalRow> history;
    std::vector<CurveDay> curve;
    std::vector<std::string> reservations; ///< of the estimate, in words
    std::vector<std::string> state_choices;
    DaySpread ready, past_best;
    std::vector<LadderModel> ladders;    ///< one a substance and measure with bakes of this lot
    std::vector<std::string> substances; ///< to bake with
    std::uint64_t bakes_logged = 0;      ///< counts accepted bakes: the view empties its form when it changes
};

struct LotsModel {
    std::vector<LotRow> rows;          ///< those that are live, in the order of taking in, newest first
    std::optional<PastLotsModel> past; ///< those that are not, where they were asked for
    std::uint64_t made = 0;            ///< counts: the rows are new when it changes
    std::optional<LotSheet> opened;
    std::vector<std::pair<PlaceId, std::string>> places; ///< to move to
};

struct Station;

/// The rows and places; the opened lot stays as it is.
void make_lots(const Station& station, LotsModel& model);
/// Nothing where the book does not hold the lot.
std::optional<LotSheet> make_lot_sheet(const Station& station, LotId lot);

} // namespace mellowbin::app
