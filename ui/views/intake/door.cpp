#include "ui/views/intake/door.h"

#include "core/typed_text.h"
#include "ui/views/common/words.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {
namespace {

std::string not_looked_at() { return std::string(name_of(DoorAnswer::not_looked_at)); }
bool is_no(const DoorQuestion& check) { return check.answer == name_of(DoorAnswer::no); }

bool are_of_all(const DoorQuestion& check) {
    return !is_no(check) || std::any_of(check.findings.begin(), check.findings.end(),
                                        [](const DoorFinding& one) { return one.line == 0; });
}

bool holds(const std::vector<std::int64_t>& numbers, std::int64_t number) {
    return std::find(numbers.begin(), numbers.end(), number) != numbers.end();
}

void add_drafts(const DoorQuestion& check, const Delivery& delivery, const std::vector<std::int64_t>& numbers,
                std::vector<DoorCheckDraft>& drafts) {
    if (!are_of_all(check))
        drafts.push_back({check.question, std::string(name_of(DoorAnswer::yes)), "", ""});
    for (const auto& one : check.findings) {
        const auto* line = one.line == 0 ? nullptr : delivery.find(one.line);
        if (one.line == 0 || !is_no(check))
            drafts.push_back({check.question, check.answer, one.bags, one.note});
        else if (line && holds(numbers, one.line))
            drafts.push_back({check.question, check.answer, one.bags, one.note, name_of(delivery, *line)});
        if (!is_no(check))
            return; // what was typed of lots before is kept, and says nothing now
    }
}

/// "2 bags, torn by the fork"; without either, what was asked.
std::string in_words(const DoorQuestion& check, const DoorFinding& one) {
    std::string words(trimmed(one.bags));
    if (!words.empty())
        words += words == "1" ? " bag" : " bags";
    if (const auto note = trimmed(one.note); !note.empty())
        words += (words.empty() ? "" : ", ") + std::string(note);
    return words.empty() ? check.question + ": no" : words;
}

} // namespace

void DoorForm::ask(const std::vector<std::string>& questions) {
    const auto same = [](const auto& check, const std::string& words) { return check.question == words; };
    if (std::equal(checks.begin(), checks.end(), questions.begin(), questions.end(), same))
        return;
    std::vector<DoorQuestion> asked;
    for (const auto& question : questions) {
        const auto before = std::find_if(checks.begin(), checks.end(),
                                         [&](const auto& check) { return check.question == question; });
        asked.push_back(before == checks.end() ? DoorQuestion{question, not_looked_at()} : *before);
    }
    checks = std::move(asked);
}

void DoorForm::follow(const Delivery& delivery) {
    for (auto& check : checks) {
        const auto gone = std::erase_if(check.findings, [&](const DoorFinding& one) {
            return one.line != 0 && !delivery.find(one.line);
        });
        if (!check.findings.empty())
            continue;
        check.findings = {DoorFinding()};
        if (gone > 0 && is_no(check))
            check.answer = name_of(DoorAnswer::yes); // of the lots that stay
    }
}

void DoorForm::check(const Delivery& delivery) {
    std::vector<std::string> questions;
    for (const auto& one : checks)
        questions.push_back(one.question);
    std::vector<std::string> lots;
    std::vector<std::int64_t> numbers;
    for (const auto& line : delivery.lines()) {
        lots.push_back(name_of(delivery, line));
        numbers.push_back(line.number);
    }
    const auto read = accept(drafts_of(delivery, numbers), questions, lots);
    refusals = read ? Refusals{} : read.refusals();
}

void DoorForm::empty() {
    for (auto& check : checks)
        check = {check.question, not_looked_at()};
    refusals.clear();
}

std::vector<DoorCheckDraft> DoorForm::drafts_of(const Delivery& delivery,
                                                const std::vector<std::int64_t>& numbers) const {
    std::vector<DoorCheckDraft> drafts;
    for (const auto& check : checks)
        add_drafts(check, delivery, numbers, drafts);
    return drafts;
}

std::string DoorForm::hold_of(const DeliveryLine& line) const {
    for (const auto& check : checks)
        for (const auto& one : check.findings)
            if (is_no(check) && (one.line == 0 || one.line == line.number))
                return in_words(check, one);
    return {};
}

bool DoorForm::is_refused(const Delivery& delivery, const DeliveryLine& line) const {
    const auto names = [&](const Refusal& refusal, const DeliveryLine& lot) {
        return std::any_of(checks.begin(), checks.end(), [&](const DoorQuestion& check) {
            const auto own = door_field(check.question, name_of(delivery, lot));
            return refusal.field == own || refusal.field.starts_with(own + ": ");
        });
    };
    return std::any_of(refusals.begin(), refusals.end(), [&](const Refusal& refusal) {
        return names(refusal, line) ||
               std::none_of(delivery.lines().begin(), delivery.lines().end(),
                            [&](const DeliveryLine& other) { return names(refusal, other); });
    });
}

} // namespace mellowbin::views
