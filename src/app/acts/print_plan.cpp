#include "app/acts/print_plan.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/models/plan_sheet.h"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <system_error>

namespace mellowbin::app {
namespace {

namespace fs = std::filesystem;

Refusal cannot_be_written(const fs::path& file, std::string_view why) {
    return {"File", fmt::format("\"{}\" cannot be written: {}", file.string(), why),
            "Name a file in a folder that is there and can be written to"};
}

/// The file asked for, or one beside the book that is named by the first day shown.
Result<fs::path> file_to_write(const State& state, const std::string& asked) {
    if (asked.empty() && (state.setup.book.empty() || state.setup.book == ":memory:"))
        return Refusal{"File", "is empty, and this book has no folder to print beside", "Name a file"};
    const fs::path file = asked.empty() ? fs::path(state.setup.book).parent_path() /
                                              fmt::format("plan-{}.html", iso(state.plan.from))
                                        : fs::path(asked);
    std::error_code failed;
    const auto whole = fs::absolute(file, failed);
    return failed ? file : whole;
}

/// Why the file of this name must stay; empty where there is none, or a plan printed before.
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
    std::string head(plan_sheet_head.size(), '\0');
    in.read(head.data(), static_cast<std::streamsize>(head.size()));
    return in && head == plan_sheet_head ? ""
                                         : "a file that is no printed plan has this name, and it is kept";
}

/// Under another name first, so that no half a plan is ever printed. Empty: done; else why not.
std::string write(const fs::path& file, const std::string& bytes) {
    std::error_code failed;
    if (!fs::is_directory(file.parent_path(), failed))
        return fmt::format("there is no folder \"{}\"", file.parent_path().string());
    auto unfinished = file;
    unfinished += ".unfinished";
    std::ofstream out(unfinished, std::ios::binary | std::ios::trunc);
    if (!out)
        return "the folder does not let a file be written";
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    out.close();
    if (out)
        fs::rename(unfinished, file, failed);
    if (out && !failed)
        return {};
    std::error_code ignored;
    fs::remove(unfinished, ignored);
    return failed ? failed.message() : "the disk took only a part of it";
}

} // namespace

Result<Told> carry_out(State& state, const PrintPlan& intent) {
    const auto file = file_to_write(state, intent.path);
    if (!file)
        return file.refusals();
    auto fault = why_kept(*file);
    if (fault.empty())
        fault = write(*file, plan_sheet(state.plan, state.overview.plant, state.setup.clock.in_words()));
    if (!fault.empty())
        return cannot_be_written(*file, fault);
    Told told{fmt::format("Plan written as a page to print: {}", file->string())};
    told.document = file->string();
    return told;
}

} // namespace mellowbin::app
