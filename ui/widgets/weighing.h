#pragma once

#include "ui/widgets/theme.h"

#include <span>
#include <string_view>

/// What is read at the bowl from 1.5 m: it grows with the window.
namespace mellowbin::ui {

/// One word and a sentence across the whole width, on a solid ground.
struct VerdictStrip {
    Role role = Role::good;     ///< good, mind or stop
    std::string_view word;      ///< "DO NOT MIX"
    std::string_view first;     ///< what it is about, in bold
    std::string_view then = {}; ///< what lifts it
};
void verdict_strip(const VerdictStrip& strip);

/// What goes into the bowl, in the order of weighing.
struct WeighedRow {
    /// Beside a lot: whether a bag of it was scanned.
    enum class Box { none, open, done, stopped };
    /// How large it stands there.
    enum class Rank { lot, water, other };

    std::string_view label; ///< a lot's number, or what it is
    Rank rank = Rank::other;
    Box box = Box::none;
    std::string_view counted = {}, counted_unit = {}; ///< "2", "bags"
    bool is_more_weighed = false;                     ///< beside what is counted
    std::string_view number = {}, unit = {};          ///< to weigh; all numbers end at one place
    std::string_view beside = {}, beside_unit = {};   ///< a second figure: the water's temperature
    std::string_view withheld = {};                   ///< in the place of every amount
    std::string_view note = {};                       ///< quiet
    std::string_view state = {};                      ///< under it, in its role
    Role state_role = Role::quiet;
    Role tint = Role::panel; ///< of the row's ground
    bool waits = false;      ///< in quiet ink: not now
};
/// The rows in one panel of the height that is left: as low as needed to stand there whole, then scrolled.
void weighing_table(std::span<const WeighedRow> rows);

/// What is aimed at: label left, number right, unit in quiet ink; words that are too long stand beneath.
struct Aim {
    std::string_view label, number, unit;
    TextSize size = TextSize::mixer_amount;
};
void aim(const Aim& aim);

/// How many of a run's batches are in, as cells: the one that is shown is framed. Beyond 24 batches nothing.
void batches_in(int done, int shown, int all);

} // namespace mellowbin::ui
