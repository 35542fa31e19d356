#pragma once

#include "app/acts/act.h"
#include "core/result.h"

#include <filesystem>
#include <initializer_list>
#include <string>
#include <string_view>

/// Where a file goes that others read.
namespace mellowbin::app {

/// The file that was named, whole. Refused under "File": none was named, it ends otherwise than one of these
/// (".csv"), its folder is not there, or a folder, the book or something that is no plain file has its name.
Result<std::filesystem::path> file_to_save(const State& state, const std::string& named,
                                           std::initializer_list<std::string_view> endings);
/// The refusal where it could not be written.
Result<Told> not_saved(const std::filesystem::path& file, std::string_view why);
/// All of it under this name; why not, in words.
std::string write_bytes(const std::filesystem::path& file, std::string_view bytes);

} // namespace mellowbin::app
