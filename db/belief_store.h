#pragma once

#include "core/id.h"
#include "db/connection.h"

#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace mellowbin {

/// What was believed after a batch, as text of the model's own form.
struct BeliefMark {
    BatchId last_batch;
    std::string state;
    friend bool operator==(const BeliefMark&, const BeliefMark&) = default;
};

/// What was known of a lot by itself when it was let go: points, and points squared.
struct LetGoLot {
    LotId lot;
    BatchId after; ///< the last batch that was taken in then
    double mean = 0;
    double variance = 0;
    friend bool operator==(const LetGoLot&, const LetGoLot&) = default;
};

/// What batches taught, kept: marks on the way and the lots let go. Derived from the batches, and so written
/// without a journal line; beliefs of another form of the models stand beside these and are not seen.
class BeliefStore {
public:
    BeliefStore(Connection& connection, std::string form) : connection_(connection), form_(std::move(form)) {}

    /// The mark after the highest batch; `before`: of those below this one.
    [[nodiscard]] std::optional<BeliefMark> newest(std::optional<BatchId> before = {}) const;
    [[nodiscard]] std::vector<BatchId> marks() const; ///< in the order of their batches
    /// A lot that was let go by then.
    [[nodiscard]] std::optional<LetGoLot> let_go(LotId lot, BatchId by) const;
    /// The lots let go after that batch, up to this one and it included, in this order.
    [[nodiscard]] std::vector<LetGoLot> let_go_between(BatchId after, BatchId up_to) const;

    /// Keeps the mark and the lots that were let go since the last one; what is kept of them stays. Of older
    /// marks the newest eight stay, and one every 8,000 batches.
    void keep(Transaction& transaction, const BeliefMark& mark, std::span<const LetGoLot> lots);
    /// Marks and lots after that batch.
    void forget_after(Transaction& transaction, BatchId batch);
    /// Those of other forms, too.
    static void forget_all(Transaction& transaction);
    /// Marks and lots of every form that rest on this batch, of which something else is said now; within the
    /// change's transaction.
    static void forget_from(Connection& connection, BatchId batch);

private:
    void thin_out(Connection& connection);
    Connection& connection_;
    std::string form_;
};

} // namespace mellowbin
