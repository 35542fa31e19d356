#include "ui/shell/scan_keys.h"

#include <GLFW/glfw3.h>

namespace mellowbin::ui {
namespace {

/// Between two keys of a scanner; people take longer. (From memory: scanners send a key in 30 to 50 ms at
/// most.)
constexpr double fastest_person = 0.06;

} // namespace

bool ScanKeys::is_separator(int key, int mods, double seconds) const {
    const bool is_the_key = key == GLFW_KEY_RIGHT_BRACKET && (mods & GLFW_MOD_CONTROL) != 0 &&
                            (mods & (GLFW_MOD_ALT | GLFW_MOD_SUPER)) == 0;
    return is_the_key && last_ >= 0 && seconds - last_ < fastest_person;
}

} // namespace mellowbin::ui
