#pragma once

#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

namespace mellowbin::testing {

/// The bytes of a file as they stand.
inline std::string file_bytes(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file)
        throw std::runtime_error("cannot read " + path.string());
    std::ostringstream bytes;
    bytes << file.rdbuf();
    return bytes.str();
}

/// "hostile/csv_nul_byte.csv" of the project's fixtures.
inline std::string fixture(const std::string& name) {
    return file_bytes(std::filesystem::path(MELLOWBIN_FIXTURES) / name);
}

} // namespace mellowbin::testing
