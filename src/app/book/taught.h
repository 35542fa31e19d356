#pragma once

#include "db/taught_store.h"
#include "dough/mixing_belief.h"
#include "dough/water_belief.h"

#include <map>
#include <span>
#include <vector>

namespace mellowbin::app {

/// What batches taught of water and mixing, one after another, up to one of them. A value.
class Taught {
public:
    Taught() = default;
    /// What was kept after that batch; the state is whole.
    Taught(BatchId through, const dough::TaughtState& state);
    [[nodiscard]] dough::TaughtState state() const;

    /// The next batch; what the plant said of products before it is heard first. `said` is in the order in
    /// which it was said. None of the lots by which it teaches water was let go.
    void take_in(const TaughtBatch& batch, std::span<const ExpectedOffset> said);
    /// What was said since the last batch holds for those to come.
    void hear(std::span<const ExpectedOffset> said);
    /// The last batch taken in; not known: none yet.
    [[nodiscard]] BatchId through() const { return through_; }
    /// The lots of each product's newest dough.
    [[nodiscard]] const std::map<ProductId, std::vector<LotId>>& newest() const { return newest_; }

    dough::WaterBelief water;
    dough::MixingBelief mixing;

private:
    void learn_water(const TaughtBatch& batch);
    void learn_mixing(const TaughtBatch& batch);

    BatchId through_;
    std::map<ProductId, std::vector<LotId>> newest_;
};

/// The batch says something of the water of its lots.
bool teaches_water(const TaughtBatch& batch);

} // namespace mellowbin::app
