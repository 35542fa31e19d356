#include "ui/views/intake/view.h"

#include "app/acts/intake.h"
#include "app/acts/notice.h"
#include "app/models/intake.h"
#include "app/models/overview.h"
#include "ui/views/common/words.h"
#include "ui/views/intake/lot_form.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

// What came from outside since the last frame.

void take_over_file(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice) {
    view.file.take_answer(notice);
    if (model.reading == view.reading_seen)
        return;
    view.reading_seen = model.reading;
    view.delivery.join(model.read_drafts);
    view.list.show_selected = true;
    view.wants_focus = true;
}

void take_over_answer(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice) {
    const auto answer = view.take_in.take_answer(notice);
    if (answer == app::Notice::Kind::refused) {
        view.refusals = view.delivery.put_at_lots(view.door.take_refusals(view.take_in.refusals), view.sent);
        const auto& at_hand = view.delivery.at_hand();
        if (!at_hand.refusals.empty())
            view.focus_field = at_hand.refusals.front().field;
        view.list.show_selected = true;
    }
    if (model.taken_in == view.taken_in_seen)
        return;
    view.taken_in_seen = model.taken_in;
    view.delivery.empty();
    view.refusals.clear();
    view.door.empty();
    view.certificate_file.clear();
    view.wants_focus = true;
}

/// A delivery is of today, until someone types another day; a window that stays open over midnight does not
/// keep yesterday.
void begin_day(IntakeView& view, Day today) {
    if (view.day == today)
        return;
    auto& draft = view.delivery.at_hand().draft;
    const bool is_ours = draft.delivered_on.empty() || (view.day && draft.delivered_on == iso(*view.day));
    if (is_untouched(draft) && is_ours)
        draft.delivered_on = iso(today);
    view.day = today;
}

// The left side: the delivery.

void scan_field(IntakeView& view) {
    const auto edited = ui::text_field({.label = "Scan or lot number",
                                        .hint = "then Enter; F9 comes back here",
                                        .enter = ui::Enter::entered},
                                       view.scanned);
    if (!edited.entered || view.scanned.empty())
        return;
    view.delivery.scanned(view.scanned);
    view.scanned.clear();
    view.list.show_selected = true;
    view.wants_focus = true;
}

void write_line(const DeliveryLine& line, ui::RowWriter& row) {
    const auto& draft = line.draft;
    row.cell(draft.code.empty() ? "no number yet" : draft.code, draft.code.empty() ? Role::quiet : Role::ink);
    row.cell(draft.flour.empty() ? "–" : draft.flour);
    row.cell(draft.mass_kg.empty() ? "–" : draft.mass_kg);
    if (!line.refusals.empty())
        row.cell(fmt::format("{} to mend", line.refusals.size()), Role::stop);
    else if (is_untouched(draft))
        row.cell("empty", Role::quiet);
    else
        row.cell("filled in", Role::ink);
}

void delivery_list(IntakeView& view) {
    static constexpr ui::Column columns[] = {
        {.head = "Lot", .sample = "W24-118", .stretch = 1, .sortable = false},
        {.head = "Flour", .sample = "Strong", .stretch = 1, .sortable = false},
        {.head = "kg", .sample = "12500", .align = ui::Align::right, .sortable = false},
        {.head = "State", .sample = "12 to mend", .sortable = false},
    };
    const auto& lines = view.delivery.lines();
    const auto record = [&](std::size_t i) { return lines[i].number; };
    const auto write = [&](std::size_t i, ui::RowWriter& row) { write_line(lines[i], row); };
    constexpr float most_lines_shown = 5;
    const float rows = std::clamp(static_cast<float>(lines.size()), 2.0F, most_lines_shown);
    view.list.selected = view.delivery.at_hand().number;
    const auto events = ui::table({.name = "Delivery",
                                   .columns = columns,
                                   .rows = lines.size(),
                                   .record = record,
                                   .write_row = write,
                                   .density = ui::Density::close,
                                   .height = ui::Length{2.2F + 2.1F * rows}},
                                  view.list);
    if (events.selected && view.list.selected)
        view.delivery.take_up(*view.list.selected);
    if (events.opened)
        view.wants_focus = true;
}

void take_in_button(IntakeView& view, const app::Notice& notice, app::Intents& out) {
    const auto filled = view.delivery.filled();
    const auto label =
        fmt::format("Take in {}", counted(std::max<std::size_t>(filled.size(), 1), "lot", "lots"));
    const std::string_view blocked = filled.empty() ? "Scan or type a lot number first" : "";
    if (!ui::button(label, {.kind = ui::ButtonKind::primary, .blocked = blocked}))
        return;
    view.sent = filled;
    view.take_in.ask(notice);
    out.emplace_back(app::TakeIn{view.delivery.drafts_of(filled), view.door.checks});
}

void list_buttons(IntakeView& view) {
    ui::flow([&] {
        if (ui::button("Next lot")) {
            view.delivery.next();
            view.list.show_selected = true;
            view.wants_focus = true;
        }
        if (ui::button("Take off the list", {.kind = ui::ButtonKind::quiet})) {
            view.asks_to_drop = !is_untouched(view.delivery.at_hand().draft);
            if (!view.asks_to_drop)
                view.delivery.drop_at_hand();
        }
    });
}

void certificate_file(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice,
                      app::Intents& out) {
    ui::panel("From the mill's file", [&] {
        const auto edited = ui::text_field({.label = "Certificate file",
                                            .hint = "certificates.csv",
                                            .refusals = &view.file.refusals,
                                            .enter = ui::Enter::entered},
                                           view.certificate_file);
        const std::string_view blocked = view.certificate_file.empty() ? "Name the file first" : "";
        if (ui::button("Read file", {.blocked = blocked}) || (edited.entered && blocked.empty())) {
            LotDraft defaults;
            const auto& at_hand = view.delivery.at_hand().draft;
            defaults.mill = at_hand.mill;
            defaults.flour = at_hand.flour;
            defaults.place = at_hand.place;
            defaults.delivered_on = at_hand.delivered_on;
            view.file.ask(notice);
            out.emplace_back(app::ReadCertificateFile{view.certificate_file, defaults});
        }
        ui::all_refusals(all_but(view.file.refusals, {"Certificate file"}));
        for (const auto& words : model.file_notes)
            ui::status(Role::mind, words);
    });
}

void delivery_side(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice,
                   app::Intents& out) {
    ui::panel("Delivery", [&] {
        if (ui::key_pressed(ui::Key::f9))
            ui::focus("Scan or lot number");
        scan_field(view);
        delivery_list(view);
        list_buttons(view);
        take_in_button(view, notice, out);
        ui::all_refusals(view.refusals);
    });
    draw(view.door);
    certificate_file(view, model, notice, out);
}

// The right side: the lot at hand.

void lot_side(IntakeView& view, const app::IntakeModel& model, const app::Overview& overview) {
    auto& line = view.delivery.at_hand();
    if (view.wants_focus)
        ui::focus_first_empty_field();
    view.wants_focus = false;
    ui::panel("Lot at hand", [&] {
        ui::scope(line.number, [&] {
            if (!view.focus_field.empty())
                ui::focus(std::exchange(view.focus_field, {}));
            lot_form(line.draft, line.refusals, model, overview.today,
                     view.shows_all_figures ? Figures::all : Figures::asked_first);
            if (ui::button(view.shows_all_figures ? "Show fewer figures" : "Show all figures",
                           {.kind = ui::ButtonKind::quiet}))
                view.shows_all_figures = !view.shows_all_figures;
        });
    });
}

void ask_to_drop(IntakeView& view) {
    const auto& code = view.delivery.at_hand().draft.code;
    const auto title = code.empty() ? std::string("Take this lot off the delivery?")
                                    : fmt::format("Take lot {} off the delivery?", code);
    const auto answer = ui::ask(
        {.title = title, .harmless = "Keep it", .deed = "Take it off", .deed_kind = ui::ButtonKind::stop},
        [] { ui::paragraph("What was typed of it is lost. The book is not touched."); });
    if (answer == ui::Answer::deed)
        view.delivery.drop_at_hand();
    if (answer != ui::Answer::none_yet)
        view.asks_to_drop = false;
}

} // namespace

void draw(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out) {
    take_over_file(view, model, notice);
    take_over_answer(view, model, notice);
    view.door.ask(model.door_questions);
    begin_day(view, overview.today);

    ui::form("Delivery form", [&] {
        ui::panes({{"Delivery side", 0.4F, 24_em, [&] { delivery_side(view, model, notice, out); }},
                   {"Lot side", 0.6F, 26_em, [&] { lot_side(view, model, overview); }}});
    });
    if (view.asks_to_drop && notice.kind != app::Notice::Kind::failed)
        ask_to_drop(view);
}

} // namespace mellowbin::views
