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
    bool wants_focus = false; ///< for the table
};

/// Asks for the page that is wanted; `first` stands before what is asked. What was done to the table is told.
ui::TableEvents draw(PastLotsView& view, const std::optional<app::PastLotsModel>& model, ui::Body first,
                     app::Intents& out);
/// Another list is looked at: the page is not made any more.
void leave(PastLotsView& view, app::Intents& out);

} // namespace mellowbin::views
