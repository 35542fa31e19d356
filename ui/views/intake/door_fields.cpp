#include "ui/views/common/words.h"
#include "ui/views/intake/door.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

constexpr std::array answers{DoorAnswer::yes, DoorAnswer::no, DoorAnswer::not_looked_at};

void answer_row(DoorQuestion& check) {
    std::array<std::string_view, answers.size()> names;
    int chosen = -1;
    for (std::size_t i = 0; i < answers.size(); ++i) {
        names[i] = name_of(answers[i]);
        if (check.answer == names[i])
            chosen = static_cast<int>(i);
    }
    constexpr ui::Length boxes = 16_em;
    const ui::Length words{std::max(8.0F, ui::width_left().ems - boxes.ems)};
    ui::form_row({.label = check.question, .label_width = words, .box_width = boxes}, [&] {
        if (ui::choice({.label = check.question, .label_place = ui::LabelPlace::hidden}, names, chosen))
            check.answer = names[static_cast<std::size_t>(chosen)];
    });
}

/// Which lot the finding is about: a place in the delivery, 0 for all.
void lot_choice(DoorFinding& finding, const Delivery& delivery) {
    std::vector<std::string> names{"all lots"};
    int chosen = 0;
    for (const auto& line : delivery.lines()) {
        if (line.number == finding.line)
            chosen = static_cast<int>(names.size());
        names.push_back(name_of(delivery, line));
    }
    // Never side by side: it would jump when the fourth lot is there.
    if (ui::choice({.label = "Lot", .width = 8_em, .label_place = ui::LabelPlace::hidden}, names, chosen))
        finding.line = chosen == 0 ? 0 : delivery.lines()[static_cast<std::size_t>(chosen) - 1].number;
}

/// The refusals of a finding, with the field as it stands on the screen.
Refusals of_finding(const DoorForm& door, const DoorQuestion& check, const DoorFinding& finding,
                    const Delivery& delivery) {
    const auto* line = finding.line == 0 ? nullptr : delivery.find(finding.line);
    const auto own = door_field(check.question, line ? name_of(delivery, *line) : std::string());
    Refusals refusals;
    for (const auto& refusal : door.refusals) {
        if (refusal.field == own)
            refusals.push_back({"", refusal.what, refusal.remedy});
        else if (refusal.field.starts_with(own + ": "))
            refusals.push_back({refusal.field.substr(own.size() + 2), refusal.what, refusal.remedy});
    }
    return refusals;
}

void finding_fields(DoorForm& door, DoorQuestion& check, DoorFinding& finding, const Delivery& delivery) {
    const auto refusals = of_finding(door, check, finding, delivery);
    ui::flow([&] {
        if (delivery.lines().size() > 1 && check.answer == name_of(DoorAnswer::no))
            lot_choice(finding, delivery);
        ui::number_field({.label = "Bags",
                          .unit = "bags",
                          .hint = "all",
                          .width = 4_em,
                          .label_place = ui::LabelPlace::hidden},
                         finding.bags);
        ui::text_field(
            {.label = "Note", .hint = "what was seen", .width = 13_em, .label_place = ui::LabelPlace::hidden},
            finding.note);
    });
    ui::all_refusals(refusals);
}

std::int64_t first_not_named(const DoorQuestion& check, const Delivery& delivery) {
    for (const auto& line : delivery.lines())
        if (std::none_of(check.findings.begin(), check.findings.end(),
                         [&](const DoorFinding& one) { return one.line == line.number; }))
            return line.number;
    return 0;
}

void findings_of(DoorForm& door, DoorQuestion& check, const Delivery& delivery) {
    for (std::size_t i = 0; i < check.findings.size(); ++i) {
        const auto fields = [&] { finding_fields(door, check, check.findings[i], delivery); };
        if (i == 0)
            fields();
        else
            ui::scope(static_cast<std::int64_t>(i), fields);
    }
    const bool all_name_a_lot = std::all_of(check.findings.begin(), check.findings.end(),
                                            [](const DoorFinding& one) { return one.line != 0; });
    if (all_name_a_lot && check.findings.size() < delivery.lines().size() &&
        ui::button("Another lot, too", {.kind = ui::ButtonKind::quiet}))
        check.findings.push_back({first_not_named(check, delivery), "", ""});
}

void check_fields(DoorForm& door, DoorQuestion& check, const Delivery& delivery) {
    answer_row(check);
    const auto& first = check.findings.front();
    const bool has_note = !first.note.empty() || !first.bags.empty();
    if (!door.shows_all_notes && !has_note && check.answer != name_of(DoorAnswer::no))
        return;
    ui::scope(check.question, [&] {
        if (check.answer == name_of(DoorAnswer::no))
            findings_of(door, check, delivery);
        else
            finding_fields(door, check, check.findings.front(), delivery);
    });
}

} // namespace

void draw(DoorForm& door, const Delivery& delivery) {
    const auto lots = delivery.filled().size();
    ui::flow([&] {
        ui::text(at_the_door, {.size = ui::TextSize::heading, .weight = ui::Weight::bold});
        if (lots > 1)
            ui::text(fmt::format("all {} lots; a \"no\" holds those it names", lots),
                     {.role = ui::Role::quiet});
        else
            ui::text("a \"no\" holds the lot", {.role = ui::Role::quiet});
        if (!door.shows_all_notes && ui::button("Add notes", {.kind = ui::ButtonKind::quiet}))
            door.shows_all_notes = true;
    });
    for (auto& check : door.checks)
        check_fields(door, check, delivery);
}

} // namespace mellowbin::views
