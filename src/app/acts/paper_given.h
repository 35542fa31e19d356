#pragma once

#include "app/acts/print_papers.h"
#include "core/result.h"
#include "print/page.h"
#include "print/sheet.h"

#include <string>

/// A paper that was made, and where it goes.
namespace mellowbin::app {

struct PaperName {
    std::string words; ///< "Plan": as it is told of
    std::string file;  ///< "plan-2026-11-25": beside the book, where no file and no printer are named
};

/// Into the file, to the printer, or both.
Result<Told> give(State& state, const Result<std::string>& pdf, print::PageSize page, const PaperTo& to,
                  const PaperName& name);
/// Laid out on the paper asked for, else A4.
Result<Told> give_sheet(State& state, const print::Sheet& sheet, const PaperTo& to, const PaperName& name);

} // namespace mellowbin::app
