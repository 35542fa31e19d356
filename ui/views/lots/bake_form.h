#pragma once

#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "ui/views/common/awaited.h"

#include <cstdint>
#include <map>
#include <optional>

namespace mellowbin::views {

/// A loaf of a lot's bake ladder, as typed. One draft for each lot, so that opening another one loses
/// nothing.
struct BakeForm {
    bool is_open = false;
    bool wants_focus = false;          ///< it was opened, or a loaf was logged, just now
    std::map<LotId, BakeDraft> drafts; ///< dose, size and note until they are logged; the rest stays
    std::optional<LotId> sent;         ///< whose draft is being answered
    LotId refused;                     ///< whose draft the refusals are about
    Refusals refusals;
    Awaited answer;
    std::optional<std::uint64_t> logged_seen; ///< the sheet's count, seen last
};

/// Closed: a button that opens it. Open: the fields, with refusals beside those they name.
void draw(BakeForm& form, const app::LotSheet& sheet, Day today, const app::Notice& notice,
          app::Intents& out);

} // namespace mellowbin::views
