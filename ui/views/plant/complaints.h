#pragma once

#include "app/acts/notice.h"
#include "app/models/mill_record.h"
#include "core/complaint.h"
#include "ui/views/common/form.h"
#include "ui/views/common/take_back.h"

#include <cstdint>
#include <optional>

namespace mellowbin::views {

/// What is held against a mill, as typed: a draft for each mill, and an answer for each complaint.
struct ComplaintForms {
    Form<MillId, ComplaintDraft> complaint;
    bool is_open = false; ///< the form of a new one
    Form<ComplaintId, ComplaintAnswerDraft> answer;
    std::optional<TakeBack> taking_back; ///< a complaint or an answer; open over the screen
};

/// The mill's complaints, each with what can be done with it, and the form of a new one. `accepted` counts
/// what was accepted.
void draw_complaints(ComplaintForms& forms, const app::MillRecordModel& record, std::uint64_t accepted,
                     Day today, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
