#pragma once

#include "core/day.h"
#include "ui/widgets/body.h"
#include "ui/widgets/theme.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

/// The charts. Each has axes with units, a legend, the value under the pointer, and gives back ids; each row
/// and mark is told to the probe. A chart is never the only place of a fact: the screen offers the same as a
/// table.
namespace mellowbin::ui {

/// Days from 1970-01-01, fractions allowed, so that a quantile may fall within a day.
double day_number(Day day);
Day day_of(double day_number);

/// How ready flour is, told by texture so that it reads in black and white.
enum class Texture : int {
    young,     ///< outline
    usable,    ///< open hatching
    ready,     ///< solid
    past_best, ///< crossed
};
const char* word_for(Texture texture);

struct Span {
    double from, to; ///< day numbers; `to` is the first day after
    Texture texture;
};

/// When something happens, with its spread: the band fades at these quantiles. Day numbers, ascending.
struct Fade {
    double q05, q25, q50, q75, q95;
};

/// Where a run wants flour of this lot, or any other event of a row.
struct BandTick {
    std::int64_t id;
    double day;
    std::string_view words; ///< "Pan bread, line 1: 1200 kg"
    Role role = Role::ink;
};

/// A few words under a row's label, with the sign of their role.
struct BandRemark {
    std::string_view words;
    Role role = Role::quiet;
};

/// One row, filled by the view for the rows that are seen. The spans and ticks must live until the chart
/// returns or the next row is asked for.
struct BandRow {
    std::string_view label = {};  ///< "W24-118"
    std::string_view aside = {};  ///< right of the label where it fits, quiet: "83 % measured"
    std::string_view detail = {}; ///< second line, quiet: "Strong white · 8.2 t"
    Role role = Role::ink;        ///< of the label; mind and stop with their sign
    std::span<const Span> spans = {};
    std::optional<Fade> ready_from = {};
    std::optional<Fade> best_until = {};
    std::span<const BandTick> ticks = {};
    std::span<const BandRemark> remarks =
        {};                       ///< third line, side by side: "▲ use first", "2 results"; those that fit
    std::string_view amount = {}; ///< where rows have one line: right-aligned, "4 500"
    std::string_view state = {};  ///< after it, in its role: "usable, ready 3 Dec"
    Role state_role = Role::ink;
    bool is_group = false; ///< a head over the rows that follow: label, detail, and words over the days
    bool is_folded = false;
    std::string_view words =
        {}; ///< what the row says in words, for the pointer and for tests: "ready from 28 Nov, 80 %"
};

/// The view's own part of a time axis.
struct TimeAxis {
    double from = 0; ///< first day shown
    double days =
        42; ///< how many are shown; wheel with Ctrl, or + and -, change it; drag or Left and Right move it
    double today = 0; ///< today's line; what-if when dragged
    std::optional<std::int64_t> selected = {};
    bool show_selected = false; ///< set it to scroll to the selected row once
};

struct BandChart {
    std::string_view name; ///< "Readiness"
    std::size_t rows = 0;
    FunctionRef<std::int64_t(std::size_t)> record;
    FunctionRef<void(std::size_t, BandRow&)> fill_row;
    int label_lines = 2; ///< 3: rows have remarks; 1: label, amount and state in columns
    std::string_view label_head = {}, amount_head = {}, state_head = {}; ///< of those columns
    double real_today = 0; ///< a thin second line when today's line was dragged away from it
    std::string_view when_empty = "No lots to show.";
    Length height = {}; ///< zero: what is left
};

struct BandEvents {
    bool selected = false;            ///< axis.selected is new
    std::optional<std::int64_t> fold; ///< a group's head was pressed: its record
    bool opened = false;              ///< Enter or a double click
    bool today_moved = false;         ///< axis.today is new
    bool today_dropped = false;       ///< it was let go after a drag, or moved by a key
    std::optional<std::int64_t> tick; ///< a tick was clicked: its id
    std::optional<std::int64_t> under_pointer;
    double day_under_pointer = 0;
};
BandEvents band_chart(const BandChart& chart, TimeAxis& axis);
/// The four textures, the fading band and the ticks, in words.
void band_legend();

/// A value in its window, small: the window drawn on a line, the value as a mark, and in figures.
struct WindowBar {
    std::string_view label;
    std::optional<double> value = {};          ///< missing: "not known"
    std::optional<double> low = {}, high = {}; ///< either may be open
    std::string_view unit = {};
    int decimals = 1;
    std::string_view note = {};        ///< "estimate", "as is", the verdict
    std::optional<double> spread = {}; ///< half width of the value's band, for estimates
    bool is_estimate = false;
};
void window_bar(const WindowBar& bar);

} // namespace mellowbin::ui
