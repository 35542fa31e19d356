#include "core/door.h"

#include "core/counted.h"
#include "core/draft_reader.h"
#include "core/specification.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace mellowbin {
namespace {

constexpr double most_bags = 100'000; // some 2,500 tonnes: more is a weight in the wrong field

/// The one question that begins with the words; nothing, and a refusal, where it is none or several.
std::optional<std::size_t> question_meant(std::string_view typed, std::span<const std::string> questions,
                                          DraftReader& reader) {
    const std::string words = lower_case(trimmed(typed));
    std::vector<std::size_t> meant;
    for (std::size_t i = 0; i < questions.size(); ++i)
        if (!words.empty() && lower_case(questions[i]).starts_with(words))
            meant.push_back(i);
    if (meant.size() == 1)
        return meant.front();
    std::string names;
    for (const auto& question : questions)
        names += (names.empty() ? "" : "; ") + question;
    reader.refuse(at_the_door,
                  words.empty()      ? std::string("a check without its question was read")
                  : meant.size() > 1 ? fmt::format("\"{}\" begins more than one question", excerpt(typed))
                                     : fmt::format("\"{}\" is none of the questions", excerpt(typed)),
                  "Choose one of: " + names);
    return {};
}

std::optional<DoorAnswer> answer_meant(std::string_view typed) {
    const auto words = trimmed(typed);
    for (const auto answer : {DoorAnswer::not_looked_at, DoorAnswer::yes, DoorAnswer::no})
        if (same_words(words, name_of(answer)) || words == key_of(answer))
            return answer;
    return words.empty() ? std::optional(DoorAnswer::not_looked_at) : std::nullopt;
}

int bags_of(const std::string& field, std::string_view typed, DraftReader& reader) {
    const auto read = reader.number(field, typed, {1, most_bags, "bags"});
    if (read && *read != std::floor(*read))
        reader.refuse(field, fmt::format("{:g} was read; a whole number is expected", *read),
                      "Count the bags");
    return static_cast<int>(read.value_or(0));
}

DoorCheck read_check(const DoorCheckDraft& draft, const std::string& question, DraftReader& reader) {
    DoorCheck check;
    check.question = question;
    const auto own = door_field(question, trimmed(draft.lot));
    const auto answer = answer_meant(draft.answer);
    if (!answer)
        reader.refuse(
            own, fmt::format("\"{}\" was read; yes, no or not looked at is expected", excerpt(draft.answer)),
            "Answer it in one of these words");
    check.answer = answer.value_or(DoorAnswer::not_looked_at);
    check.bags = bags_of(door_field(question, trimmed(draft.lot), "Bags"), draft.bags, reader);
    check.note = trimmed(draft.note);
    if (answer == DoorAnswer::not_looked_at && check.bags > 0)
        reader.refuse(own, fmt::format("{} bags were read of a check that nobody answered", check.bags),
                      "Answer it yes or no");
    return check;
}

bool is_of_delivery(std::string_view lot, std::span<const std::string> lots) {
    return std::any_of(lots.begin(), lots.end(), [&](const auto& one) { return trimmed(one) == lot; });
}

void refuse_stranger(const std::string& question, std::string_view lot, std::span<const std::string> lots,
                     DraftReader& reader) {
    std::string names;
    for (const auto& one : lots)
        names += (names.empty() ? "" : ", ") + std::string(trimmed(one));
    reader.refuse(door_field(question, lot), fmt::format("\"{}\" is no lot of this delivery", excerpt(lot)),
                  "Name one of: " + names);
}

/// What was answered to each question, by the lot it is about; "" is the whole delivery.
using Answers = std::map<std::string, std::map<std::size_t, DoorCheck>, std::less<>>;

Answers read_answers(std::span<const DoorCheckDraft> drafts, std::span<const std::string> questions,
                     std::span<const std::string> lots, DraftReader& reader) {
    Answers answers;
    for (const auto& draft : drafts) {
        const auto at = question_meant(draft.question, questions, reader);
        if (!at)
            continue;
        const std::string lot(trimmed(draft.lot));
        if (!lot.empty() && !is_of_delivery(lot, lots))
            refuse_stranger(questions[*at], lot, lots, reader);
        else if (answers[lot].contains(*at))
            reader.refuse(door_field(questions[*at], lot), "stands twice", "Answer it once");
        else
            answers[lot][*at] = read_check(draft, questions[*at], reader);
    }
    return answers;
}

std::vector<DoorCheck> checks_of(const Answers& answers, const std::string& lot,
                                 std::span<const std::string> questions) {
    std::vector<DoorCheck> checks;
    for (const auto& question : questions)
        checks.push_back({question, DoorAnswer::not_looked_at, "", 0});
    for (const std::string& whose : {std::string(), lot})
        if (const auto own = answers.find(whose); own != answers.end())
            for (const auto& [at, check] : own->second)
                checks[at] = check;
    return checks;
}

Refusal doubt(std::string_view field, std::string what) {
    return {std::string(field), std::move(what),
            "Correct it, send the flour back, or say why it is taken in"};
}

void doubt_moisture(const Lot& lot, const IntakeContext& context, Refusals& doubts) {
    const auto flour = std::find_if(context.flours.begin(), context.flours.end(),
                                    [&](const Flour& one) { return one.id == lot.flour; });
    if (flour == context.flours.end())
        return;
    for (const auto& judgement : judge(lot.certificate, flour->specification))
        if (judgement.window.property == Property::moisture && judgement.verdict == Verdict::above)
            doubts.push_back(
                doubt(traits(Property::moisture).name, judgement.words + ": over the flour's specification"));
}

} // namespace

std::string door_field(std::string_view question, std::string_view lot, std::string_view part) {
    return fmt::format("{}: {}{}{}{}{}", at_the_door, question, lot.empty() ? "" : ", lot ", lot,
                       part.empty() ? "" : ": ", part);
}

Result<DoorOfLots> accept(std::span<const DoorCheckDraft> drafts, std::span<const std::string> questions,
                          std::span<const std::string> lots) {
    DraftReader reader;
    const auto answers = read_answers(drafts, questions, lots, reader);
    if (!reader.refusals.empty())
        return reader.refusals;
    DoorOfLots door;
    for (const auto& lot : lots) {
        const std::string number(trimmed(lot));
        door[number] = drafts.empty() ? std::vector<DoorCheck>{} : checks_of(answers, number, questions);
    }
    return door;
}

std::string in_words(const DoorCheck& check) {
    std::string words = fmt::format("{}: {}", check.question, lower_case(name_of(check.answer)));
    if (check.bags > 0)
        words += ", " + counted(check.bags, "bag", "bags");
    if (!check.note.empty())
        words += ", " + check.note;
    return words;
}

std::string in_words(const std::vector<DoorCheck>& checks) {
    std::string words;
    const auto add = [&](const std::string& more) { words += (words.empty() ? "" : "; ") + more; };
    int yes = 0;
    int not_looked_at = 0;
    for (const auto& check : checks) {
        const bool says_no_more = check.note.empty() && check.bags == 0;
        if (check.answer == DoorAnswer::no || !says_no_more)
            add(in_words(check));
        else
            ++(check.answer == DoorAnswer::yes ? yes : not_looked_at);
    }
    if (yes > 0)
        add(fmt::format("{} yes", yes));
    if (not_looked_at > 0)
        add(fmt::format("{} not looked at", not_looked_at));
    return words.empty() ? words : fmt::format("{}: {}", at_the_door, words);
}

void check_at_door(Lot& lot, std::vector<DoorCheck> checks) {
    std::string noes;
    for (const auto& check : checks)
        if (check.answer == DoorAnswer::no)
            noes += (noes.empty() ? "" : "; ") + in_words(check);
    lot.door = std::move(checks);
    if (noes.empty())
        return;
    lot.state = LotState::held;
    lot.state_reason = fmt::format("{}: {}", at_the_door, noes);
}

Refusals what_stands_against(const Lot& lot, const IntakeContext& context) {
    Refusals doubts;
    if (lot.best_before && *lot.best_before < context.today)
        doubts.push_back(doubt("Best before", fmt::format("{} was read, which is over: today is {}",
                                                          iso(*lot.best_before), iso(context.today))));
    if (lot.certified_on && lot.milled_on && *lot.certified_on < *lot.milled_on)
        doubts.push_back(doubt("Certificate date",
                               fmt::format("{} was read: the certificate is older than the milling on {}",
                                           iso(*lot.certified_on), iso(*lot.milled_on))));
    if (lot.delivered_at && *lot.delivered_at >= context.warm_from)
        doubts.push_back(
            doubt("Flour temperature", fmt::format("{} was read: the flour came warm, {} or more",
                                                   context.units.with_unit(*lot.delivered_at),
                                                   context.units.with_unit(context.warm_from))));
    doubt_moisture(lot, context, doubts);
    return doubts;
}

} // namespace mellowbin
