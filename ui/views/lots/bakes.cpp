#include "ui/views/lots/bakes.h"

#include "app/acts/notice.h"
#include "app/models/ladders.h"
#include "app/models/lots.h"
#include "core/bake.h"
#include "ui/views/common/estimate_parts.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

std::string_view size_of(const app::LadderModel& ladder) {
    return ladder.unit == unit_of(LoafMeasure::height) ? "loaf height" : "loaf volume";
}

/// "30" or "2.5"
std::string dose_words(double dose) {
    return number_words(dose, std::abs(dose - std::round(dose)) < 0.05 ? 0 : 1);
}

std::vector<ui::CurvePoint> points_of(const app::LadderModel& ladder) {
    std::vector<ui::CurvePoint> points;
    points.reserve(ladder.curve.size());
    for (const auto& point : ladder.curve)
        points.push_back({point.dose, point.low, point.likely, point.high});
    return points;
}

double highest_dose(const app::LadderModel& ladder) {
    double highest = 1;
    for (const auto& point : ladder.curve)
        highest = std::max(highest, point.dose);
    for (const auto& loaf : ladder.loaves)
        highest = std::max(highest, loaf.first);
    return highest;
}

void dose_curve(const app::LadderModel& ladder) {
    const auto points = points_of(ladder);
    std::vector<std::string> words; // kept while the marks point into it
    for (const auto& [dose, size] : ladder.loaves)
        words.push_back(fmt::format("{} mg/kg: {} {}", dose_words(dose), number_words(size, 0), ladder.unit));
    std::vector<ui::CurveMark> marks;
    for (std::size_t i = 0; i < words.size(); ++i)
        marks.push_back({ladder.loaves[i].first, ladder.loaves[i].second, words[i]});
    const auto name = fmt::format("Oxidation response to {}", ladder.substance);
    ui::curve({.name = name,
               .y_axis = size_of(ladder),
               .unit = ladder.unit,
               .decimals = 0,
               .first_day = 0,
               .last_day = highest_dose(ladder),
               .points = points,
               .marks = marks,
               .across = ui::Across{.name = "dose", .unit = "mg/kg", .decimals = 0},
               .height = 13_em});
    ui::curve_legend(points, marks, "10 to 90 %", "a loaf");
}

void dose_table(const app::LadderModel& ladder) {
    static constexpr std::array columns{
        ui::Column{
            .head = "Dose", .unit = "mg/kg", .sample = "000.0", .align = ui::Align::right, .sortable = false},
        ui::Column{.head = "10 %", .sample = "00000", .align = ui::Align::right, .sortable = false},
        ui::Column{.head = "50 %", .sample = "00000", .align = ui::Align::right, .sortable = false},
        ui::Column{.head = "90 %", .sample = "00000", .align = ui::Align::right, .sortable = false},
    };
    const auto name = fmt::format("Oxidation response to {} by dose", ladder.substance);
    const auto record = [](std::size_t i) { return static_cast<std::int64_t>(i) + 1; };
    const auto write = [&](std::size_t i, ui::RowWriter& row) {
        const auto& point = ladder.curve[i];
        row.cell(dose_words(point.dose));
        for (const double value : {point.low, point.likely, point.high})
            row.cell(number_words(value, 0));
    };
    ui::TableState state;
    ui::table({.name = name,
               .columns = columns,
               .rows = ladder.curve.size(),
               .record = record,
               .write_row = write,
               .density = ui::Density::close,
               .height = 14_em},
              state);
    ui::hint(fmt::format("{} in {}: 10, 50 and 90 % of the estimate.", size_of(ladder), ladder.unit));
}

void curve_or_table(LotBakes& view, const app::LadderModel& ladder, const std::string& key) {
    if (ladder.curve.empty()) { // the loaves stand below as they are
        if (!ladder.loaves.empty())
            dose_curve(ladder);
        return;
    }
    bool as_table = view.as_table.contains(key);
    if (as_table)
        dose_table(ladder);
    else
        dose_curve(ladder);
    table_switch(as_table);
    if (as_table)
        view.as_table.insert(key);
    else
        view.as_table.erase(key);
}

void loaf(const app::LadderModel& ladder, const app::LadderRow& row, std::optional<TakeBack>& question) {
    const auto words =
        fmt::format("{}: {:g} mg/kg, {:g} {}", short_day(row.day), row.dose, row.size, ladder.unit);
    ui::flow([&] {
        ui::stack(18_em, [&] {
            ui::paragraph(words, {.role = row.is_withdrawn ? Role::quiet : Role::ink});
            std::string about = row.is_withdrawn ? "Withdrawn" : "";
            for (const auto& more : {row.note, row.who})
                if (!more.empty())
                    about += (about.empty() ? "" : " · ") + more;
            if (!about.empty())
                ui::hint(about);
        });
        if (row.is_withdrawn || !ui::button("Withdraw", {.kind = ui::ButtonKind::quiet}))
            return;
        question.emplace();
        question->what = row.id;
        question->words = fmt::format("{}, {}", ladder.substance, words);
    });
}

void estimates(const app::LadderModel& ladder) {
    for (const auto& words : {ladder.best_words, ladder.fall_words, ladder.gain_words, ladder.next_words})
        if (!words.empty())
            ui::status(Role::model, words);
    for (const auto& permit : ladder.permits)
        ui::paragraph(permit.words);
    for (const auto& note : ladder.notes)
        ui::paragraph(note);
}

void ladder_of(LotBakes& view, const app::LadderModel& ladder, std::optional<TakeBack>& question) {
    const auto title = fmt::format("{}, {}", ladder.substance, size_of(ladder));
    ui::scope(title, [&] {
        ui::heading(title);
        estimates(ladder);
        curve_or_table(view, ladder, title);
        for (const auto& row : ladder.rows)
            ui::scope(row.id.number(), [&] { loaf(ladder, row, question); });
        ui::rule();
    });
}

} // namespace

void draw_bakes(LotBakes& view, const app::LotSheet& sheet, std::optional<TakeBack>& question, Day today,
                const app::Notice& notice, app::Intents& out) {
    ui::panel("Test bakes", [&] {
        if (sheet.ladders.empty())
            ui::hint("None yet. Bake loaves of this lot with rising doses of an oxidant, two or three at "
                     "least: they say which dose it asks for.");
        for (const auto& ladder : sheet.ladders)
            ladder_of(view, ladder, question);
        draw(view.form, sheet, today, notice, out);
    });
}

} // namespace mellowbin::views
