#include "ui/views/opening.h"

#include "ui/widgets/ui.h"

#include <fmt/format.h>

namespace mellowbin::views {

void draw_opening(std::string_view what, double share) {
    ui::panel("Opening the book", [&] {
        ui::paragraph("The book was made by an older version, and is being brought to its present form.");
        ui::progress({.label = "Present form",
                      .words = fmt::format("{}, about {:.0f} %", what, 100 * share),
                      .done = share,
                      .stop_verb = {}});
        ui::hint("A copy of the book as it was is kept beside it. Do not switch the machine off.");
    });
}

} // namespace mellowbin::views
