#pragma once

#include "core/lot.h"
#include "ui/views/intake/delivery.h"
#include "ui/views/intake/lot_form.h"

#include <cstddef>
#include <string>

namespace mellowbin::views {

/// What became of the pallet of a label.
struct ScannedPallet {
    bool is_double = false; ///< it stands in the delivery already: nothing was changed
    std::string words;      ///< "; pallet 3 of the lot, 500 kg added: 1 500 kg"; empty: the label has none
};
/// Puts a label's pallet to its lot, which Delivery::scanned() has taken up or begun before; a label without
/// a lot number is of the lot at hand. The lot's weight grows by what the label says as long as it is the
/// pallets' weight.
ScannedPallet take_pallet(Delivery& delivery, const LotDraft& label);
/// The lot that the label's pallet stands with; 0: none.
std::int64_t line_with_pallet(const Delivery& delivery, const LotDraft& label);
/// What the expected delivery filled and the label says, too, gives way to the label.
void make_room(Delivery& delivery, const LotDraft& label);

std::size_t pallets_of(const Delivery& delivery);

/// "3 pallets", or what adds the first one.
std::string pallets_words(const LotDraft& draft);
/// A row each, with its SSCC, weight, and a way off the list.
void pallet_rows(LotForm& form, LotFolds& folds);

} // namespace mellowbin::views
