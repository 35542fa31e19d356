#pragma once

#include "published/published.h"

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace mellowbin::published {

/// A file of fixtures/published: `# key: words` lines on top (source, place, tolerance, check, status; a
/// line without a key continues the one above), then the columns id,inputs,expected,tolerance[,note].
struct RowFile {
    std::string name;
    std::map<std::string, std::string> head;
    std::vector<Row> rows;
};

/// Throws std::runtime_error, naming file and line, when the file is not of that form.
RowFile read_row_file(const std::filesystem::path& path);

/// Every .csv file of the folder, by name.
std::vector<RowFile> read_row_files(const std::filesystem::path& folder);

} // namespace mellowbin::published
