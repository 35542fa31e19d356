#pragma once

#include "app/acts/notice.h"
#include "app/models/intake.h"
#include "app/models/overview.h"
#include "ui/views/common/form.h"
#include "ui/views/intake/certificate_reading.h"
#include "ui/views/intake/delivery.h"
#include "ui/views/intake/delivery_form.h"
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
    DeliveryForm form;               ///< what is said of the delivery as a whole
    DoorForm door;
    LotFolds folds;
    OwnTestAsked own_test;
    FileChoice files;
    CertificateForm certificate;     ///< pasted, or read and looked at before it is kept
    std::deque<std::string> dropped; ///< files dropped on the window, to be read one after another
    bool shows_head = true;          ///< mill, note and day as fields
    bool asks_to_drop = false;
    bool wants_focus = true;    ///< the first empty field gets the focus in the next frame
    bool wants_refused = false; ///< or the first refused, once the lots were read
    std::string focus_field;    ///< which that is
    ui::TableState list;
    std::optional<Day> day; ///< that "Delivered on" was last set to by itself

    std::vector<std::int64_t> sent; ///< lines of the TakeIn that is being answered
    Asked take_in, file, label, putting_aside;
    Refusals refusals; ///< of the delivery as a whole
    std::uint64_t reading_seen = 0, taken_in_seen = 0, label_seen = 0, lists_seen = 0;
    std::uint64_t plain_seen = 0, plain_left = 0; ///< of scans that are no label: asked about, let be
    std::uint64_t put_aside_seen = 0, taken_over_seen = 0;
    bool shows_all_begun = false; ///< of deliveries that others put aside

    /// Reads the files one after another, as if each was picked.
    void drop(const std::string& path) { dropped.push_back(path); }
};

void draw(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out);
/// A scanner sent it, wherever the cursor stands: what it says fills the lot at hand, and takes nothing in.
void take_scan(IntakeView& view, const std::string& bytes, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
