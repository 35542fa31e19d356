#pragma once

#include "app/models/lots.h"
#include "ui/widgets/table.h"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace mellowbin::views {

/// What the table of lots can show.
enum class LotColumn {
    code,
    mill,
    flour,
    state,
    stock,
    place,
    protein,
    absorption,
    falling_number,
    moisture,
    readiness,
    ready, ///< the day, after its readiness as a small box
    past_best_on,
};
/// How the table shows it.
const ui::Column& column_of(LotColumn column);
/// That of the state where a lot's concession stands in it.
const ui::Column& long_state_column();
/// In the order in which they stand; where the width does not do, some give way.
std::span<const LotColumn> all_lot_columns();

/// The lots that pass the filter, sorted, as indexes into the model's rows. Made anew only when the filter,
/// the order or the model changes.
class SortedLots {
public:
    struct Wanted {
        std::string
            filter; ///< words; each must be found in the lot's number, mill, flour, state, place or readiness
        int column = -1; ///< a LotColumn, or -1: as the model gives them
        ui::Direction direction = ui::Direction::up;
        std::uint64_t made = 0; ///< as the model counts it: it is new when that changes
        friend bool operator==(const Wanted&, const Wanted&) = default;
    };
    const std::vector<std::uint32_t>& rows(const std::vector<app::LotRow>& lots, const Wanted& wanted);

private:
    std::vector<std::uint32_t> rows_;
    Wanted made_for_;
    const app::LotRow* lots_ = nullptr;
    std::size_t count_ = 0;
    bool is_made_ = false;
};

} // namespace mellowbin::views
