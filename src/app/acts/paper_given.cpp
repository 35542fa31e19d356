#include "app/acts/paper_given.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/paper_out.h"

#include <fmt/format.h>

#include <filesystem>
#include <system_error>

namespace mellowbin::app {
namespace {

namespace fs = std::filesystem;

/// The file asked for, or one beside the book.
Result<fs::path> file_to_write(const State& state, const std::string& asked, const PaperName& name) {
    if (asked.empty() && (state.setup.book.empty() || state.setup.book == ":memory:"))
        return Refusal{"File", "is empty, and this book has no folder to print beside", "Name a file"};
    const fs::path file =
        asked.empty() ? fs::path(state.setup.book).parent_path() / (name.file + ".pdf") : fs::path(asked);
    std::error_code failed;
    const auto whole = fs::absolute(file, failed);
    return failed ? file : whole;
}

} // namespace

Result<Told> give(State& state, const Result<std::string>& pdf, print::PageSize page, const PaperTo& to,
                  const PaperName& name) {
    if (!pdf)
        return pdf.refusals();
    Told told;
    if (!to.file.empty() || to.printer.empty()) {
        const auto file = file_to_write(state, to.file, name);
        if (!file)
            return file.refusals();
        if (const auto written = write_paper(*file, *pdf); !written)
            return written.refusals();
        told.words = fmt::format("{} written as a paper to print: {}", name.words, file->string());
        told.document = file->string();
    }
    if (to.printer.empty())
        return told;
    const auto taken = send_to_printer({to.printer, print::media_of(page), name.words}, *pdf);
    if (!taken)
        return taken.refusals();
    told.words += fmt::format("{}{} sent to printer {}{}{}", told.words.empty() ? "" : ". ", name.words,
                              to.printer, taken->empty() ? "" : ": ", *taken);
    told.document.clear();
    return told;
}

Result<Told> give_sheet(State& state, const print::Sheet& sheet, const PaperTo& to, const PaperName& name) {
    const auto page = print::read_page_size(to.paper, print::a4);
    if (!page)
        return page.refusals();
    return give(state, print::pdf_of(sheet, *page), *page, to, name);
}

} // namespace mellowbin::app
