#pragma once

#include <cstdint>
#include <filesystem>
#include <vector>

namespace mellowbin::ui {

/// Writes rows of red, green, blue bytes, the lowest row first (as OpenGL reads them), as a PNG.
/// Throws std::runtime_error with the reason.
void write_png(const std::filesystem::path& path, int width, int height,
               const std::vector<std::uint8_t>& rows_upwards);

} // namespace mellowbin::ui
