#pragma once

#include "app/acts/act.h"
#include "app/acts/print_papers.h"

#include <string>

/// The plan on paper.
namespace mellowbin::app {

/// Writes the plan shown as a paper (PDF); changes no book.
struct PrintPlan {
    std::string path;   ///< empty: beside the book, named by the first day; needed for a book in memory
    PaperTo other = {}; ///< paper and printer; its file is not looked at
};

Result<Told> carry_out(State& state, const PrintPlan& act);

} // namespace mellowbin::app
