#include "ui/views/mixer/verdict.h"

#include "app/acts/notice.h"
#include "app/acts/scans.h"
#include "app/models/card.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

namespace mellowbin::views {

using namespace ui;

namespace {

using Ruling = app::CardVerdict::Ruling;

Role role_of(Ruling ruling) {
    static constexpr std::array roles{Role::good, Role::mind, Role::stop};
    return roles[static_cast<std::size_t>(ruling)];
}

std::string in_capitals(std::string words) {
    std::transform(words.begin(), words.end(), words.begin(),
                   [](unsigned char letter) { return static_cast<char>(std::toupper(letter)); });
    return words;
}

/// What lifts the first of them, and that there are more.
std::string then_words(const app::CardVerdict& verdict) {
    const auto& reasons = verdict.reasons;
    if (reasons.size() == 1)
        return reasons.front().lifted_by;
    return fmt::format("And {} more: see Why. {}", reasons.size() - 1, reasons.front().lifted_by);
}

} // namespace

void draw_strip(const app::CardModel& card) {
    const auto& verdict = card.verdict;
    if (!card.refusals.empty()) {
        const auto& first = card.refusals.front();
        verdict_strip({.role = Role::stop,
                       .word = "DO NOT MIX",
                       .first = fmt::format("No card can be given: {}: {}", first.field, first.what),
                       .then = first.remedy});
        return;
    }
    if (verdict.reasons.empty()) {
        verdict_strip({.role = role_of(verdict.ruling),
                       .word = in_capitals(verdict.words),
                       .first = "Nothing stands against this batch."});
        return;
    }
    verdict_strip({.role = role_of(verdict.ruling),
                   .word = in_capitals(verdict.words),
                   .first = verdict.reasons.front().words,
                   .then = then_words(verdict)});
}

void draw_answer(const app::CardModel& card, const Refusals& refusals, std::string& answer,
                 std::optional<ClearBagsQuestion>& clearing) {
    if (card.verdict.ruling == Ruling::answer_first)
        text_field({.label = "Reason",
                    .hint = "why it is mixed all the same",
                    .refusals = &refusals,
                    .width = grown_with_window(520),
                    .label_place = LabelPlace::left,
                    .enter = Enter::entered},
                   answer);
    if (card.has_wrong_bag && button("Quality clears it", {.kind = ButtonKind::stop}))
        clearing = ClearBagsQuestion{card.run, {}, {}, {}};
}

void draw_reasons(const app::CardVerdict& verdict) {
    if (verdict.reasons.empty())
        return;
    panel("What stands against this batch", [&] {
        for (const auto& reason : verdict.reasons) {
            const Role role = reason.is_stop ? Role::stop : Role::mind;
            paragraph(fmt::format("{} {}", sign(role), reason.words),
                      {.size = TextSize::heading, .role = role});
            paragraph(fmt::format("{}. ({})", reason.lifted_by, reason.source), {.role = Role::quiet});
            gap();
        }
    });
}

void draw(std::optional<ClearBagsQuestion>& question, const app::Notice& notice, app::Intents& out) {
    if (!question)
        return;
    if (question->asked.is_done(notice)) {
        question.reset();
        return;
    }
    if (notice.kind == app::Notice::Kind::failed)
        return; // the failure stands in front; the question comes back with what was typed
    const auto& refusals = question->asked.refusals;
    const auto chosen = ask(
        {.title = "Did nothing of the wrong bag go in?",
         .harmless = "Leave the stop",
         .deed = "Quality clears it",
         .deed_kind = ButtonKind::stop},
        [&] {
            paragraph(
                "Quality staff look at the bowl and the bag. The name and the reason stay in the journal. If "
                "any of it was tipped, keep the dough back instead.");
            text_field({.label = "Cleared by", .hint = "somebody of quality", .refusals = &refusals},
                       question->by);
            text_field({.label = "Reason", .refusals = &refusals}, question->reason);
            all_refusals(all_but(refusals, {"Cleared by", "Reason"}));
        });
    if (chosen == Answer::harmless) {
        question.reset();
    } else if (chosen == Answer::deed && !question->asked.is_waiting()) {
        question->asked.ask(notice);
        out.emplace_back(app::ClearBags{question->run, question->by, question->reason});
    }
}

} // namespace mellowbin::views
