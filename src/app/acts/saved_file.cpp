#include "app/acts/saved_file.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <system_error>

namespace mellowbin::app {
namespace {

namespace fs = std::filesystem;

std::string in_words(std::initializer_list<std::string_view> endings) {
    std::string words;
    for (const auto ending : endings)
        words += fmt::format("{}{}", words.empty() ? "" : " or ", ending);
    return words;
}

bool ends_so(const fs::path& file, std::initializer_list<std::string_view> endings) {
    const auto ending = lower_case(file.extension().string());
    return std::find(endings.begin(), endings.end(), ending) != endings.end();
}

/// Why the file of this name must stay; empty where it may be written.
std::string why_kept(const State& state, const fs::path& file) {
    std::error_code failed;
    if (!fs::is_directory(file.parent_path(), failed))
        return fmt::format("there is no folder \"{}\"", file.parent_path().string());
    const auto is = fs::status(file, failed).type();
    if (is == fs::file_type::not_found)
        return {};
    if (is == fs::file_type::directory)
        return "it is a folder";
    if (is != fs::file_type::regular)
        return "it is no plain file";
    if (fs::equivalent(file, state.setup.book, failed))
        return "it is the book";
    return {};
}

Refusal cannot_be_written(const fs::path& file, std::string_view why) {
    return {"File", fmt::format("\"{}\" cannot be written: {}", file.string(), why),
            "Name a file in a folder that is there and can be written to"};
}

} // namespace

Result<fs::path> file_to_save(const State& state, const std::string& named,
                              std::initializer_list<std::string_view> endings) {
    if (named.empty())
        return Refusal{"File", "is empty", "Name a file that ends with " + in_words(endings)};
    std::error_code failed;
    auto file = fs::absolute(named, failed);
    if (failed)
        file = named;
    if (!ends_so(file, endings))
        return Refusal{
            "File",
            fmt::format("\"{}\" was read; a file that ends with {} is expected", named, in_words(endings)),
            "The ending says as what it is saved"};
    if (const auto why = why_kept(state, file); !why.empty())
        return cannot_be_written(file, why);
    return file;
}

Result<Told> not_saved(const fs::path& file, std::string_view why) { return cannot_be_written(file, why); }

std::string write_bytes(const fs::path& file, std::string_view bytes) {
    std::ofstream out(file, std::ios::binary | std::ios::trunc);
    if (!out)
        return "the folder does not let a file be written";
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    out.close();
    return out ? "" : "the disk took only a part of it";
}

} // namespace mellowbin::app
