#pragma once

#include "core/result.h"

#include <chrono>
#include <cstddef>
#include <string>
#include <string_view>

namespace mellowbin::app {

/// What a PDF may cost.
struct PdfLimits {
    std::size_t bytes = 50'000'000;
    std::size_t text_bytes = 50'000'000;
    std::size_t pages = 500;
    std::chrono::milliseconds time{5'000};
    std::size_t memory_bytes = 1'000'000'000; ///< of the program's address space
    std::string program = "pdftotext";        ///< found on the path
};

/// The words of a PDF, each with its page and its place there, UTF-8: what exchange::read_laid_out_text()
/// reads as SheetKind::pages. (Text laid out in blanks, which pdftotext can make, too, loses where columns
/// that stand close part.) Runs pdftotext -tsv (package poppler-utils) as a process of its own, without a
/// shell and without a file, ended when it takes longer, more memory or more text than the limits. Refused in
/// words: the program is not there, the file is none, is locked by a password, has more pages, or is a
/// picture without text. Waits for the process: call it from a background job. Safe beside other threads.
Result<std::string> pdf_text(std::string_view bytes, const PdfLimits& limits = {});

} // namespace mellowbin::app
