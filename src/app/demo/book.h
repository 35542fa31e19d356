#pragma once

#include "core/day.h"
#include "core/result.h"
#include "db/progress.h"

#include <string>

namespace mellowbin::app {

/// Makes a book of an invented bakery: three mills, four products, two lines, some fourteen lots over three
/// months, a week of runs that were mixed and two weeks that are planned, up to `today`. All of it goes the
/// way a person's acts go. Refused when the file is there already. `progress` hears how many of the days are
/// lived.
Result<std::string> make_demo_book(const std::string& path, Day today, const Progress& progress = {});

} // namespace mellowbin::app
