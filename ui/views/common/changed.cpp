#include "ui/views/common/changed.h"

#include "ui/widgets/ui.h"

#include <fmt/format.h>

namespace mellowbin::views {

void changed_meanwhile(std::string_view who) {
    if (!who.empty())
        ui::status(ui::Role::mind,
                   fmt::format("Changed at another station meanwhile: {}. What you typed stays.", who));
}

void stands_otherwise(std::string_view now, std::string_view who) {
    ui::status(ui::Role::mind, fmt::format("Changed since this was begun{}: {}. What you typed stays.",
                                           who.empty() ? "" : fmt::format(" ({})", who), now));
}

} // namespace mellowbin::views
