#include "ui/views/intake/delivery_side.h"

#include "app/acts/intake.h"
#include "app/acts/read_scan.h"
#include "core/decimal.h"
#include "core/typed_text.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/common/words.h"
#include "ui/views/intake/kept.h"
#include "ui/views/intake/pallets.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

constexpr std::array head_fields{"Mill", "Delivery note", "Delivered on"};
constexpr std::string_view scan_label = "Scan or lot number";

/// A basis belongs to the mill's sheet: of another mill it must be said anew, unless a figure was typed with
/// it.
void forget_bases(DeliveryLine& line) {
    const auto& figures = line.draft.figures;
    if (std::all_of(figures.begin(), figures.end(), [](const auto& figure) { return figure.value.empty(); }))
        line.basis.clear();
}

void head_rows(IntakeView& view, const app::IntakeModel& model, Day today) {
    auto& line = view.delivery.at_hand();
    LotForm form{line, model, today};
    auto mill = line.draft.mill, note = line.draft.delivery_note, day = line.draft.delivered_on;
    name_row(form, "Mill", model.mills, mill);
    text_row(form, "Delivery note", note);
    day_row(form, "Delivered on", day);
    if (mill != line.draft.mill)
        forget_bases(line);
    view.delivery.say_of_all(&LotDraft::mill, mill);
    view.delivery.say_of_all(&LotDraft::delivery_note, note);
    view.delivery.say_of_all(&LotDraft::delivered_on, day);
    draw_whole(view, model);
}

void ask_to_read(IntakeView& view, app::ReadScan read, const app::Notice& notice, app::Intents& out) {
    view.scan_words.clear();
    view.label = {};
    view.label.ask(notice);
    out.emplace_back(std::move(read));
}

bool is_head_refused(const IntakeView& view) {
    const auto& refusals = view.delivery.at_hand().refusals;
    if (is_refused(view.form.refusals, on_note_field) || is_refused(view.form.refusals, order_field))
        return true;
    return std::any_of(refusals.begin(), refusals.end(), [](const Refusal& refusal) {
        return std::find(head_fields.begin(), head_fields.end(), refusal.field) != head_fields.end();
    });
}

std::string head_words(const LotDraft& draft) {
    std::string words = draft.mill.empty() ? "no mill yet" : draft.mill;
    if (!draft.delivery_note.empty())
        words += ", note " + draft.delivery_note;
    return words + ", " + draft.delivered_on;
}

void head(IntakeView& view, const app::IntakeModel& model, Day today) {
    if (is_head_refused(view))
        view.shows_head = true;
    ui::flow([&] {
        ui::text("Delivery", {.size = ui::TextSize::heading, .weight = ui::Weight::bold});
        if (!view.shows_head)
            ui::text(head_words(view.delivery.at_hand().draft), {.role = Role::quiet});
        if (ui::button(view.shows_head ? "Fold" : "Change", {.kind = ui::ButtonKind::quiet}))
            view.shows_head = !view.shows_head;
    });
    if (view.shows_head)
        head_rows(view, model, today);
}

/// What is typed here is a lot number, or a label's text: the application says which.
void take_typed(IntakeView& view, const app::Notice& notice, app::Intents& out) {
    if (view.scanned.empty())
        return;
    app::ReadScan read{std::exchange(view.scanned, {}), app::ReadScan::At::intake};
    read.plain = app::ReadLabel::Plain::is_lot_number;
    ask_to_read(view, std::move(read), notice, out);
}

/// The lot number ends as a date would: a person says which it is.
void ask_about_separator(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice,
                         app::Intents& out) {
    const auto& doubt = model.doubt;
    if (doubt.scan.empty())
        return;
    if (view.label.is_waiting())
        view.label = {}; // the question is the answer
    using Reading = app::ReadLabel::Reading;
    const auto choose = [&](Reading reading) {
        ask_to_read(view, {doubt.scan, app::ReadScan::At::intake, {}, reading}, notice, out);
    };
    ui::status(Role::mind, "Is that all of the lot number, or did the scanner lose a separator?");
    ui::flow([&] {
        if (ui::button(doubt.as_read))
            choose(Reading::whole);
        if (ui::button(doubt.otherwise))
            choose(Reading::parted);
    });
}

/// No form of GS1: it may be a lot number, or anything else that has a code on it. Enter takes it, wherever
/// the cursor was.
void ask_about_plain(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice,
                     app::Intents& out) {
    const auto& plain = model.plain;
    if (plain.text.empty() || view.plain_left == plain.number)
        return;
    const auto shown = excerpt(plain.text);
    const auto words = fmt::format("Take {} as a lot number", shown);
    if (std::exchange(view.plain_seen, plain.number) != plain.number) {
        view.label = {};
        ui::focus(words);
    }
    ui::status(Role::mind, fmt::format("\"{}\" is no GS1 label. Is it a lot number?", shown));
    ui::flow([&] {
        if (ui::button(words)) {
            app::ReadScan read{plain.text, app::ReadScan::At::intake};
            read.plain = app::ReadLabel::Plain::is_lot_number;
            ask_to_read(view, std::move(read), notice, out);
        }
        if (ui::button("Leave it", {.kind = ui::ButtonKind::quiet})) {
            view.plain_left = plain.number;
            view.wants_focus = true;
        }
    });
}

/// Always alive: what is typed while no field has the cursor is a scan.
void scan_field(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice,
                app::Intents& out) {
    if (ui::key_pressed(ui::Key::f9))
        ui::focus(scan_label);
    bool is_entered = ui::catch_typing(view.scanned).entered;
    ui::flow([&] {
        is_entered |= ui::text_field({.label = scan_label,
                                      .hint = "scan a pallet, or type its number (F9)",
                                      .width = 24_em,
                                      .label_place = ui::LabelPlace::hidden,
                                      .enter = ui::Enter::entered},
                                     view.scanned)
                          .entered;
        if (!view.label.refusals.empty())
            ui::status(Role::stop, view.label.refusals.front().what);
        else if (!view.scan_words.empty())
            ui::status(Role::good, view.scan_words);
    });
    ask_about_separator(view, model, notice, out);
    ask_about_plain(view, model, notice, out);
    if (is_entered)
        take_typed(view, notice, out);
}

void write_line(const IntakeView& view, const DeliveryLine& line, ui::RowWriter& row) {
    const auto& draft = line.draft;
    row.cell(draft.code.empty() ? "no number yet" : draft.code, draft.code.empty() ? Role::quiet : Role::ink);
    row.cell(draft.flour.empty() ? "–" : draft.flour);
    const auto kg = read_decimal("Weight", draft.mass_kg);
    row.cell(kg && *kg ? kilograms(**kg) : draft.mass_kg.empty() ? "–" : draft.mass_kg);
    const auto mark = mark_of(view, line);
    row.cell(mark.words, mark.role);
}

void lots_table(IntakeView& view) {
    static constexpr ui::Column columns[] = {
        {.head = "Lot", .sample = "W24-1180", .sortable = false},
        {.head = "Flour", .sample = "Strong white", .sortable = false, .gives_way = 1},
        {.head = "kg", .sample = "12 500", .align = ui::Align::right, .sortable = false},
        {.head = "How it stands", .sample = "✕ 1 to mend", .stretch = 1, .sortable = false},
    };
    const auto& lines = view.delivery.lines();
    constexpr float most_lines_shown = 6;
    const float rows = std::clamp(static_cast<float>(lines.size()), 3.0F, most_lines_shown);
    view.list.selected = view.delivery.at_hand().number;
    const auto events =
        ui::table({.name = "Lots of the delivery",
                   .columns = columns,
                   .rows = lines.size(),
                   .record = [&](std::size_t i) { return lines[i].number; },
                   .write_row = [&](std::size_t i, ui::RowWriter& row) { write_line(view, lines[i], row); },
                   .density = ui::Density::close,
                   .height = ui::Length{2.3F + 2.1F * rows}},
                  view.list);
    if (events.selected && view.list.selected)
        view.delivery.take_up(*view.list.selected);
    if (events.opened)
        view.wants_focus = true;
}

/// "3 lots, 5 000 kg"; a lot whose weight cannot be read is told, not counted as nothing.
std::string sum_words(const Delivery& delivery) {
    double sum = 0;
    std::size_t without = 0;
    for (const auto number : delivery.filled()) {
        const auto kg = read_decimal("Weight", delivery.find(number)->draft.mass_kg);
        if (kg && *kg)
            sum += **kg;
        else
            ++without;
    }
    auto words = fmt::format("{}, {} kg", counted(delivery.filled().size(), "lot", "lots"), kilograms(sum));
    if (without > 0)
        words += fmt::format("; {} without a weight", without);
    if (const auto pallets = pallets_of(delivery); pallets > 0)
        words += ", " + counted(pallets, "pallet", "pallets");
    return words;
}

void list_buttons(IntakeView& view, const app::Notice& notice, app::Intents& out) {
    ui::flow([&] {
        ui::text(sum_words(view.delivery), {.role = Role::quiet});
        if (ui::button("Next lot")) {
            view.delivery.next();
            view.shows_head = view.shows_head && view.delivery.at_hand().draft.mill.empty();
            view.list.show_selected = true;
            view.wants_focus = true;
        }
        if (ui::button("Take off the list", {.kind = ui::ButtonKind::quiet})) {
            view.asks_to_drop = !is_untouched(view.delivery.at_hand().draft);
            if (!view.asks_to_drop)
                view.delivery.drop_at_hand();
            throw_away_if_empty(view, out);
        }
        if (is_begun(view) &&
            ui::button("Put aside", {.kind = ui::ButtonKind::quiet,
                                     .tip = "For a colleague, or for later: at every station"}))
            put_aside(view, notice, out);
    });
}

} // namespace

void take_scan(IntakeView& view, const std::string& bytes, const app::Notice& notice, app::Intents& out) {
    ask_to_read(view, {bytes, app::ReadScan::At::intake}, notice, out);
}

void draw_delivery(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice, Day today,
                   app::Intents& out) {
    const auto& lines = view.delivery.lines();
    ui::scope("Begun", [&] { draw_begun(view, model, out); });
    ui::panel("", [&] {
        head(view, model, today);
        scan_field(view, model, notice, out);
        lots_table(view);
        list_buttons(view, notice, out);
        ui::scope("Expected", [&] { draw_match(view, model); });
        ui::all_refusals(view.refusals);
        ui::all_refusals(view.file.refusals);
        if (std::any_of(lines.begin(), lines.end(), [](const auto& line) { return line.is_from_file; }))
            for (const auto& words : model.file_notes)
                ui::status(Role::mind, words);
    });
    ui::panel("", [&] { draw(view.door, view.delivery); });
}

void draw_take_in(IntakeView& view, const app::Notice& notice, app::Intents& out) {
    const auto filled = view.delivery.filled();
    const auto whole = whole_lots(view);
    const bool is_part = !whole.empty() && whole.size() < filled.size();
    const auto label =
        is_part ? fmt::format("Take in {} of {}", whole.size(), filled.size())
                : fmt::format("Take in {}", counted(std::max<std::size_t>(filled.size(), 1), "lot", "lots"));
    const std::string_view blocked = filled.empty() ? "Scan or type a lot number first" : "";
    ui::flow([&] {
        if (ui::button(label, {.kind = ui::ButtonKind::primary, .blocked = blocked, .width = 11_em})) {
            view.sent = is_part ? whole : filled;
            view.take_in.ask(notice);
            out.emplace_back(app::TakeIn{
                view.delivery.drafts_of(view.sent),
                view.door.drafts_of(view.delivery, view.sent),
                {view.form.draft, view.form.joins, is_part ? Rest::follows : Rest::none, view.form.begun}});
        }
        if (!is_part)
            return;
        const auto staying = filled.size() - whole.size();
        std::string name;
        for (const auto number : filled)
            if (std::find(whole.begin(), whole.end(), number) == whole.end())
                name = name_of(view.delivery, *view.delivery.find(number));
        ui::stack(ui::Length{std::max(8.0F, ui::width_left().ems - 12)}, [&] {
            ui::status(Role::stop, staying == 1
                                       ? fmt::format("{} stays here until it is mended", name)
                                       : fmt::format("{} lots stay here until they are mended", staying));
        });
    });
}

} // namespace mellowbin::views
