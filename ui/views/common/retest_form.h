#pragma once

#include "app/acts/notice.h"
#include "app/models/readiness.h"
#include "ui/views/common/awaited.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string_view>

namespace mellowbin::views {

/// The plant's own results for a lot, as typed: one draft for each lot, so that opening another one loses
/// nothing.
struct RetestForm {
    bool is_open = false;
    bool wants_focus = false;            ///< it was opened just now
    std::map<LotId, RetestDraft> drafts; ///< until they are logged
    std::optional<LotId> sent;           ///< whose draft is being answered
    LotId refused;                       ///< whose draft the refusals are about
    Refusals refusals;
    Awaited answer;
    std::optional<std::uint64_t> logged_seen; ///< the model's count, seen last
};

/// Whose retest.
struct RetestOf {
    LotId lot;
    std::string_view code;
};

/// Closed: a button that opens it. Open: the fields, with refusals beside those they name.
void draw(RetestForm& form, RetestOf whose, const app::ReadinessModel& model, const app::Notice& notice,
          app::Intents& out);

} // namespace mellowbin::views
