#pragma once

#include "app/acts/notice.h"
#include "app/models/plant.h"
#include "ui/views/common/form.h"
#include "ui/views/plant/complaints.h"
#include "ui/widgets/table.h"

#include <string>

namespace mellowbin::views {

/// The record of a mill: how its flour and its deliveries were. Only the mill that is looked at has one made.
struct MillRecordView {
    struct Wanted {
        MillId mill;
        std::string from, to;
        int page = 0;
        friend bool operator==(const Wanted&, const Wanted&) = default;
    };
    std::string from, to; ///< as typed
    Wanted asked;         ///< last
    bool has_asked = false;
    Asked span; ///< what was said of the days
    ui::TableState lots;
    ComplaintForms complaints;
};

void draw_mill_record(MillRecordView& view, MillId mill, const app::PlantModel& model,
                      const app::Notice& notice, Day today, app::Intents& out);
/// Something else is looked at: the record is not made any more.
void leave(MillRecordView& view, app::Intents& out);

} // namespace mellowbin::views
