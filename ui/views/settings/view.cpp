#include "ui/views/settings/view.h"

#include "app/acts/limits.h"
#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/settings.h"
#include "app/models/overview.h"
#include "app/models/settings.h"
#include "ui/views/common/changed.h"
#include "ui/views/common/words.h"
#include "ui/views/settings/learned.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

enum Page { limits, constants, choices, storage, learned, doughs, journal, precision, scanner };
static_assert(scanner == SettingsView::last_page);
constexpr std::array<std::string_view, 9> pages{"Limits by law", "Published numbers", "The plant's choices",
                                                "Storage",       "Learned",           "Doughs",
                                                "Journal",       "Test precision",    "Scanner"};

constexpr auto plain(std::string_view head, std::string_view sample, float stretch = 0) {
    return ui::Column{.head = head, .sample = sample, .stretch = stretch, .sortable = false};
}

// Limits by law

/// Lines of the plant's own markets that nobody has confirmed: those a person can do something about.
std::vector<std::size_t> lines_shown(const SettingsView& view, const app::SettingsModel& model) {
    std::vector<std::size_t> lines;
    for (std::size_t i = 0; i < model.limits.size(); ++i)
        if (!view.only_to_confirm || (model.limits[i].matters && !model.limits[i].is_confirmed))
            lines.push_back(i);
    return lines;
}

void limit_table(SettingsView& view, const app::SettingsModel& model) {
    static constexpr std::array columns{
        plain("Substance", "Potassium bromate"),
        plain("Standing", "✕ not confirmed"),
        plain("Market", "US-CA"),
        plain("Limit", "200 mg/kg", 1),
        plain("Food", "Bread", 1),
    };
    const auto lines = lines_shown(view, model);
    const auto record = [&](std::size_t i) { return record_of(model.limits[lines[i]].id); };
    const auto write = [&](std::size_t i, ui::RowWriter& row) {
        const auto& line = model.limits[lines[i]];
        const auto unconfirmed = line.matters ? Role::mind : Role::quiet;
        row.cell(line.substance);
        row.cell(line.is_confirmed ? "confirmed" : "not confirmed",
                 line.is_confirmed ? Role::good : unconfirmed);
        row.cell(line.market);
        row.cell(line.figure.empty() ? line.rule : line.figure);
        row.cell(line.food);
        if (!line.matters)
            row.dim();
    };
    ui::table({.name = "Limits",
               .columns = columns,
               .rows = lines.size(),
               .record = record,
               .write_row = write,
               .when_empty = model.limits.empty() ? "The book holds no limits."
                                                  : "Every limit of your markets is confirmed.",
               .density = ui::Density::close},
              view.limits);
}

const app::LimitLine* chosen_limit(const app::SettingsModel& model, std::optional<std::int64_t> record) {
    const auto at = std::find_if(model.limits.begin(), model.limits.end(),
                                 [&](const auto& line) { return record_of(line.id) == record; });
    return at == model.limits.end() ? nullptr : &*at;
}

void limit_words(const app::LimitLine& line) {
    ui::fact({.label = "Market", .value = line.market});
    ui::fact({.label = "Substance", .value = line.substance});
    ui::fact({.label = "Food", .value = line.food});
    if (!line.figure.empty())
        ui::fact({.label = "Limit", .value = line.figure});
    if (!line.rule.empty())
        ui::fact({.label = "Rule", .value = line.rule});
    if (!line.holds.empty())
        ui::fact({.label = "Holds", .value = line.holds});
    ui::fact({.label = "Source", .value = line.source});
    ui::fact(
        {.label = "Standing", .value = line.standing, .role = line.is_confirmed ? Role::good : Role::mind});
}

/// What turns its standing.
void standing_button(SettingsView& view, const app::LimitLine& line, app::Intents& out) {
    if (line.is_confirmed) {
        if (ui::button("Mark unconfirmed"))
            out.emplace_back(app::DoubtLimit{line.id});
        return;
    }
    ui::paragraph("Until someone has read the law's text, this line permits no dose by itself.");
    if (ui::button("Confirm this limit", {.kind = ui::ButtonKind::primary}))
        view.limit_to_confirm = record_of(line.id);
}

void limit_sheet(SettingsView& view, const app::SettingsModel& model, const app::Notice& notice,
                 app::Intents& out) {
    ui::panel("Limit", [&] {
        const auto* line = chosen_limit(model, view.limits.selected);
        if (!line) {
            ui::hint("Choose a limit to read its source.");
            return;
        }
        limit_words(*line);
        ui::gap();
        if (!view.limit_form.is_open_for(record_of(line->id)))
            standing_button(view, *line, out);
        draw(view.limit_form, *line, model, notice, out);
    });
}

void limits_page(SettingsView& view, const app::SettingsModel& model, const app::Notice& notice,
                 const app::Overview& overview, app::Intents& out) {
    if (overview.unconfirmed_limits > 0)
        ui::loud_panel(Role::mind, {}, [&] {
            ui::paragraph(
                fmt::format("{} of your markets {} not confirmed. What is not confirmed permits nothing.",
                            counted(static_cast<std::size_t>(overview.unconfirmed_limits), "limit", "limits"),
                            overview.unconfirmed_limits == 1 ? "is" : "are"));
        });
    ui::tick("Only those of your markets that are not confirmed", view.only_to_confirm);
    ui::panes({{"Limit table", 0.6F, 34_em, [&] { limit_table(view, model); }},
               {"Limit sheet", 0.4F, 20_em, [&] { limit_sheet(view, model, notice, out); }}});
}

void ask_to_confirm(SettingsView& view, const app::SettingsModel& model, app::Intents& out) {
    const auto* line = chosen_limit(model, view.limit_to_confirm);
    if (!line) {
        view.limit_to_confirm.reset();
        return;
    }
    const auto answer =
        ui::ask({.title = "Confirm this limit?", .harmless = "Not yet", .deed = "Confirm this limit"}, [&] {
            limit_words(*line);
            ui::gap();
            ui::paragraph("Confirm it only if you have read the text of the law as it is in force now. From "
                          "then on doses up "
                          "to this limit are permitted, and your name stands in the journal as the one who "
                          "answers for it.");
        });
    if (answer == ui::Answer::deed)
        out.emplace_back(app::ConfirmLimit{line->id});
    if (answer != ui::Answer::none_yet)
        view.limit_to_confirm.reset();
}

// Published numbers

void constants_page(SettingsView& view, const app::SettingsModel& model) {
    static constexpr std::array columns{
        plain("Number", "oxidant.half_effect", 2),
        ui::Column{.head = "Value", .sample = "12345.6", .align = ui::Align::right, .sortable = false},
        plain("Unit", "kJ/mol"),
        plain("Range", "0.05 to 0.20"),
        plain("Standing", "≈ from memory"),
        plain("Source", "Author 1999, table 2", 3),
    };
    const auto record = [](std::size_t i) { return static_cast<std::int64_t>(i) + 1; };
    const auto write = [&](std::size_t i, ui::RowWriter& row) {
        const auto& c = model.constants[i];
        row.cell(c.key);
        row.cell(c.value);
        row.cell(c.unit);
        row.cell(c.range.empty() ? "–" : c.range);
        row.cell(c.standing, c.standing == "read" ? Role::good : Role::model);
        row.cell(c.source.empty() ? "–" : c.source);
    };
    ui::hint(model.best_time_words);
    const auto height = ui::Length{std::max(12.0F, ui::height_left().ems - 11)};
    ui::table({.name = "Published numbers",
               .columns = columns,
               .rows = model.constants.size(),
               .record = record,
               .write_row = write,
               .density = ui::Density::close,
               .height = height},
              view.constants);
    const auto at = view.constants.selected.value_or(0);
    if (at < 1 || static_cast<std::size_t>(at) > model.constants.size()) {
        ui::hint("Choose a number to read where it holds and where it comes from.");
        return;
    }
    const auto& c = model.constants[static_cast<std::size_t>(at) - 1];
    ui::panel({}, [&] {
        ui::paragraph(fmt::format("{}: {} {}", c.key, c.value, c.unit), {.weight = ui::Weight::bold});
        if (!c.conditions.empty())
            ui::paragraph(c.conditions);
        ui::hint(c.source.empty() ? c.standing : fmt::format("{} · {}", c.standing, c.source));
    });
}

// The plant's choices

void choice_field(SettingsView& view, const app::SettingRow& row, const app::Notice& notice,
                  app::Intents& out) {
    const auto kept = view.typed.find(row.key);
    std::string text = kept == view.typed.end() ? row.value : kept->second.text;
    std::string note = row.what;
    const auto who = row.since.empty() ? row.who : fmt::format("by {}, {}", row.who, row.since);
    if (!who.empty())
        note += (note.empty() ? "" : " · ") + who;
    ui::stack({}, [&] {
        ui::flow([&] {
            const auto edited = ui::text_field({.label = row.label,
                                                .unit = row.unit,
                                                .hint = row.when_empty,
                                                .refusals = &view.asked.refusals,
                                                .width = 20_em,
                                                .enter = ui::Enter::entered},
                                               text);
            if (edited.changed && text == row.value)
                view.typed.erase(row.key);
            else if (edited.changed)
                view.typed.try_emplace(row.key, TypedChoice{{}, row.value}).first->second.text = text;
            if (!view.typed.contains(row.key))
                return;
            if (ui::button("Keep", {.kind = ui::ButtonKind::primary}) || edited.entered) {
                view.sent = row.key;
                view.asked.ask(notice);
                out.emplace_back(app::ChangeSetting{row.key, text});
            }
            if (ui::button("As before", {.kind = ui::ButtonKind::quiet})) {
                view.typed.erase(row.key);
                view.asked.refusals.clear();
            }
        });
        const auto typed = view.typed.find(row.key);
        if (typed != view.typed.end() && typed->second.over != row.value)
            stands_otherwise(fmt::format("it is {} now", row.value.empty() ? "empty" : row.value), who);
        ui::hint(note);
        ui::gap();
    });
}

void choices_page(SettingsView& view, const app::SettingsModel& model, const app::Notice& notice,
                  app::Intents& out) {
    ui::filling_panel("What this plant has chosen", [&] {
        ui::hint(
            "Mills, flours, places, lines, products and the checks at the door stand on Plant (Ctrl+7).");
        ui::gap();
        for (const auto& row : model.settings)
            if (!row.is_lines)
                ui::scope(row.key, [&] { choice_field(view, row, notice, out); });
    });
}

// Journal

void journal_page(SettingsView& view, const app::SettingsModel& model, app::Intents& out) {
    static constexpr std::array columns{plain("When", "24 Nov 2025 14:20"), plain("Who", "Ines Almeida"),
                                        plain("What", "Delivery no longer expected"),
                                        plain("In words", "", 1)};
    if (model.journal_has_newer || model.journal_has_older)
        ui::flow([&] {
            if (ui::button("Newest", {.kind = ui::ButtonKind::quiet,
                                      .blocked = model.journal_has_newer ? "" : "these are the newest"}))
                out.emplace_back(app::ShowJournal{});
            if (ui::button("Older", {.kind = ui::ButtonKind::quiet,
                                     .blocked = model.journal_has_older ? "" : "these are the oldest"}))
                out.emplace_back(app::ShowJournal{model.journal.back().id});
        });
    const auto record = [&](std::size_t i) { return model.journal[i].id; };
    const auto write = [&](std::size_t i, ui::RowWriter& row) {
        const auto& line = model.journal[i];
        row.cell(line.at);
        row.cell(line.who);
        row.cell(line.act);
        row.cell(line.words);
    };
    ui::table(
        {.name = "Journal",
         .columns = columns,
         .rows = model.journal.size(),
         .record = record,
         .write_row = write,
         .when_empty = "Nothing was changed yet. Every change of the book stands here, with who and when.",
         .density = ui::Density::close},
        view.journal);
}

} // namespace

void SettingsView::show_choices() { page = choices; }

void draw(SettingsView& view, const app::SettingsModel& model, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out) {
    if (view.asked.is_done(notice))
        view.typed.erase(view.sent);
    ui::pages({.label = "Show", .label_place = ui::LabelPlace::hidden}, pages, view.page);
    switch (view.page) {
    case limits:
        limits_page(view, model, notice, overview, out);
        break;
    case constants:
        constants_page(view, model);
        break;
    case choices:
        choices_page(view, model, notice, out);
        break;
    case storage:
        draw(view.storage, model, notice, out);
        break;
    case learned:
        draw_learned(model.learning, out);
        break;
    case doughs:
        draw(view.doughs, model.doughs, notice, out);
        break;
    case journal:
        journal_page(view, model, out);
        break;
    case scanner:
        if (draw(view.scanner, model.scanner, out))
            view.show_choices();
        break;
    case precision:
        draw(view.precision, model, notice, out);
        break;
    default:
        break;
    }
    if (view.limit_to_confirm && notice.kind != app::Notice::Kind::failed)
        ask_to_confirm(view, model, out);
}

} // namespace mellowbin::views
