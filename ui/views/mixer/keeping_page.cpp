#include "ui/views/mixer/keeping_page.h"

#include "app/acts/doughs.h"
#include "app/acts/notice.h"
#include "app/models/keeping.h"
#include "app/models/mixer.h"
#include "ui/views/common/estimate_parts.h"
#include "ui/views/common/figures.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <string_view>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;
using Standing = app::KeepingLimit::Standing;

void warnings(const app::KeepingModel& keeping) {
    if (keeping.warnings.empty())
        return;
    ui::loud_panel(Role::stop, "Look at this first", [&] {
        for (const auto& words : keeping.warnings)
            ui::status(Role::stop, words);
    });
}

void figures(const app::KeepingModel& keeping) {
    ui::panel("What keeps it", [&] {
        if (keeping.figures.empty())
            ui::hint("Nothing was said of a preservative or of the dough's pH.");
        for (const auto& line : keeping.figures)
            draw_fact(line, HouseUnits());
    });
}

void limit(const app::KeepingLimit& limit) {
    switch (limit.standing) {
    case Standing::permitted:
        return ui::status(Role::good, "Permitted. " + limit.words);
    case Standing::unconfirmed:
        return ui::status(Role::mind, "Not confirmed. " + limit.words);
    case Standing::not_known:
        return ui::status(Role::stop, "Not known. " + limit.words);
    case Standing::forbidden:
        return ui::status(Role::stop, "Forbidden. " + limit.words);
    }
}

/// How its bread is put on sale: where the law tells breads apart, its limit goes by this.
void sold_as(const app::KeepingModel& keeping, app::Intents& out) {
    const auto all = all_sold_as();
    std::vector<std::string_view> names;
    int chosen = -1;
    for (const auto one : all) {
        if (one == keeping.sold_as)
            chosen = static_cast<int>(names.size());
        names.push_back(name_of(one));
    }
    if (ui::choice({.label = "Sold as", .width = 20_em}, names, chosen))
        out.emplace_back(
            app::ChangeDough{.product = keeping.product_name,
                             .sold_as = std::string(key_of(all[static_cast<std::size_t>(chosen)]))});
}

void limits(const app::KeepingModel& keeping, app::Intents& out) {
    ui::panel("Against the law", [&] {
        sold_as(keeping, out);
        if (keeping.limits.empty())
            ui::hint("No preservative goes in, or the product has no market yet.");
        for (const auto& row : keeping.limits)
            limit(row);
    });
}

void mould(const app::KeepingModel& keeping) {
    ui::panel("Free of mould", [&] {
        if (!keeping.mould_line.empty())
            ui::status(Role::model, keeping.mould_line);
        ui::heading("The site's own record");
        if (keeping.site_words.empty())
            ui::hint("None yet: log what bread of this product did.");
        else
            ui::paragraph(keeping.site_words);
    });
}

void advice(const app::KeepingModel& keeping) {
    ui::panel("What to do, in this order", [&] {
        if (keeping.advice.empty())
            ui::hint("Nothing asks for a change.");
        for (std::size_t i = 0; i < keeping.advice.size(); ++i)
            ui::paragraph(fmt::format("{}. {}", i + 1, keeping.advice[i]));
        for (const auto& words : keeping.practice)
            ui::hint(words);
    });
}

/// "day 3: 412 g, 2 loaves"
std::string words_of(const app::KeepingModel::Firmness& day) {
    return fmt::format("day {}: {} g, {}", day.days, number_words(day.mean, 0),
                       counted(static_cast<std::size_t>(day.loaves), "loaf", "loaves"));
}

void firmness_curve(const app::KeepingModel& keeping) {
    std::vector<ui::CurvePoint> points;
    std::vector<ui::CurveMark> marks;
    std::vector<std::string> words; // kept while the marks point into it
    for (const auto& day : keeping.firmness)
        words.push_back(words_of(day));
    double last = 1;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const auto& day = keeping.firmness[i];
        last = std::max(last, static_cast<double>(day.days));
        points.push_back({static_cast<double>(day.days), day.low, day.mean, day.high, ui::Known::measured});
        marks.push_back({static_cast<double>(day.days), day.mean, words[i]});
    }
    ui::curve({.name = "Firmness of the crumb",
               .y_axis = "firmness",
               .unit = "g",
               .decimals = 0,
               .first_day = 0,
               .last_day = last,
               .points = points,
               .marks = marks,
               .across = ui::Across{.name = "days after the bake", .unit = "d", .decimals = 1},
               .height = 12_em});
    ui::hint("Line and discs: mean of the loaves of a day. Band: from the softest to the firmest of them. "
             "Nothing is foretold.");
}

void firmness_table(const app::KeepingModel& keeping) {
    for (const auto& day : keeping.firmness) {
        const auto note = fmt::format("{} to {}, {}", number_words(day.low, 0), number_words(day.high, 0),
                                      counted(static_cast<std::size_t>(day.loaves), "loaf", "loaves"));
        ui::fact({.label = fmt::format("Day {}", day.days),
                  .value = number_words(day.mean, 0),
                  .unit = "g",
                  .note = note});
    }
}

void firmness(KeepingPage& page, const app::KeepingModel& keeping) {
    ui::panel("Firmness", [&] {
        if (keeping.firmness.empty()) {
            ui::hint("None was logged yet.");
            return;
        }
        if (page.firmness_as_table)
            firmness_table(keeping);
        else
            firmness_curve(keeping);
        table_switch(page.firmness_as_table);
    });
}

void record(KeepingPage& page, const app::KeepingRow& row) {
    const auto words = fmt::format("{}: {}", short_day(row.day), row.words);
    ui::flow([&] {
        ui::stack(24_em, [&] {
            ui::paragraph(words, {.role = row.is_withdrawn ? Role::quiet : Role::ink});
            std::string about = row.is_withdrawn ? "Withdrawn" : "";
            if (!row.who.empty())
                about += (about.empty() ? "" : " · ") + row.who;
            if (!about.empty())
                ui::hint(about);
        });
        if (row.is_withdrawn || !ui::button("Withdraw", {.kind = ui::ButtonKind::quiet}))
            return;
        auto& question = page.taking_back.emplace();
        question.what = row.id;
        question.words = words;
    });
}

void records(KeepingPage& page, const app::KeepingModel& keeping) {
    ui::panel("Records", [&] {
        if (keeping.records.empty())
            ui::hint("None yet. Keep some loaves of each week and look at them every day.");
        for (const auto& row : keeping.records)
            ui::scope(row.id.number(), [&] { record(page, row); });
    });
}

} // namespace

void draw(KeepingPage& page, const app::MixerModel& model, const app::Notice& notice, app::Intents& out) {
    ui::scroll_area("Keeping", {}, [&] {
        if (!model.keeping) {
            ui::hint("Choose a run on Batch first: how its product's bread keeps then stands here.");
            return;
        }
        const auto& keeping = *model.keeping;
        ui::heading(fmt::format("How {} keeps", keeping.product_name));
        warnings(keeping);
        ui::grid(22_em, [&] {
            figures(keeping);
            limits(keeping, out);
            mould(keeping);
            advice(keeping);
        });
        draw(page.form, keeping, model, notice, out);
        firmness(page, keeping);
        records(page, keeping);
    });
    draw(page.taking_back, notice, out);
}

} // namespace mellowbin::views
