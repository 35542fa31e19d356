#include "app/acts/print_papers.h"
#include "app/acts/trace.h"
#include "core/typed_text.h"
#include "ui/views/common/words.h"
#include "ui/views/trace/parts.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

namespace mellowbin::views {
namespace {

std::string words_of(const Drill& drill) {
    const auto what = fmt::format("{} {}{}", key_of(drill.asks), drill.of,
                                  drill.day ? ", " + iso(*drill.day) : std::string());
    if (!drill.end)
        return fmt::format("Drill {}, {}: begun {} by {}, it runs", drill.id.number(), what, iso(drill.at),
                           drill.who);
    return fmt::format("Drill {}, {}: {} s, by {} and {}{}", drill.id.number(), what, drill.end->seconds,
                       drill.who, drill.end->who, drill.end->note.empty() ? "" : ", " + drill.end->note);
}

} // namespace

void draw_drills(TraceView& view, const app::TracePage& page, const app::Notice&, app::Intents& out) {
    ui::part("Drills");
    ui::hint("A drill times how long it takes until a trace is complete, and keeps its report.");
    ui::flow([&] {
        const std::string_view none = trimmed(view.of).empty() ? "enter what is to be traced" : "";
        if (!page.running.is_known() && ui::button("Begin a drill", {.blocked = none}))
            out.emplace_back(app::BeginDrill{{static_cast<TraceOf>(view.asks), view.of, view.day}});
        if (page.running.is_known() && ui::button("The trace is complete"))
            out.emplace_back(app::EndDrill{page.running, ""});
    });
    for (const auto& drill : page.drills)
        ui::scope(drill.id.number(), [&] {
            if (!drill.end) {
                ui::status(ui::Role::mind, words_of(drill));
                return;
            }
            ui::paragraph(words_of(drill));
            if (ui::button("Print report", {.kind = ui::ButtonKind::quiet}))
                out.emplace_back(app::PrintDrill{drill.id});
        });
}

} // namespace mellowbin::views
