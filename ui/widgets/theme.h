#pragma once

#include <array>
#include <cstdint>

namespace mellowbin::ui {

/// What a colour says. Colour never speaks alone: a word or a shape beside it says the same.
enum class Role {
    ground, ///< the window
    panel,  ///< cards, tables
    raised, ///< heads, buttons, the row under the pointer
    ink,    ///< text
    quiet,  ///< units, sources, hints
    accent, ///< what can be pressed, selection, today
    good,   ///< ready, inside the window
    mind,   ///< needs a look, use first
    stop,   ///< held, forbidden, short
    model,  ///< an estimate or assumption, always with its band
};
inline constexpr std::array every_role{Role::ground, Role::panel, Role::raised, Role::ink,  Role::quiet,
                                       Role::accent, Role::good,  Role::mind,   Role::stop, Role::model};

/// Light is the default; dark is for night offices.
enum class Palette { light, dark };

/// sRGB, 0 to 255.
struct Colour {
    std::uint8_t r = 0, g = 0, b = 0;
    friend bool operator==(const Colour&, const Colour&) = default;
};

Colour colour(Palette palette, Role role);

/// The short sign that stands before words of a role, so that the words still say it without colour:
/// good "✓", mind "▲", stop "✕", model "≈", others "".
const char* sign(Role role);

/// Sizes in steps of 1.25 from 16 px at 96 dpi and text size 100 %. Those of the mixer, read from 1.5 m, grow
/// with the window instead: so large at 1280 x 720.
enum class TextSize {
    text,         ///< 16
    heading,      ///< 20
    figure,       ///< 25
    key_figure,   ///< 31
    mixer_note,   ///< 20
    mixer_name,   ///< 25
    mixer_amount, ///< 31
    mixer_text,   ///< 39
    mixer_figure, ///< 49
    mixer_water,  ///< 76
};
inline constexpr std::size_t text_sizes = 10;
constexpr bool grows_with_window(TextSize size) { return size >= TextSize::mixer_note; }

/// Pixels of a size at 96 dpi and text size 100 %.
float pixels(TextSize size);

enum class Weight { regular, bold };

/// A length on the screen in ems of the ordinary text (16 px at 100 %), so that every place grows with the
/// person's text size. `12_em`.
struct Length {
    float ems = 0;
    friend auto operator<=>(const Length&, const Length&) = default;
};
namespace literals {
constexpr Length operator""_em(long double ems) { return {static_cast<float>(ems)}; }
constexpr Length operator""_em(unsigned long long ems) { return {static_cast<float>(ems)}; }
} // namespace literals
using namespace literals;

} // namespace mellowbin::ui
