#pragma once

#include "app/acts/notice.h"
#include "core/dispatch.h"
#include "core/id.h"
#include "ui/views/common/form.h"

#include <optional>
#include <string>
#include <variant>

namespace mellowbin::views {

/// The answer to the complaint of this number.
using AnsweredId = Id<struct AnsweredComplaint>;

/// What is asked before a retest, a logger's file, a loaf, a record of keeping, a complaint to a mill, its
/// answer or a dispatch is taken back by a second line. Stays open, with the reason as typed, until it is
/// done or given up.
struct TakeBack {
    std::variant<RetestId, ClimateLogId, BakeId, KeepingId, ComplaintId, AnsweredId, DispatchId> what;
    std::string words; ///< what it is, as the screen said it

    std::string reason; ///< as typed
    Asked asked;
};

void draw(std::optional<TakeBack>& question, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
