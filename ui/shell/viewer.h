#pragma once

#include <string>

namespace mellowbin::ui {

/// Shows a file in the program that the desktop has for it, beside this one. Where the desktop has none,
/// nothing happens: who calls has told where the file lies.
void open_in_viewer(const std::string& file);

} // namespace mellowbin::ui
