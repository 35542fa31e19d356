#pragma once

#include "app/acts/notice.h"
#include "app/models/intake.h"
#include "app/models/overview.h"
#include "ui/views/common/form.h"
#include "ui/views/intake/delivery.h"
#include "ui/views/intake/door.h"
#include "ui/views/intake/file_choice.h"
#include "ui/views/intake/lot_form.h"
#include "ui/views/intake/own_test.h"
#include "ui/widgets/table.h"

#include <cstdint>
#include <deque>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::views {

/// The dock's screen: left the delivery as it fills, right the form for the lot at hand.
struct IntakeView {
    Delivery delivery;
    std::string scanned, scan_words; ///< as typed; what came of the last one
    DoorForm door;
    LotFolds folds;
    OwnTestAsked own_test;
    FileChoice files;
    std::deque<std::string> dropped; ///< files dropped on the window, to be read one after another
    bool shows_head = true;          ///< mill, note and day as fields
    bool asks_to_drop = false;
    bool wants_focus = true;    ///< the first empty field gets the focus in the next frame
    bool wants_refused = false; ///< or the first refused, once the lots were read
    std::string focus_field;    ///< which that is
    ui::TableState list;
    std::optional<Day> day; ///< that "Delivered on" was last set to by itself

    std::vector<std::int64_t> sent; ///< lines of the TakeIn that is being answered
    Asked take_in, file, label;
    Refusals refusals; ///< of the delivery as a whole
    std::uint64_t reading_seen = 0, taken_in_seen = 0, label_seen = 0, lists_seen = 0;

    /// Reads the files one after another, as if each was picked.
    void drop(const std::string& path) { dropped.push_back(path); }
};

void draw(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out);

} // namespace mellowbin::views
