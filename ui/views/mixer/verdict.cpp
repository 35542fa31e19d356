#include "ui/views/mixer/verdict.h"

#include "app/acts/notice.h"
#include "app/acts/scans.h"
#include "app/models/card.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <array>

namespace mellowbin::views {

using namespace ui;

namespace {

using Ruling = app::CardVerdict::Ruling;

/// Words that stand beside the field for the answer, where there is room: ems, and characters.
constexpr float wide = 60;
constexpr std::size_t short_words = 64;

void draw_stop(const app::CardModel& card, std::optional<ClearBagsQuestion>& clearing) {
    paragraph(fmt::format("{} {}", sign(Role::stop), card.verdict.words),
              {.size = TextSize::key_figure, .role = Role::stop});
    for (const auto& reason : card.verdict.reasons) {
        if (!reason.is_stop)
            continue;
        paragraph(reason.words, {.size = TextSize::heading, .role = Role::stop});
        paragraph(fmt::format("{}. ({})", reason.lifted_by, reason.source), {.role = Role::quiet});
    }
    if (card.has_wrong_bag && button("Quality clears it", {.kind = ButtonKind::stop}))
        clearing = ClearBagsQuestion{card.run, {}, {}, {}};
}

/// In as few lines as can be, so that lots and water stay in view: what is asked, and the field for the
/// answer.
void draw_question(const app::CardVerdict& verdict, const Refusals& refusals, std::string& answer) {
    flow([&] {
        for (const auto& reason : verdict.reasons) {
            const auto words = fmt::format("{} {}", sign(Role::mind), reason.words);
            const TextStyle style{.size = TextSize::heading, .role = Role::mind};
            if (words.size() <= short_words && width_left().ems >= wide)
                text(words, style);
            else
                paragraph(words, style);
        }
        text_field({.label = "Reason",
                    .hint = "why it is mixed all the same",
                    .refusals = &refusals,
                    .width = 24_em,
                    .label_place = LabelPlace::left,
                    .enter = Enter::entered},
                   answer);
    });
}

} // namespace

void draw_ruling(const app::CardVerdict& verdict) {
    static constexpr std::array roles{Role::good, Role::mind, Role::stop};
    badge(roles[static_cast<std::size_t>(verdict.ruling)], verdict.words);
}

void draw_verdict(const app::CardModel& card, const Refusals& refusals, std::string& answer,
                  std::optional<ClearBagsQuestion>& clearing) {
    switch (card.verdict.ruling) {
    case Ruling::mix:
        break; // said beside the batch
    case Ruling::answer_first:
        loud_panel(Role::mind, {}, [&] { draw_question(card.verdict, refusals, answer); });
        break;
    case Ruling::do_not_mix:
        loud_panel(Role::stop, {}, [&] { draw_stop(card, clearing); });
        break;
    }
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
