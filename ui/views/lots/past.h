#pragma once

#include "app/acts/intent.h"
#include "app/models/past.h"
#include "ui/widgets/table.h"

#include <optional>
#include <string>

namespace mellowbin::views {

/// The lots that were used up or rejected, a page at a time: the book sorts and looks through them, not the
/// screen.
struct PastLotsView {
    std::string filter; ///< as typed
    ui::TableState table;
    PastLotQuery asked; ///< last
    bool has_asked = false;
};

/// Asks for the page that is wanted; `first` stands before what is asked. True when a lot was chosen:
/// `table.selected` tells which.
bool draw(PastLotsView& view, const std::optional<app::PastLotsModel>& model, ui::Body first,
          bool is_beside_sheet, app::Intents& out);
/// Another list is looked at: the page is not made any more.
void leave(PastLotsView& view, app::Intents& out);

} // namespace mellowbin::views
