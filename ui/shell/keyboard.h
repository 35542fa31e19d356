#pragma once

#include "ui/widgets/frame.h"

#include <optional>

namespace mellowbin::ui {

/// Our name of a GLFW key, if we have one. Letters go by what the person's keyboard writes, not by place:
/// Ctrl+Z is where Z is printed.
std::optional<Key> key_of(int glfw_key, int scancode, int glfw_mods);
Mods mods_of(int glfw_mods);

} // namespace mellowbin::ui
