#pragma once

#include "core/result.h"
#include "exchange/sheet.h"

#include <string_view>

namespace mellowbin::exchange {

/// The table of words that pdftotext -tsv makes of a PDF: each word with its page and its box in points.
bool are_page_words(std::string_view text);

/// Puts the words of each page into lines, and the words of a line into fields: a gap as wide as half the
/// letters are high parts two. So columns that stand close stay apart, and where each lies is known to the
/// point, which text laid out in blanks loses. Lines count from 1 on each page. Refused: a row that is none,
/// more pages, lines or fields than the limits.
Result<Sheet> read_page_words(std::string_view text, const SheetLimits& limits = {});

} // namespace mellowbin::exchange
