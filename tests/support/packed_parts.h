#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::testing {

/// A part of a packed file that a test makes by hand. What is set is written in place of what is true.
struct PackedPartMade {
    std::string name;
    std::string content;
    bool is_deflated = true;
    std::optional<std::uint32_t> stated_bytes = {}; ///< unpacked
    std::optional<std::uint32_t> stated_check = {};
    std::uint16_t flags = 0;
    std::optional<std::uint16_t> method = {};
    std::optional<std::size_t> same_bytes_as = {}; ///< the directory names this earlier part's bytes again
};
/// A packed file (ZIP) of these parts.
std::string packed(const std::vector<PackedPartMade>& parts);

/// The parts of the smallest spreadsheet, its one sheet with these rows ("<row r=\"1\">…").
std::vector<PackedPartMade> spreadsheet_parts(std::string_view rows);
/// That spreadsheet, packed.
std::string spreadsheet(std::string_view rows);

} // namespace mellowbin::testing
