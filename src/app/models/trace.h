#pragma once

#include "core/dispatch.h"
#include "core/drill.h"
#include "core/listing.h"
#include "core/silo.h"
#include "db/trace_store.h"

#include <optional>
#include <string>
#include <vector>

/// From a lot to every batch, product and customer, and from these back to lots, mills and delivery notes:
/// asked by query, at the cost of what there is of it.
namespace mellowbin::app {

/// What a trace begins with.
struct TraceQuery {
    TraceOf asks{};
    LotId lot;
    ProductId product;
    RunId run;
    std::string customer; ///< code
    Day day;              ///< of the product's runs, or of the customer's dispatches
};

/// How much of a lot is in something. By the book it is what was logged; what may really be in it is told by
/// the silos it was drawn from and by rework.
struct TraceShare {
    LotId lot;
    Grams booked;
    double likely_g = 0; ///< to be expected, not whole grams
    Certainty certainty{};
    bool by_silo = false, by_rework = false; ///< what makes it doubtful, or brings it there at all
};

struct TraceBatch {
    TracedBatch batch;
    std::vector<TraceShare> shares; ///< forward: of the lot that is traced alone
};

struct TraceLot {
    TracedLot lot;
    TraceShare share; ///< in all that is traced; forward: in what lies there under this lot's name
    Grams in_stock;
    bool can_be_held = false; ///< some of it is in stock, and it is neither on hold nor rejected
};

struct TraceDispatch {
    Dispatch dispatch;
    std::string run_code, product;
    Certainty certainty{}; ///< contained only where every batch of the run contains it
};

/// received + counted - used - waste - to the mill - in stock = unexplained
struct MassBalance {
    LotId lot;
    std::string code;
    Grams received;
    Grams counted; ///< more than booked; below 0: less
    Grams used;    ///< in batches that stand, less what came back from runs
    Grams in_stock;
    Grams waste;
    Grams to_mill;
    Grams unexplained;              ///< left as used, and in no batch; below 0: in batches, and never left
    double unexplained_percent = 0; ///< of what was received
};

/// A line of the trace as it is read: on screen, in the command and in a drill's report.
struct TraceRow {
    enum class Kind { lot, batch, dispatch };
    Kind kind{};
    std::string what;             ///< "Batch 2 of run R-1125-1"
    std::string when;             ///< "2026-11-25 05:10"
    std::optional<double> kg;     ///< by the book
    std::optional<double> likely; ///< by silos and rework
    std::optional<Certainty> certainty;
    std::string where; ///< product, customer, or mill and delivery note
    std::string why;   ///< of a doubt: "a silo in which other lots lay"
    std::string who;
};

struct TraceModel {
    TraceQuery query;
    std::string title;                     ///< "Lot W24-118 of Upper mill, delivered 2026-11-20"
    std::vector<TraceLot> lots;            ///< forward: the lot, and those under whose name some of it lies
    std::vector<TraceBatch> batches;       ///< in the order they were logged
    std::vector<TraceDispatch> dispatches; ///< by day; those that stand
    std::vector<MassBalance> balances;     ///< of the traced lot, or of all lots found
    std::vector<TraceRow> rows;            ///< all of these, lots first
    std::vector<std::string> rules;        ///< by what it was traced, in words
    std::vector<std::string> law;          ///< what is asked of such a trace, as said
    [[nodiscard]] std::vector<LotId> to_hold() const;
};

struct Station;

TraceModel make_trace(const Station& station, const TraceQuery& query);
/// What is found, without words.
TraceModel find_trace(Connection& connection, const TraceQuery& query);

/// By movements and batches; nothing but the lot where it is not in the book.
MassBalance mass_balance(Connection& connection, const TracedLot& lot,
                         const std::vector<TracedBatch>& batches_with_it);

/// The trace as it goes out: lots, batches and dispatches as lines, the mass balance, the persons with the
/// first and last time they are named.
std::vector<Listing> listings_of(const TraceModel& trace);

} // namespace mellowbin::app
