#pragma once

#include "app/acts/act.h"

#include <string>

/// The plan on paper.
namespace mellowbin::app {

/// Writes the plan shown as a page to print (HTML); changes no book.
struct PrintPlan {
    std::string path; ///< empty: beside the book, named by the first day; needed for a book in memory
};

Result<Told> carry_out(State& state, const PrintPlan& act);

} // namespace mellowbin::app
