#pragma once

#include "app/models/paper_head.h"
#include "core/listing.h"
#include "core/lot.h"
#include "print/label_data.h"
#include "print/sheet.h"

#include <string>
#include <vector>

/// Papers of the book but the plan's: what they say, before it is laid out.
namespace mellowbin::app {

struct CardModel;
struct DeliveryRow;
struct LadderModel;

/// The mixer's card: the verdict first, then what is weighed in its order, with room for a mark; aims,
/// figures, cautions. In the units of the house. Not of a card that is refused.
print::Sheet card_sheet(const CardModel& card, const PaperHead& head);

/// A delivery as it came, with what was found at the door of each of its lots, and lines to sign on.
print::Sheet delivery_sheet(const DeliveryRow& delivery, const std::vector<Lot>& lots, const PaperHead& head);

/// What is to be baked of a lot to see what it can take: what is known of it, what its loaves said so far,
/// and empty rows for the next ones.
struct TestBakes {
    std::string lot, mill, flour;
    std::string milled_on; ///< empty: not known
    std::vector<LadderModel> ladders;
};
print::Sheet test_bake_sheet(const TestBakes& bakes, const PaperHead& head);

/// What the book says lies where, a line a place and lot: to be counted against.
Listing stock_to_count(const Station& station);

/// The lot as a label tells it, without a pallet.
print::LabelledFlour labelled(const Station& station, const Lot& lot);

} // namespace mellowbin::app
