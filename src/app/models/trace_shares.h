#pragma once

#include "app/models/trace.h"
#include "app/models/trace_course.h"

#include <map>
#include <span>
#include <vector>

namespace mellowbin::app {

/// Adds what is known of a lot in one thing to what is known of it in the others: grams add up, and it is
/// contained where one of them contains it.
void add_share(std::vector<TraceShare>& shares, const TraceShare& more);
const TraceShare* share_of(std::span<const TraceShare> shares, LotId lot);

/// Which lots are in batches: by the book, by silos and by rework. Batches are asked for in the order of
/// their numbers, the sources of rework first.
class TraceShares {
public:
    /// `traced`: the lots the trace begins with, or all that the batches name.
    TraceShares(Connection& connection, const std::vector<LotId>& traced);

    [[nodiscard]] const TraceCourse& course() const { return course_; }
    /// Batches that hold some of the lot by a silo, though it was drawn under another lot's name.
    [[nodiscard]] std::vector<BatchId> reached_by_silo(LotId lot);
    /// Works out the shares of the batch, with those of the rework that went into it.
    void work_out(const TracedBatch& batch, std::span<const Rework> into);
    [[nodiscard]] const std::vector<TraceShare>& of(BatchId batch) const;

private:
    void read_uses(LotId lot);
    void add_drawn(const TracedBatch& batch, const BatchFlour& part, std::vector<TraceShare>& shares);
    void add_rework(const Rework& rework, std::vector<TraceShare>& shares) const;

    Connection& connection_;
    TraceCourse course_;
    std::map<LotId, std::map<BatchId, std::vector<MovementId>>> uses_; ///< of lots that were followed
    std::map<BatchId, std::vector<TraceShare>> shares_;
};

} // namespace mellowbin::app
