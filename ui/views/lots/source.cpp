#include "ui/views/lots/source.h"

#include "app/acts/certificates.h"
#include "ui/widgets/ui.h"

#include <string_view>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

constexpr std::string_view label = "File";

void form(SourceSaving& saving, const app::LotSheet& sheet, const app::Notice& notice, app::Intents& out) {
    ui::form("Saving the certificate", [&] {
        ui::flow([&] {
            ui::text_field({.label = label,
                            .hint = "a file or a folder; empty: beside the book",
                            .refusals = &saving.asked.refusals,
                            .width = 22_em},
                           saving.path);
            const std::string_view blocked = saving.asked.is_waiting() ? "is being saved" : "";
            if (ui::button("Save the file", {.kind = ui::ButtonKind::primary, .blocked = blocked})) {
                saving.asked.ask(notice);
                out.emplace_back(app::SaveCertificateSource{sheet.row.id, saving.path});
            }
            if (ui::button("Save none", {.kind = ui::ButtonKind::quiet}))
                saving = {};
        });
    });
}

} // namespace

void draw_source(SourceSaving& saving, const app::LotSheet& sheet, const app::Notice& notice,
                 app::Intents& out) {
    if (saving.asked.is_done(notice))
        saving = {};
    if (sheet.certificate_words.empty())
        return;
    ui::paragraph("Certificate as it came: " + sheet.certificate_words);
    if (saving.is_open) {
        form(saving, sheet, notice, out);
        return;
    }
    saving.is_open = ui::button("Save the file as", {.kind = ui::ButtonKind::quiet});
}

} // namespace mellowbin::views
