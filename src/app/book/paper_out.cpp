#include "app/book/paper_out.h"

#include "app/book/child_process.h"
#include "app/book/durable_file.h"
#include "core/typed_text.h"
#include "print/drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <system_error>

namespace mellowbin::app {
namespace {

namespace fs = std::filesystem;

/// Why the file of this name must stay; empty where there is none, or a paper printed before.
std::string why_kept(const fs::path& file) {
    std::error_code failed;
    const auto is = fs::status(file, failed).type();
    if (is == fs::file_type::not_found)
        return {};
    if (is == fs::file_type::directory)
        return "it is a folder";
    if (is != fs::file_type::regular)
        return failed ? failed.message() : "it is no plain file";
    std::ifstream in(file, std::ios::binary);
    std::string bytes(5, '\0');
    in.read(bytes.data(), 5);
    if (in && bytes == "%PDF-")
        bytes.append(std::istreambuf_iterator<char>(in), {});
    return print::is_own_paper(bytes) ? "" : "a file that is no printed paper has this name, and it is kept";
}

std::string why_not_written(const fs::path& file, std::string_view pdf) {
    if (auto kept = why_kept(file); !kept.empty())
        return kept;
    std::error_code failed;
    if (!fs::is_directory(file.parent_path(), failed))
        return fmt::format("there is no folder \"{}\"", file.parent_path().string());
    return write_durably(file, pdf, Readers::all);
}

/// Blanks, "/" and "#" are in no queue's name (CUPS); one that begins as an option does is none either.
bool may_be_queue(const std::string& name) {
    return !name.empty() && name.front() != '-' && std::all_of(name.begin(), name.end(), [](char c) {
        return static_cast<unsigned char>(c) > ' ' && c != '\x7f' && c != '/' && c != '#';
    });
}

constexpr const char* otherwise = "See the queues with lpstat -p, or have the paper as a file";

Refusal not_taken(const Printing& printing, const ChildOutcome& outcome) {
    const auto refused = [&](std::string why) {
        return Refusal{"Printer", fmt::format("\"{}\" took nothing: {}", excerpt(printing.queue), why),
                       otherwise};
    };
    switch (outcome.end) {
    case ChildEnd::is_not_there:
        return {"Printer",
                fmt::format("printing needs {}, which is not on this machine (package cups-client)",
                            printing.program),
                "Install it, or have the paper as a file"};
    case ChildEnd::took_too_long:
        return refused(
            fmt::format("no answer within {} s", std::chrono::duration<double>(printing.time).count()));
    case ChildEnd::exited: {
        const auto line = std::string_view(outcome.complaints).substr(0, outcome.complaints.find('\n'));
        return refused(line.empty() ? "it gave no reason" : excerpt(line));
    }
    case ChildEnd::crashed:
    case ChildEnd::wrote_too_much:
    case ChildEnd::was_not_started:
        break;
    }
    return refused(printing.program + " failed");
}

} // namespace

Result<Done> write_paper(const fs::path& file, std::string_view pdf) {
    const auto fault = why_not_written(file, pdf);
    if (!fault.empty())
        return Refusal{"File", fmt::format("\"{}\" cannot be written: {}", file.string(), fault),
                       "Name a file in a folder that is there and can be written to"};
    return Done{};
}

Result<std::string> send_to_printer(const Printing& printing, std::string_view pdf) {
    if (!may_be_queue(printing.queue))
        return Refusal{"Printer", fmt::format("\"{}\" is no queue's name", excerpt(printing.queue)),
                       otherwise};
    ChildLimits limits;
    limits.time = printing.time;
    const auto outcome = run_child(
        {printing.program, "-d", printing.queue, "-o", "media=" + printing.media, "-t", printing.title}, pdf,
        limits);
    if (outcome.end != ChildEnd::exited || outcome.code != 0)
        return not_taken(printing, outcome);
    return std::string(trimmed(outcome.output));
}

} // namespace mellowbin::app
