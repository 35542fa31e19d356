#pragma once

#include "app/acts/notice.h"
#include "app/models/readiness.h"
#include "ui/views/common/form.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string_view>

namespace mellowbin::views {

/// The plant's own results for a lot, as typed: one draft for each lot, so that opening another one loses
/// nothing.
struct RetestForm : Form<LotId, RetestDraft> {
    bool is_open = false;
};

/// Whose retest.
struct RetestOf {
    LotId lot;
    std::string_view code;
    std::string_view changed =
        {}; ///< "04:12, Ines": the lot, by another station, and not looked at here since
};

/// Closed: a button that opens it. Open: the fields, with refusals beside those they name.
void draw(RetestForm& form, RetestOf whose, const app::ReadinessModel& model, const app::Notice& notice,
          app::Intents& out);

} // namespace mellowbin::views
