#pragma once

#include "core/result.h"
#include "exchange/sheet.h"

#include <string_view>

namespace mellowbin::exchange {

/// Takes text (see as_utf8()) apart into lines and fields: one table. Where half the lines hold a tab, a
/// semicolon or a pipe, or all hold as many commas, that parts the fields, and fields in quotation marks may
/// hold it and line ends, as in CSV. Else two and more blanks, tabs and pipes part them, and where a field
/// begins is kept (SheetKind::laid_out). A form feed begins a page. SheetKind::pages is for the text of a
/// PDF, as app::pdf_text() gives it (page_words.h), or laid out in blanks. Refused: text over the limits,
/// torn in a quotation.
Result<Sheet> read_laid_out_text(std::string_view bytes, SheetKind kind = SheetKind::text,
                                 const SheetLimits& limits = {});

} // namespace mellowbin::exchange
