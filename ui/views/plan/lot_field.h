#pragma once

#include "app/models/lots.h"
#include "ui/widgets/field.h"

#include <string>

namespace mellowbin::views {

/// The lot in stock of this number, whatever the case of its letters; null where there is none.
const app::LotRow* lot_in_stock(const app::LotsModel& lots, std::string_view code);
/// A lot by its number, typed or scanned; under it stands which flour that is, or that there is none.
void lot_field(ui::Field field, const app::LotsModel& lots, std::string& code);
/// The refusal of a number that no lot in stock has.
Refusal no_such_lot(std::string_view field, std::string_view code);

} // namespace mellowbin::views
