#include "ui/views/mixer/log.h"

#include "app/acts/batches.h"
#include "app/acts/notice.h"
#include "app/models/card.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

namespace mellowbin::views {

using namespace ui;

namespace {

void draw_acts(BatchLog& log, ResultForm& result, const app::BatchRow& row) {
    large([&] {
        flow([&] {
            if (button("What came of it"))
                result.open_for(row.id, row.result);
            if (!button("It was not so", {.kind = ButtonKind::stop}))
                return;
            log.question.emplace();
            log.question->batch = row.id;
            log.question->words = fmt::format("Batch {}: {}", row.number, row.words);
        });
    });
}

void draw_row(BatchLog& log, ResultForm& result, const app::BatchRow& row) {
    const Role role = row.is_countered ? Role::quiet : Role::ink;
    const auto body = [&] {
        flow([&] {
            text(fmt::format("Batch {}", row.number),
                 {.size = TextSize::figure, .role = role, .weight = Weight::bold});
            text(fmt::format("{}, {}", row.at, row.who), {.size = TextSize::heading, .role = Role::quiet});
            if (row.is_countered)
                badge(Role::stop, "countered");
        });
        paragraph(row.words, {.size = TextSize::heading, .role = role});
        if (!row.result_words.empty())
            paragraph("Came out: " + row.result_words, {.size = TextSize::heading, .role = role});
        else if (!row.is_countered)
            paragraph("Nobody has said yet what came of it.",
                      {.size = TextSize::heading, .role = Role::quiet});
        if (!row.is_countered)
            draw_acts(log, result, row);
    };
    panel({}, [&] { scope(row.id.number(), body); });
}

} // namespace

void draw(BatchLog& log, ResultForm& result, const app::CardModel& card) {
    scroll_area("Logged", {}, [&] {
        if (card.logged.empty())
            panel("No batch of this run is in yet",
                  [] { hint("A batch stands here once it was confirmed on its card."); });
        for (const auto& row : card.logged)
            draw_row(log, result, row);
    });
}

void draw(std::optional<CounterQuestion>& question, const app::Notice& notice, app::Intents& out) {
    if (!question)
        return;
    if (question->asked.is_done(notice)) {
        question.reset();
        return;
    }
    if (notice.kind == app::Notice::Kind::failed)
        return; // the failure stands in front; the question comes back with what was typed
    const auto& refusals = question->asked.refusals;
    const auto chosen = ask({.title = "Was this batch not so?",
                             .harmless = "Keep it",
                             .deed = "It was not so",
                             .deed_kind = ButtonKind::stop},
                            [&] {
                                paragraph(question->words, {.weight = Weight::bold});
                                paragraph("Its flour goes back into the stock, and nothing is learned from "
                                          "it. Both lines stay in the book.");
                                text_field({.label = "Reason", .refusals = &refusals}, question->reason);
                                all_refusals(all_but(refusals, {"Reason"}));
                            });
    if (chosen == Answer::harmless) {
        question.reset();
    } else if (chosen == Answer::deed && !question->asked.is_waiting()) {
        question->asked.ask(notice);
        out.emplace_back(app::CounterBatch{question->batch, question->reason});
    }
}

} // namespace mellowbin::views
