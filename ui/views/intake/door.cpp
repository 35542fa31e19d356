#include "ui/views/intake/door.h"

#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

constexpr std::array answers{DoorAnswer::yes, DoorAnswer::no, DoorAnswer::not_looked_at};

/// The refusals of a check, with what is left of their fields behind its name; "" names the check itself.
Refusals of_check(const DoorForm& door, const std::string& question) {
    const auto own = fmt::format("{}: {}", at_the_door, question);
    Refusals refusals;
    for (const auto& refusal : door.refusals) {
        if (refusal.field == own)
            refusals.push_back({question, refusal.what, refusal.remedy});
        else if (refusal.field.starts_with(own + ": "))
            refusals.push_back({refusal.field.substr(own.size() + 2), refusal.what, refusal.remedy});
    }
    return refusals;
}

void answer_field(DoorCheckDraft& check, const Refusals& refusals) {
    std::array<std::string_view, answers.size()> names;
    int chosen = -1;
    for (std::size_t i = 0; i < answers.size(); ++i) {
        names[i] = name_of(answers[i]);
        if (check.answer == names[i])
            chosen = static_cast<int>(i);
    }
    if (ui::choice({.label = check.question, .refusals = &refusals}, names, chosen))
        check.answer = names[static_cast<std::size_t>(chosen)];
}

void check_fields(DoorForm& door, DoorCheckDraft& check) {
    const auto refusals = of_check(door, check.question);
    answer_field(check, refusals);
    const bool has_note = !check.note.empty() || !check.bags.empty();
    if (!door.shows_all_notes && !has_note && check.answer != name_of(DoorAnswer::no))
        return;
    ui::scope(check.question, [&] {
        ui::flow([&] {
            ui::number_field({.label = "Bags", .hint = "all", .refusals = &refusals, .width = 5_em},
                             check.bags);
            ui::text_field({.label = "Note", .refusals = &refusals, .width = 14_em}, check.note);
        });
    });
}

/// Of no question that is asked.
Refusals others(const DoorForm& door) {
    Refusals left;
    for (const auto& refusal : door.refusals)
        if (refusal.field == at_the_door)
            left.push_back(refusal);
    return left;
}

} // namespace

void DoorForm::ask(const std::vector<std::string>& questions) {
    const auto same = [](const auto& check, const std::string& words) { return check.question == words; };
    if (std::equal(checks.begin(), checks.end(), questions.begin(), questions.end(), same))
        return;
    std::vector<DoorCheckDraft> asked;
    for (const auto& question : questions) {
        const auto before = std::find_if(checks.begin(), checks.end(),
                                         [&](const auto& check) { return check.question == question; });
        asked.push_back(
            before == checks.end()
                ? DoorCheckDraft{question, std::string(name_of(DoorAnswer::not_looked_at)), "", ""}
                : *before);
    }
    checks = std::move(asked);
}

Refusals DoorForm::take_refusals(const Refusals& all) {
    refusals.clear();
    Refusals left;
    for (const auto& refusal : all)
        (refusal.field.starts_with(at_the_door) ? refusals : left).push_back(refusal);
    return left;
}

void DoorForm::empty() {
    for (auto& check : checks)
        check = {check.question, std::string(name_of(DoorAnswer::not_looked_at)), "", ""};
    refusals.clear();
}

void draw(DoorForm& door) {
    ui::panel(at_the_door, [&] {
        ui::hint("Of the whole delivery. A \"no\" holds its lots until quality has looked.");
        for (auto& check : door.checks)
            check_fields(door, check);
        ui::all_refusals(others(door));
        if (!door.shows_all_notes && ui::button("Add notes", {.kind = ui::ButtonKind::quiet}))
            door.shows_all_notes = true;
    });
}

} // namespace mellowbin::views
