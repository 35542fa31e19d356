#pragma once

#include "app/acts/intent.h"
#include "app/models/intake.h"
#include "ui/widgets/table.h"

#include <optional>
#include <string>

namespace mellowbin::views {

/// A certificate file picked from the folders of this machine, in the window itself.
struct FileChoice {
    bool is_open = false;
    ui::TableState list;
    std::string seen;    ///< the folder whose list is shown
    int wants_focus = 0; ///< frames in which the list asks for it

    /// Over the screen, in the folder looked into last.
    void open(app::Intents& out);
};

/// Draws it while it is open; the path of the file chosen, once.
std::optional<std::string> draw(FileChoice& choice, const app::FolderList& folder, app::Intents& out);

} // namespace mellowbin::views
