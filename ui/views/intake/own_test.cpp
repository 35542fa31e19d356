#include "ui/views/intake/own_test.h"

#include "ui/widgets/ui.h"

#include <fmt/format.h>

namespace mellowbin::views {
namespace {

void ask(OwnTestAsked& asked, app::AskWhetherToTest wanted, app::Intents& out) {
    if (wanted.mill.empty() || wanted.flour.empty() || wanted.code.empty())
        wanted = {};
    if (asked.asked == wanted)
        return;
    asked.asked = wanted;
    out.emplace_back(std::move(wanted));
}

} // namespace

void draw_own_test(OwnTestAsked& asked, const LotDraft& draft, const app::IntakeModel& model,
                   app::Intents& out) {
    if (!model.has_test_plan)
        return leave(asked, out);
    ask(asked, {draft.mill, draft.flour, draft.code}, out);
    const auto& advice = model.own_test;
    if (asked.asked.code.empty() || advice.words.empty())
        return;
    ui::status(advice.is_due ? ui::Role::mind : ui::Role::ink,
               advice.source.empty() ? advice.words : fmt::format("{} ({})", advice.words, advice.source));
}

void leave(OwnTestAsked& asked, app::Intents& out) { ask(asked, {}, out); }

} // namespace mellowbin::views
