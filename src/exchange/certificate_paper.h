#pragma once

#include "core/result.h"
#include "exchange/sheet.h"

#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// What a certificate came as, by its bytes and never by the name of its file.
enum class PaperKind { spreadsheet, old_spreadsheet, pdf, picture, text };
PaperKind paper_kind(std::string_view bytes);
/// "a spreadsheet (XLSX)", "a PDF", ...
std::string_view in_words(PaperKind kind);

/// The tables of a certificate's file: XLSX, CSV, other text. A PDF is refused here: it is turned into text
/// by a program of its own (app/book/pdf_text.h), whose text goes into read_laid_out_text() as pages. What is
/// neither is refused with what to do.
Result<std::vector<Sheet>> read_paper(std::string_view bytes, const SheetLimits& limits = {});

} // namespace mellowbin::exchange
