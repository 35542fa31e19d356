#pragma once

#include "core/figure_draft.h"
#include "core/result.h"

#include <string_view>

namespace mellowbin::cli {

/// How a laboratory's result is written on the command line.
inline constexpr const char* result_form = "PROPERTY=VALUE [@ BASIS [@ METHOD]]";

/// Takes a result apart: "glutathione=105,5 @ 14 % moisture @ in-house". The property by its key or its name,
/// in any case; the "@" parts them because commas stand in numbers and in names. A property without a basis
/// keeps an empty place for it where a method follows: "stability=14.5 @ @ ICC 115/1". The figures themselves
/// are read where all retests are. Refused: another form, a property that is not known, no value.
Result<FigureDraft> read_result(std::string_view typed);

} // namespace mellowbin::cli
