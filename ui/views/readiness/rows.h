#pragma once

#include "app/models/readiness.h"
#include "ui/widgets/table.h"

#include <cstdint>
#include <string>
#include <vector>

/// Which lots Readiness shows, and in which order.
namespace mellowbin::views {

enum class LotOrder { by_flour, ready_first, youngest };

/// The columns of the table, which can each set the order.
enum ReadinessColumn {
    of_lot,
    of_advice,
    of_flour,
    of_stock,
    of_state,
    of_probability,
    of_ready,
    of_end,
    of_results,
    of_measured
};

/// What a person asked to see.
struct RowWish {
    std::string
        filter; ///< as typed: every word must stand in the lot's number, its flour, its state or its advice
    LotOrder order = LotOrder::by_flour;
    ui::Sort sort; ///< of the table: goes before the order
};

/// The rows of the model that pass the filter, in order. They are chosen anew only when the wish or the lots
/// changed: to see that takes microseconds for thousands of lots, to sort them a millisecond.
class ShownRows {
public:
    const std::vector<std::uint32_t>& of(const app::ReadinessModel& model, const RowWish& wish);
    /// Alike as long as the rows are.
    [[nodiscard]] std::uint64_t mark() const { return mark_; }

private:
    std::vector<std::uint32_t> rows_;
    std::uint64_t mark_ = 0; ///< of what rows_ was made from
};

} // namespace mellowbin::views
