#include "ui/views/plan/run_form.h"

#include "app/acts/notice.h"
#include "app/acts/runs.h"
#include "app/models/plan.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <utility>
#include <vector>

namespace mellowbin::views {

using namespace ui;

namespace {

std::string word_at(const std::vector<std::string>& words, int chosen) {
    return chosen >= 0 && static_cast<std::size_t>(chosen) < words.size()
               ? words[static_cast<std::size_t>(chosen)]
               : std::string{};
}

void draw_fields(RunForm& run, const app::PlanModel& model, const Refusals& refusals) {
    flow([&] {
        choice({.label = "Product", .refusals = &refusals}, model.products, run.product);
        choice({.label = "Line", .refusals = &refusals}, model.line_names, run.line);
        date_field({.label = "Day", .refusals = &refusals, .width = 8_em}, run.day, model.today);
        number_field({.label = "Batches", .hint = "12", .refusals = &refusals, .width = 5_em}, run.batches);
    });
    all_refusals(all_but(refusals, {"Product", "Line", "Day", "Batches"}));
}

} // namespace

void RunForm::open(const app::PlanModel& model, const std::string& iso_day) {
    is_open = true;
    day = first_day = iso_day;
    first_product = product;
    if (model.line_names.size() == 1)
        line = 0;
}

void RunForm::open_at(const app::PlanModel& model, int board_line, int board_day) {
    open(model, iso(model.from + Days{board_day}));
    const auto at = static_cast<std::size_t>(board_line);
    for (std::size_t i = 0; i < model.line_names.size(); ++i)
        if (board_line >= 0 && at < model.lines.size() && model.line_names[i] == model.lines[at])
            line = static_cast<int>(i);
    wants_focus = true;
}

void RunForm::take_answer(const app::Notice& notice) {
    if (!added.is_done(notice))
        return;
    is_open = false;
    batches.clear();
}

void draw(RunForm& run, const app::PlanModel& model, const app::Notice& notice, app::Intents& out) {
    panel("A run to add", [&] {
        form("Run", [&] {
            if (std::exchange(run.wants_focus, false))
                focus(run.product < 0 ? "Product" : "Batches");
            draw_fields(run, model, run.added.refusals);
            flow([&] {
                if (button("Add run", {.kind = ButtonKind::primary})) {
                    run.added.ask(notice);
                    out.emplace_back(app::AddRun{word_at(model.products, run.product),
                                                 word_at(model.line_names, run.line), run.day, run.batches});
                }
                if (button("Close form", {.key = "Esc"}) || key_pressed(Key::escape))
                    run.is_open = false;
            });
        });
    });
}

} // namespace mellowbin::views
