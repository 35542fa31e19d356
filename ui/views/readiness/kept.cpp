#include "ui/views/readiness/kept.h"

#include "app/acts/looking.h"
#include "ui/views/common/keep_take_back.h"

#include <algorithm>

namespace mellowbin::views {
namespace {

std::string words_of(LotId lot, const app::ReadinessModel& model) {
    const auto at =
        std::find_if(model.rows.begin(), model.rows.end(), [&](const auto& row) { return row.id == lot; });
    return at == model.rows.end() ? "a retest of a lot" : "a retest of lot " + at->code;
}

} // namespace

void keep_begun(KeptWriter& k, const ReadinessView& view, const app::ReadinessModel& model) {
    keep_form(k, "retests", view.story.retest, [&](LotId lot) { return words_of(lot, model); });
    keep_question(k, "taking_back", view.story.withdrawing);
    k("opened", view.opened);
}

void take_up(KeptReader& k, ReadinessView& view, app::Intents& out) {
    if (!take_up_form(k, "retests", view.story.retest).empty())
        view.story.retest.is_open = true;
    take_up_question(k, "taking_back", view.story.withdrawing);
    LotId opened;
    k("opened", opened);
    if (!opened.is_known())
        return;
    view.shows_story = true;
    out.emplace_back(app::OpenLot{opened});
}

} // namespace mellowbin::views
