#include "ui/views/common/take_back.h"

#include "app/acts/bakes.h"
#include "app/acts/climate.h"
#include "app/acts/keeping.h"
#include "app/acts/mills.h"
#include "app/acts/notice.h"
#include "app/acts/retests.h"
#include "app/acts/trace.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

namespace mellowbin::views {
namespace {

struct Words {
    std::string_view title, harmless, deed, meaning;
};

constexpr Words of_retest{"Withdraw this retest?", "Keep it", "Withdraw retest",
                          "Its results no longer count as evidence on the lot. Both lines stay in the book."};
constexpr Words of_log{"Take this logger's file back?", "Keep it", "Take back",
                       "The place's assumed climate holds again for the time it measured. Both lines stay in "
                       "the book."};

constexpr Words of_bake{
    "Withdraw this loaf?", "Keep it", "Withdraw loaf",
    "It no longer counts for the dose that the lot asks for. Both lines stay in the book."};
constexpr Words of_keeping{"Withdraw this record?", "Keep it", "Withdraw record",
                           "It no longer counts in what the site knows of its bread. Both lines stay in the "
                           "book."};

constexpr Words of_complaint{"Withdraw this complaint?", "Keep it", "Withdraw complaint",
                             "It no longer counts in the mill's record. Both lines stay in the book."};
constexpr Words of_answer{"Take this answer back?", "Keep it", "Take back",
                          "The complaint is open again. Both lines stay in the book."};

constexpr Words of_dispatch{"Did this not leave?", "It left", "Take dispatch back",
                            "Traces no longer go to the customer by it. Both lines stay in the book."};

const Words& words_of(RetestId) { return of_retest; }
const Words& words_of(ClimateLogId) { return of_log; }
const Words& words_of(BakeId) { return of_bake; }
const Words& words_of(KeepingId) { return of_keeping; }
const Words& words_of(ComplaintId) { return of_complaint; }
const Words& words_of(AnsweredId) { return of_answer; }
const Words& words_of(DispatchId) { return of_dispatch; }

app::Intent withdrawal(RetestId id, const std::string& reason) { return app::WithdrawRetest{id, reason}; }
app::Intent withdrawal(ClimateLogId id, const std::string& reason) {
    return app::WithdrawClimateLog{id, reason};
}
app::Intent withdrawal(BakeId id, const std::string& reason) { return app::WithdrawBake{id, reason}; }
app::Intent withdrawal(KeepingId id, const std::string& reason) { return app::WithdrawKeeping{id, reason}; }
app::Intent withdrawal(ComplaintId id, const std::string& reason) {
    return app::WithdrawComplaint{id, reason};
}
app::Intent withdrawal(AnsweredId id, const std::string& reason) {
    return app::TakeBackAnswer{ComplaintId{id.number()}, reason};
}

app::Intent withdrawal(DispatchId id, const std::string& reason) { return app::CounterDispatch{id, reason}; }

app::Intent intent_of(const TakeBack& question) {
    return std::visit([&](auto id) { return withdrawal(id, question.reason); }, question.what);
}

void body(TakeBack& question, const Words& words) {
    ui::paragraph(question.words, {.weight = ui::Weight::bold});
    ui::paragraph(words.meaning);
    ui::text_field({.label = "Reason", .refusals = &question.asked.refusals}, question.reason);
    ui::all_refusals(all_but(question.asked.refusals, {"Reason"}));
}

} // namespace

void draw(std::optional<TakeBack>& question, const app::Notice& notice, app::Intents& out) {
    if (!question)
        return;
    if (question->asked.is_done(notice)) {
        question.reset();
        return;
    }
    if (notice.kind == app::Notice::Kind::failed)
        return; // the failure stands in front; the question comes back with what was typed
    const Words& words = std::visit([](auto id) -> const Words& { return words_of(id); }, question->what);
    const auto chosen = ui::ask({.title = words.title,
                                 .harmless = words.harmless,
                                 .deed = words.deed,
                                 .deed_kind = ui::ButtonKind::stop},
                                [&] { body(*question, words); });
    if (chosen == ui::Answer::harmless) {
        question.reset();
    } else if (chosen == ui::Answer::deed) {
        question->asked.ask(notice);
        out.push_back(intent_of(*question));
    }
}

} // namespace mellowbin::views
