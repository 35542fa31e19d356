#include "ui/views/intake/view.h"

#include "app/acts/intake.h"
#include "app/acts/notice.h"
#include "app/models/intake.h"
#include "app/models/overview.h"
#include "ui/views/common/words.h"
#include "ui/views/intake/delivery_side.h"
#include "ui/views/intake/lot_form.h"
#include "ui/views/intake/pallets.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

constexpr float two_places = 60; ///< ems of width, from which the form stands beside the delivery
constexpr float foot_height = 3.5F;

// What came from outside since the last frame.

void take_over_file(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice) {
    if (view.file.take_answer(notice) == app::Notice::Kind::refused) {
        view.certificate.path.clear();
        view.certificate.is_resumed = false;
    }
    if (model.reading == view.reading_seen)
        return;
    view.reading_seen = model.reading;
    view.certificate.path.clear();
    view.delivery.join(model.read_drafts);
    view.shows_head = view.delivery.at_hand().draft.mill.empty();
    view.list.show_selected = true;
    view.wants_focus = true;
}

/// A number, and nothing else of the lot.
bool is_number_alone(const LotDraft& label) {
    return label.milled_on.empty() && label.best_before.empty() && label.mass_kg.empty();
}

/// What came of the label, in words.
std::string fill_from(IntakeView& view, const app::IntakeModel& model) {
    auto& delivery = view.delivery;
    const auto& label = model.label;
    const bool is_again = delivery.has(label.code);
    if (const auto at = line_with_pallet(delivery, label); at != 0) {
        delivery.take_up(at);
        return fmt::format("Pallet {} was scanned already: it is with lot {}",
                           sscc_in_words(label.pallets.front().sscc), name_of(delivery, delivery.at_hand()));
    }
    if (is_number_alone(label) && label.pallets.empty()) {
        delivery.scanned(label.code);
        return is_again ? fmt::format("{} was scanned before: it is on the list", label.code)
                        : label.code + " read";
    }
    make_room(delivery, label);
    const int filled = label.code.empty() ? 0 : delivery.scanned(label);
    const auto pallet = take_pallet(delivery, label);
    const auto what = counted(static_cast<std::size_t>(filled), "field", "fields");
    auto words =
        is_again ? fmt::format("{} was scanned before: it is on the list, {} filled now", label.code, what)
                 : fmt::format("{} read, {} filled", label.code, what);
    if (!pallet.words.empty() && (is_again || label.code.empty()))
        words = name_of(delivery, delivery.at_hand());
    return words + pallet.words + take_order(view, model);
}

void take_over_label(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice) {
    view.label.take_answer(notice);
    if (model.labels == view.label_seen)
        return;
    view.label_seen = model.labels;
    view.label = {};
    view.scan_words = fill_from(view, model);
    view.list.show_selected = true;
    view.wants_focus = true;
}

void take_over_answer(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice) {
    const auto answer = view.take_in.take_answer(notice);
    if (answer == app::Notice::Kind::refused) {
        Refusals of_lots;
        for (const auto& refusal : view.take_in.refusals)
            if (!refusal.field.starts_with(at_the_door)) // said where it is typed
                of_lots.push_back(refusal);
        view.refusals = view.delivery.put_at_lots(view.form.take(of_lots), view.sent);
        view.list.show_selected = true;
        view.wants_refused = true;
    }
    if (model.taken_in == view.taken_in_seen)
        return;
    view.taken_in_seen = model.taken_in;
    view.delivery.take_out(view.sent);
    view.refusals.clear();
    view.file.refusals.clear();
    view.scan_words.clear();
    if (view.delivery.filled().empty()) {
        view.door.empty();
        view.form = {};
    }
    view.form.joins = view.delivery.filled().empty() ? DeliveryId() : model.came;
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
    view.delivery.check_all_anew();
}

/// Every lot and the door as intake would read them now.
void check(IntakeView& view, const app::IntakeModel& model, Day today) {
    if (view.lists_seen != model.made)
        view.delivery.check_all_anew();
    view.lists_seen = model.made;
    for (const auto& line : view.delivery.lines())
        view.delivery.find(line.number)->spread_basis();
    view.form.fill(view.delivery, model);
    view.delivery.check(model.records.context(today));
    view.form.check(view.delivery, model);
    view.door.follow(view.delivery);
    view.door.check(view.delivery);
    if (!std::exchange(view.wants_refused, false))
        return;
    const auto& refusals = view.delivery.at_hand().refusals;
    view.focus_field = refusals.empty() ? std::string() : refusals.front().field;
}

void read_file(IntakeView& view, const std::string& path, const app::Notice& notice, app::Intents& out) {
    view.certificate.path = path;
    view.file.ask(notice);
    out.emplace_back(app::ReadCertificateFile{path, defaults_of(view.delivery)});
}

/// One a frame: each is answered before the next is read.
void read_dropped(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice,
                  app::Intents& out) {
    if (view.dropped.empty() || view.file.is_waiting() || model.certificate.is_open)
        return;
    read_file(view, view.dropped.front(), notice, out);
    view.dropped.pop_front();
}

// The right side: the lot at hand.

void lot_head(IntakeView& view, app::Intents& out) {
    const auto& lines = view.delivery.lines();
    const auto& line = view.delivery.at_hand();
    const auto at =
        std::find_if(lines.begin(), lines.end(), [&](const auto& one) { return one.number == line.number; });
    ui::flow([&] {
        ui::text(line.draft.code.empty() ? std::string("New lot") : line.draft.code,
                 {.size = ui::TextSize::figure, .weight = ui::Weight::bold});
        ui::text(fmt::format("lot {} of {}", at - lines.begin() + 1, lines.size()), {.role = Role::quiet});
        if (ui::button("Read a file", {.kind = ui::ButtonKind::quiet}))
            view.files.open(out);
        if (ui::button("Paste a certificate", {.kind = ui::ButtonKind::quiet}))
            view.certificate.is_pasting = view.certificate.wants_focus = true;
        if (ui::button(pallets_words(line.draft), {.kind = ui::ButtonKind::quiet}))
            view.folds.shows_pallets = !view.folds.shows_pallets;
    });
}

void draw_lot(IntakeView& view, const app::IntakeModel& model, Day today, app::Intents& out) {
    ui::panel("", [&] {
        lot_head(view, out);
        auto& line = view.delivery.at_hand();
        draw_own_test(view.own_test, line.draft, model, out);
        if (view.wants_focus)
            ui::focus_first_empty_field();
        view.wants_focus = false;
        ui::scope(line.number, [&] {
            LotForm form{line, model, today};
            lot_form(form, view.folds);
        });
    });
}

void ask_to_drop(IntakeView& view, app::Intents& out) {
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
    if (answer == ui::Answer::deed)
        throw_away_if_empty(view, out);
}

} // namespace

void empty(IntakeView& view) {
    view.delivery = Delivery();
    view.form = {};
    view.door.empty();
    view.refusals.clear();
    view.scan_words.clear();
    view.day.reset();
    view.shows_head = view.wants_focus = true;
}

void draw(IntakeView& view, const app::IntakeModel& model, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out) {
    take_over_file(view, model, notice);
    take_over_label(view, model, notice);
    take_over_answer(view, model, notice);
    take_over_begun(view, model, notice, out);
    view.door.ask(model.door_questions);
    begin_day(view, overview.today);
    check(view, model, overview.today);
    read_dropped(view, model, notice, out);
    if (draw(view.certificate, view.delivery, model, notice, out))
        return; // in place of the delivery

    const auto delivery = [&] { draw_delivery(view, model, notice, overview.today, out); };
    const auto lot = [&] { draw_lot(view, model, overview.today, out); };
    const auto foot = [&] { draw_take_in(view, notice, out); };
    ui::keep_clear_below(ui::Length{foot_height});
    const auto above_foot = [] { return ui::Length{std::max(6.0F, ui::height_left().ems - foot_height)}; };
    ui::form("Delivery form", [&] {
        if (!view.focus_field.empty())
            ui::focus(view.focus_field); // of the lot, or of the delivery's head
        if (ui::width_left().ems < two_places) {
            ui::scroll_area("Delivery side", above_foot(), [&] {
                delivery();
                ui::scope("Lot at hand", lot);
            });
            foot();
            return;
        }
        ui::panes({{"Delivery side", 0.35F, 26_em,
                    [&] {
                        ui::scroll_area("Delivery", above_foot(), delivery);
                        foot();
                    }},
                   {"Lot at hand", 0.65F, 33_em, lot}});
    });
    view.focus_field.clear();
    if (notice.kind == app::Notice::Kind::failed)
        return; // the failure stands in front
    if (view.asks_to_drop)
        ask_to_drop(view, out);
    if (const auto path = draw(view.files, model.folder, out))
        read_file(view, *path, notice, out);
}

} // namespace mellowbin::views
