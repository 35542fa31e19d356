#pragma once

#include "app/acts/notice.h"
#include "app/models/card.h"
#include "ui/views/common/form.h"
#include "ui/widgets/theme.h"

#include <optional>
#include <string>

namespace mellowbin::views {

/// The field for the bags' lots, always ready for a scan: a refused scan stays to be read and is typed over
/// by the next one.
struct BagScan {
    std::string text; ///< as scanned
    Asked asked;
    int refused_times = 0;
    bool wants_focus = true;
    bool asked_of_text = false; ///< of what stands in the field

    void take_answer(const app::Notice& notice);
    /// A scanner sent it: what stands in the field stays.
    void take(const std::string& bytes, RunId run, const app::Notice& notice, app::Intents& out);
};

/// The label stands in the field while it is empty. Enter asks for the bag of this card's batch. Without a
/// width there is no field; what a scanner types is read all the same.
void draw(BagScan& scan, const app::CardModel& card, std::optional<ui::Length> width,
          const app::Notice& notice, app::Intents& out);
/// A wrong bag, as loud as it gets; nothing where the last one was right.
void draw_wrong_bag(const BagScan& scan);

} // namespace mellowbin::views
