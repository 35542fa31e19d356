#pragma once

#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "ui/views/common/form.h"

#include <cstdint>
#include <map>
#include <optional>

namespace mellowbin::views {

/// A loaf of a lot's test bake series, as typed. One draft for each lot, so that opening another one loses
/// nothing.
struct BakeForm : Form<LotId, BakeDraft> {
    bool is_open = false;
};

/// Closed: a button that opens it. Open: the fields, with refusals beside those they name.
void draw(BakeForm& form, const app::LotSheet& sheet, Day today, const app::Notice& notice,
          app::Intents& out);

} // namespace mellowbin::views
