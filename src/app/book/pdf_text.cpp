#include "app/book/pdf_text.h"

#include "app/book/child_process.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <optional>

namespace mellowbin::app {
namespace {

constexpr const char* give_otherwise = "Ask the mill for it as XLSX or CSV, or copy its text and paste it";

Refusal not_there(const std::string& program) {
    return {"",
            fmt::format("PDF files need {}, which is not on this machine (package poppler-utils)", program),
            "Install it, or copy the text of the PDF and paste it"};
}

bool stands_in(std::string_view text, std::string_view part) {
    return text.find(part) != std::string_view::npos;
}

/// Why the program gave no text; it says so in English whatever the machine's language.
Refusal refused_by(const ChildOutcome& outcome) {
    if (outcome.complaints.find("Incorrect password") != std::string::npos)
        return {"", "the PDF is locked with a password", "Save it without, or ask the mill for an open one"};
    if (outcome.complaints.find("Copying of text") != std::string::npos || outcome.code == 3)
        return {"", "the PDF does not permit that its text is copied", give_otherwise};
    const auto line = excerpt(std::string_view(outcome.complaints).substr(0, outcome.complaints.find('\n')));
    return {"", fmt::format("the PDF is torn or none ({})", line.empty() ? "no reason is given" : line),
            "Get it again, whole"};
}

std::optional<Refusal> fault_of(const ChildOutcome& outcome, const PdfLimits& limits) {
    switch (outcome.end) {
    case ChildEnd::exited:
        if (outcome.code == 0)
            return {};
        return refused_by(outcome);
    case ChildEnd::is_not_there:
        return not_there(limits.program);
    case ChildEnd::took_too_long:
        return Refusal{"",
                       fmt::format("reading the PDF took longer than {} s and was ended",
                                   std::chrono::duration<double>(limits.time).count()),
                       give_otherwise};
    case ChildEnd::wrote_too_much:
        return Refusal{"", fmt::format("the PDF has more than {} bytes of text", limits.text_bytes),
                       "Save only the pages with the certificate as a new PDF"};
    case ChildEnd::crashed:
        return Refusal{"", "reading the PDF failed: it is torn, or needs more memory than a certificate may",
                       give_otherwise};
    case ChildEnd::was_not_started:
        break;
    }
    return Refusal{"", fmt::format("{} could not be started: the machine has nothing left", limits.program),
                   "Try again when other programs are closed"};
}

} // namespace

Result<std::string> pdf_text(std::string_view bytes, const PdfLimits& limits) {
    if (bytes.size() > limits.bytes)
        return Refusal{"",
                       fmt::format("the file has {} bytes; {} at most are read", bytes.size(), limits.bytes),
                       "Save only the pages with the certificate as a new PDF"};
    // One page more than may be: so that too many are seen without reading them all. Lines of the table of
    // words begin with a level, 1 a page, 5 a word, and the page's number.
    auto outcome =
        run_child({limits.program, "-tsv", "-enc", "UTF-8", "-l", std::to_string(limits.pages + 1), "-", "-"},
                  bytes, {limits.time, limits.memory_bytes, limits.text_bytes});
    if (auto fault = fault_of(outcome, limits))
        return *std::move(fault);
    if (stands_in(outcome.output, fmt::format("\n1\t{}\t", limits.pages + 1)))
        return Refusal{"", fmt::format("the PDF has more than {} pages", limits.pages),
                       "Save only the pages with the certificate as a new PDF"};
    if (!stands_in(outcome.output, "\n5\t"))
        return Refusal{"", "the PDF is a picture of a page: there is no text in it", give_otherwise};
    return std::move(outcome.output);
}

} // namespace mellowbin::app
