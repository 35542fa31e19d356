#include "ui/widgets/theme.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace mellowbin::ui {

namespace {

// Linen, rye crust, slate. The contrast of each against its panel is held by a test.
constexpr std::array<Colour, every_role.size()> light{{
    {0xF4, 0xEF, 0xE6}, // ground
    {0xFF, 0xFD, 0xF9}, // panel
    {0xE9, 0xE1, 0xD3}, // raised
    {0x2B, 0x26, 0x20}, // ink
    {0x6B, 0x62, 0x57}, // quiet
    {0x1F, 0x5C, 0x6B}, // accent
    {0x3E, 0x6B, 0x2F}, // good
    {0x8A, 0x4F, 0x00}, // mind
    {0xA3, 0x30, 0x2A}, // stop
    {0x5B, 0x4A, 0x8A}, // model
}};
constexpr std::array<Colour, every_role.size()> dark{{
    {0x1E, 0x1B, 0x17},
    {0x28, 0x24, 0x1F},
    {0x35, 0x30, 0x29},
    {0xEF, 0xE8, 0xDC},
    {0xB5, 0xAB, 0x9B},
    {0x7F, 0xC4, 0xD3},
    {0x9C, 0xCB, 0x83},
    {0xE0, 0xA6, 0x4A},
    {0xF0, 0x8A, 0x80},
    {0xB9, 0xA6, 0xE8},
}};

} // namespace

Colour colour(Palette palette, Role role) {
    const auto at = static_cast<std::size_t>(role);
    return palette == Palette::light ? light[at] : dark[at];
}

const char* sign(Role role) {
    switch (role) {
    case Role::good:
        return "✓";
    case Role::mind:
        return "▲";
    case Role::stop:
        return "✕";
    case Role::model:
        return "≈";
    default:
        return "";
    }
}

float pixels(TextSize size) {
    static constexpr std::array<float, text_sizes> sizes{16, 20, 25, 31, 20, 25, 31, 39, 49, 76};
    return sizes[static_cast<std::size_t>(size)];
}

} // namespace mellowbin::ui
