#include "ui/views/mixer/scan.h"

#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/read_scan.h"
#include "app/models/card.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <string_view>
#include <utility>

namespace mellowbin::views {

using namespace ui;

namespace {

constexpr std::string_view label = "Scan a bag";

} // namespace

void BagScan::take_answer(const app::Notice& notice) {
    const bool was_asked = asked.is_waiting();
    if (asked.is_done(notice) && asked_of_text)
        text.clear();
    if (!was_asked || asked.is_waiting())
        return;
    wants_focus = true;
    if (!asked.refusals.empty())
        ++refused_times;
}

void BagScan::take(const std::string& bytes, RunId run, const app::Notice& notice, app::Intents& out) {
    asked.refusals.clear();
    asked.ask(notice);
    asked_of_text = false;
    out.emplace_back(app::ReadScan{bytes, app::ReadScan::At::mixer, run});
}

void draw(BagScan& scan, const app::CardModel& card, std::optional<Length> width, const app::Notice& notice,
          app::Intents& out) {
    auto edited = catch_typing(scan.text);
    // Another field after each refusal: given the focus anew, all of its text is typed over.
    const auto field = [&] {
        if (std::exchange(scan.wants_focus, false))
            focus(label);
        const auto typed = text_field({.label = label,
                                       .hint = "Scan a bag (F9)",
                                       .width = *width,
                                       .label_place = LabelPlace::hidden,
                                       .enter = Enter::entered},
                                      scan.text);
        edited.changed |= typed.changed;
        edited.entered |= typed.entered;
    };
    if (width)
        scope(scan.refused_times, field);
    if (edited.changed && !scan.asked.is_waiting()) {
        scan.asked.refusals.clear(); // what was said of the bag before says nothing of this one
        if (notice.kind == app::Notice::Kind::done || notice.kind == app::Notice::Kind::refused)
            out.emplace_back(app::PutAwayNotice{});
    }
    if (!edited.entered || scan.text.empty() || scan.asked.is_waiting())
        return;
    scan.take(scan.text, card.run, notice, out);
    scan.asked_of_text = true;
}

void draw_wrong_bag(const BagScan& scan) {
    if (scan.asked.refusals.empty())
        return;
    loud_panel(Role::stop, {}, [&] {
        for (const auto& refusal : scan.asked.refusals) {
            paragraph(fmt::format("{} {}: {}", sign(Role::stop), refusal.field, refusal.what),
                      {.size = TextSize::key_figure, .role = Role::stop});
            if (!refusal.remedy.empty())
                paragraph(refusal.remedy, {.size = TextSize::heading});
        }
    });
}

} // namespace mellowbin::views
