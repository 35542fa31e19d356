#include "app/acts/mills.h"
#include "app/acts/notice.h"
#include "app/models/lot_agreements.h"
#include "app/models/lots.h"
#include "app/models/readiness.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/findings.h"
#include "ui/views/common/results.h"
#include "ui/views/common/words.h"
#include "ui/views/lots/findings.h"
#include "ui/views/lots/pages.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <vector>

namespace mellowbin::views {
namespace {

using ui::Role;

bool fails(const Judgement& judgement) {
    return judgement.verdict == Verdict::below || judgement.verdict == Verdict::above;
}

ui::Measured measured(const Judgement& judgement) {
    if (judgement.verdict == Verdict::not_comparable)
        return {.value = {}, .words = judgement.words};
    return {.value = judgement.value, .fails = fails(judgement)};
}

/// The plant's newest figure of a property.
struct Own {
    ui::Measured measured;
    std::optional<Day> taken_on;
};

Own own_of(const app::LotSheet& sheet, Property property) {
    for (const auto& retest : sheet.retests)
        for (const auto& checked : retest.windows)
            if (checked.judgement.window.property == property)
                return {measured(checked.judgement), retest.taken_on};
    return {};
}

/// Of the newest figure that stands on a bar; empty: there is none.
std::string own_day(const app::LotSheet& sheet, Day today) {
    std::optional<Day> newest;
    for (const auto& checked : sheet.windows)
        if (const auto day = own_of(sheet, checked.judgement.window.property).taken_on)
            newest = std::max(newest, day);
    return newest ? short_day_near(*newest, today) : std::string();
}

std::vector<ui::SpecificationRow> rows_of(const app::LotSheet& sheet) {
    std::vector<ui::SpecificationRow> rows;
    for (const auto& checked : sheet.windows) {
        const auto property = checked.judgement.window.property;
        const auto& kind = traits(property);
        rows.push_back({.label = kind.name,
                        .unit = kind.unit,
                        .decimals = kind.decimals,
                        .low = checked.low,
                        .high = checked.high,
                        .mill = measured(checked.judgement),
                        .own = own_of(sheet, property).measured});
    }
    return rows;
}

void bars(const app::LotSheet& sheet, Day today) {
    if (sheet.windows.empty()) {
        ui::hint("The flour has no specification yet: nothing to compare with.");
        return;
    }
    const auto rows = rows_of(sheet);
    const auto mill_day = sheet.certified_on ? short_day_near(*sheet.certified_on, today) : std::string();
    const auto newest = own_day(sheet, today);
    ui::specification_bars(
        {.mill_day = mill_day, .own_day = newest, .basis = "All on 14 % moisture", .rows = rows});
    for (const auto& row : rows)
        for (const auto* one : {&row.mill, &row.own})
            if (!one->words.empty())
                ui::hint(fmt::format("{}: {}", row.label, one->words));
}

/// What each result says and of which sample it is; retests can be withdrawn here.
void every_result(LotsView& view, const app::LotSheet& sheet, const app::ReadinessModel& readiness) {
    if (!view.shows_every_result) {
        view.shows_every_result = ui::button("Show every result", {.kind = ui::ButtonKind::quiet});
        return;
    }
    if (ui::button("Hide every result", {.kind = ui::ButtonKind::quiet}))
        view.shows_every_result = false;
    draw_findings(sheet.results);
    draw_findings(app::findings_of(sheet.agreements));
    ui::rule();
    if (readiness.opened && readiness.opened->lot == sheet.row.id)
        ui::scope("Results", [&] { draw_results(readiness.opened->tests, view.withdrawing); });
}

void fits(const app::LotSheet& sheet) {
    if (sheet.fits.empty())
        return;
    ui::part("In its products");
    for (const auto& words : sheet.fits)
        ui::status(words.find(": inside") != std::string::npos ? Role::ink : Role::mind, words);
    ui::gap(2);
}

/// What the plant's own plan asks for; and the way to what is known of the mill.
void own_test_and_mill(const app::LotSheet& sheet, app::Intents& out) {
    const auto& advice = sheet.own_test;
    if (!advice.words.empty()) {
        ui::status(advice.is_due ? Role::mind : Role::ink, advice.words);
        ui::hint(fmt::format(
            "By your plan of own tests{}. It releases nothing and lifts no hold; quality may test "
            "any lot.",
            advice.source.empty() ? "" : ", " + advice.source));
    }
    if (sheet.mill.is_known() && ui::button("Record of this mill", {.kind = ui::ButtonKind::quiet}))
        out.emplace_back(app::ShowMillRecord{sheet.mill, "", "", 0});
}

} // namespace

void draw_certificate(LotsView& view, const app::LotSheet& sheet, const app::ReadinessModel& readiness,
                      const app::Notice& notice, app::Intents& out) {
    bars(sheet, readiness.today);
    ui::paragraph(fmt::format("Added by the mill: {}", sheet.row.mill_additions.empty()
                                                           ? std::string("nothing")
                                                           : sheet.row.mill_additions),
                  {.role = sheet.row.mill_additions.empty() ? Role::quiet : Role::ink});
    if (!sheet.agreements.empty()) {
        ui::part("Retests against the certificate");
        draw_agreements(sheet);
        ui::gap(2);
    }
    own_test_and_mill(sheet, out);
    draw_source(view.saving, sheet, notice, out);
    draw(view.retest, {sheet.row.id, sheet.row.code, sheet.row.changed}, readiness, notice, out);
    ui::gap(2);
    ui::part("At the door");
    draw_door(sheet);
    draw_arrival(view, sheet);
    ui::gap(2);
    fits(sheet);
    every_result(view, sheet, readiness);
}

} // namespace mellowbin::views
