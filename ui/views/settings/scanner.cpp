#include "ui/views/settings/scanner.h"

#include "app/acts/scanner.h"
#include "app/acts/settings.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

void symbol_panel(ScannerPage& page) {
    const auto& symbols = exchange::test_symbols();
    std::vector<std::string_view> names;
    for (const auto& one : symbols)
        names.push_back(exchange::name_of(one.kind));
    ui::panel("Scan this once", [&] {
        page.symbol = std::clamp(page.symbol, 0, static_cast<int>(names.size()) - 1);
        ui::pages({.label = "Symbol", .label_place = ui::LabelPlace::hidden}, names, page.symbol);
        const auto& chosen = symbols[static_cast<std::size_t>(page.symbol)];
        ui::modules({.label = "Test symbol",
                     .columns = chosen.symbol.columns,
                     .rows = chosen.symbol.rows,
                     .quiet = chosen.symbol.quiet,
                     .dark = &chosen.symbol.dark});
        ui::hint(chosen.words);
        ui::hint("One scan from the screen says how the scanner is set. Nothing is kept of it.");
    });
}

Role role_of(exchange::Standing standing) {
    switch (standing) {
    case exchange::Standing::well:
        return Role::good;
    case exchange::Standing::mind:
        return Role::mind;
    case exchange::Standing::wrong:
        break;
    }
    return Role::stop;
}

/// The one thing that is mended here, and not at the scanner.
void separator_button(const app::ScannerModel& model, app::Intents& out) {
    const auto& separator = model.heard.separator;
    if (!separator || *separator == model.separator)
        return;
    const auto words = separator->empty() ? std::string("Set the separator itself")
                                          : fmt::format("Set {} as the separator", *separator);
    if (ui::button(words, {.kind = ui::ButtonKind::primary}))
        out.emplace_back(app::ChangeSetting{"scanner_separator", *separator});
}

/// What the scan showed.
void verdict_panel(const app::ScannerModel& model, app::Intents& out) {
    const auto& lines = model.heard.lines;
    ui::panel("How it arrived", [&] {
        if (lines.empty())
            ui::hint("Nothing was scanned yet.");
        for (const auto& line : lines) {
            ui::status(role_of(line.standing), fmt::format("{}: {}", line.what, line.words));
            if (&line == &lines.front())
                separator_button(model, out);
        }
    });
}

bool port_panel(const app::ScannerModel& model) {
    bool leads_on = false;
    ui::panel("Through a port", [&] {
        if (model.port.path.empty())
            ui::hint(
                "Exact whatever the keyboard is: set the scanner to a serial port over USB (CDC), and enter "
                "its path as Scanner's port. No port is set.");
        else if (model.heard.port_words.empty())
            ui::status(Role::mind, fmt::format("{} is set, and nobody listens there", model.port.path));
        else
            ui::status(model.heard.port_is_well ? Role::good : Role::stop, model.heard.port_words);
        leads_on = ui::button("Set the port");
    });
    return leads_on;
}

/// Its keys come as a person's would, so that nothing else could tell what is wrong.
void read_slow_keys(ScannerPage& page, app::Intents& out) {
    if (!ui::catch_typing(page.typed).entered || page.typed.empty())
        return;
    using Scanned = app::Scanned;
    out.emplace_back(app::JudgeTestScan{
        {std::exchange(page.typed, {}), Scanned::Way::slow_keys, Scanned::End::enter, {}}});
}

} // namespace

bool draw(ScannerPage& page, const app::ScannerModel& model, app::Intents& out) {
    read_slow_keys(page, out);
    bool leads_on = false;
    const auto symbol = [&] {
        symbol_panel(page);
        leads_on = port_panel(model);
    };
    const auto verdict = [&] { verdict_panel(model, out); };
    // The bars are two pixels a module at 1280 x 720.
    ui::panes({{"Symbol side", 0.3F, 43_em, symbol}, {"Verdict side", 0.7F, 22_em, verdict}});
    return leads_on;
}

} // namespace mellowbin::views
