#pragma once

#include "app/book/certificate_at_hand.h"
#include "app/models/found.h"
#include "app/models/mill_record.h"
#include "app/models/own_tests.h"
#include "app/models/trace.h"
#include "app/plan/what_if.h"
#include "app/plan/work.h"
#include "core/day.h"
#include "core/id.h"
#include "db/past_store.h"

#include <optional>
#include <vector>

namespace mellowbin::app {

/// What lay where is looked at; nothing: now.
struct StockQuery {
    std::optional<Instant> at;
};

/// What the person at this station looks at and tries; nothing of it is in the book.
struct LookedAt {
    LotId opened_lot;
    RunId opened_run;
    Found found;              ///< by the last search, where one of several is to be chosen
    std::optional<Day> as_of; ///< readiness as of this day
    Day plan_from;
    int plan_days = 7;
    std::optional<RunId> levers_of;             ///< the run whose levers are shown
    std::optional<RunId> cures_of;              ///< the run whose sheet is open on Plan
    std::optional<PastLotQuery> past_lots;      ///< none: the lots of the past are not shown
    std::optional<MillRecordQuery> mill_record; ///< none: no mill's record is shown
    std::optional<LotToCome> lot_to_come;       ///< the lot on Intake that was asked about last
    std::optional<TraceQuery> traced;           ///< none: no trace is shown
    std::optional<StockQuery> stock;            ///< none: it is not shown
    Grams silo_draw{1'000'000};                 ///< of which it is told what it would hold
    DrillId drill;                              ///< that was begun here and has not ended
    std::int64_t journal_before = 0;            ///< the page of lines before that one; 0: the newest
    PlanWork plan_work;
    CertificateAtHand certificate;         ///< read, and not kept yet
    std::vector<Supposition> suppositions; ///< in the order they were made
};

} // namespace mellowbin::app
