#pragma once

#include "core/batch.h"
#include "core/lot.h"
#include "core/rework.h"
#include "core/stock.h"
#include "db/connection.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace mellowbin {

/// A batch that stands, by what a trace tells of it.
struct TracedBatch {
    BatchId id;
    RunId run;
    std::string run_code;
    ProductId product;
    std::string product_name;
    Day day; ///< of the run
    int number = 1;
    Instant at;
    std::string who;
    std::vector<BatchFlour> flour; ///< as it was logged
};

/// A lot by where it came from.
struct TracedLot {
    LotId id;
    std::string code, mill, flour;
    Day delivered_on;
    std::string delivery_note;
    std::string order; ///< it was ordered under; empty: none was said
    LotState state{};
    std::string taken_in_by; ///< of the delivery it came with; empty: not known
};

/// While a lot lay in a silo: from the movement that first brought some up to the last that it had at all.
struct SiloSpan {
    PlaceId silo;
    LotId lot;
    std::int64_t first = 0;
    std::int64_t last = 0; ///< greater than any, while some lies there
};

/// What a trace asks of the book. Every question goes by an index, and costs what there is of the lot, the
/// run or the silo's arrivals.
class TraceStore {
public:
    explicit TraceStore(Connection& connection) : connection_(connection) {}

    /// Batches that stand into which the lot went by the book, in the order they were logged.
    [[nodiscard]] std::vector<TracedBatch> batches_with(LotId lot) const;
    [[nodiscard]] std::vector<TracedBatch> batches_of(RunId run) const;
    [[nodiscard]] std::optional<TracedBatch> batch(BatchId id) const;
    /// By which movement flour of the lot went into which batch.
    [[nodiscard]] std::vector<std::pair<MovementId, BatchId>> uses_of(LotId lot) const;
    /// Rework that stands, of batches that do, into which the lot went by the book; and of one batch, both
    /// ways.
    [[nodiscard]] std::vector<Rework> rework_of_batches_with(LotId lot) const;
    [[nodiscard]] std::vector<Rework> rework_of(BatchId batch) const;
    [[nodiscard]] std::vector<Rework> rework_into(BatchId batch) const;
    [[nodiscard]] std::vector<RunId> runs_of(ProductId product, Day day) const;

    [[nodiscard]] std::optional<TracedLot> lot(LotId id) const;
    /// The lot ever came into a silo.
    [[nodiscard]] bool was_in_a_silo(LotId lot) const;
    /// Of all lots that ever were in the silo.
    [[nodiscard]] std::vector<SiloSpan> spans_of(PlaceId silo) const;
    /// The names of all places.
    [[nodiscard]] std::vector<std::pair<PlaceId, std::string>> places() const;

private:
    Connection& connection_;
};

} // namespace mellowbin
