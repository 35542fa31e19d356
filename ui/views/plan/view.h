#pragma once

#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "ui/views/plan/flour.h"
#include "ui/views/plan/moves.h"
#include "ui/views/plan/question.h"
#include "ui/views/plan/run_form.h"
#include "ui/views/plan/what_if.h"
#include "ui/widgets/ui.h"

#include <optional>
#include <string>
#include <utility>

/// Lines over days: which lots go into which run, what is short, and why; a proposed plan beside the book's;
/// the flour to come.
namespace mellowbin::views {

/// What is unfolded on the sheet of a run.
struct RunSheet {
    bool with_reasons = false, with_rules = false, with_remedies = false;
    RunId asked; ///< the run whose cures were asked for last
};

struct PlanView {
    enum Page { board_page, table_page, comparison_page, flour_page };

    std::string from; ///< as typed
    int reach = 1;    ///< index into 1, 7, 14 and 28 days
    int search = 0;   ///< how long to search: index into as set, 10 s, 1 min and 5 min
    Refusals refusals;
    int page = board_page;
    bool with_more = false;  ///< the tools that are seldom wanted stand there
    bool is_what_if = false; ///< runs are moved on a copy
    ui::BoardState board;
    ui::TableState table;
    ui::TableState moved; ///< in the comparison

    RunSheet sheet;
    bool sheet_takes_focus = false; ///< Enter on its card: its first act gets the focus
    RunForm form;
    WhatIf what_if;
    FlourPage flour;
    std::optional<PlanQuestion> question;

    /// The model's first day and days, when the fields were last set.
    std::optional<std::pair<Day, int>> shown;

    [[nodiscard]] int days() const; ///< the number of days chosen
    [[nodiscard]] bool shows_days() const { return page == board_page || page == table_page; }
    [[nodiscard]] double seconds() const;         ///< to search for; 0: as Settings say
    void choose(std::optional<std::int64_t> run); ///< on the board and in the table
    /// A proposal that is looked at, and what is supposed, are never moved in the book.
    [[nodiscard]] Tried tried(const app::PlanModel& model) const;
};

/// `lots` names those in stock where one is typed.
void draw(PlanView& view, const app::PlanModel& model, const app::LotsModel& lots, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out);

} // namespace mellowbin::views
