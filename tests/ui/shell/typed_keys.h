#pragma once

#include "ui/shell/scan_reader.h"

#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::test {

// GLFW's tokens: a key by its place on an American keyboard.
inline constexpr int enter_key = 257, tab_key = 258, escape_key = 256, left_key = 263, f2_key = 291;
inline constexpr int shift_mod = 1, ctrl_mod = 2, alt_mod = 4;
inline constexpr int bracket_key = 93; ///< ] there, and + on a German one

/// Keys and characters as a window tells of them: the key first, then its character, at the same instant.
class Keys {
public:
    double now = 100; ///< seconds

    std::vector<ui::KeyStroke> strokes;

    Keys& press(int key, int mods = 0, bool is_repeat = false) {
        strokes.push_back({ui::KeyStroke::What::key, key, 0, mods, is_repeat, {}, now});
        return *this;
    }
    Keys& character(std::string_view text) {
        strokes.push_back({ui::KeyStroke::What::text, 0, 0, 0, false, std::string(text), now});
        return *this;
    }
    /// A letter or sign with its key; the byte 0x1D is Ctrl and the key of ].
    Keys& type(char c) {
        if (c == '\x1d')
            return press(bracket_key, ctrl_mod);
        const bool is_small = c >= 'a' && c <= 'z';
        return press(is_small ? c - 'a' + 'A' : c, 0).character(std::string(1, c));
    }
    /// Each `gap` seconds behind the one before.
    Keys& type(std::string_view text, double gap) {
        for (const char c : text) {
            now += gap;
            type(c);
        }
        return *this;
    }
    Keys& wait(double seconds) {
        now += seconds;
        return *this;
    }
};

} // namespace mellowbin::test
