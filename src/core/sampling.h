#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

/// Switching between normal, tightened and reduced inspection as lots come, after ISO 2859-1. The standard's
/// own text was not read here: the rules are from memory. At second hand they were read, and agree, in
/// ANSI/ASQ Z1.4-2003, 8.3.4 and 8.4 (reduced to normal, discontinuation), in MIL-STD-105, 4.7 and 4.8 (two
/// of five, five in a row, ten for reduced), and in two charts of ISO 2859-1's switching rules (score of 30;
/// aqlrule.com, manual/switch.html; sqconline.com/switching-rules-iso-2859-1). How the score counts, 2 or 3 a
/// lot, is from memory alone; 3 a lot makes the ten lots of MIL-STD-105.
namespace mellowbin {

enum class Severity { normal, tightened, reduced, discontinued };
std::string_view key_of(Severity severity); ///< "tightened", as people say it, too

/// A lot as it was found on original inspection: the first time, before anything of it was sorted out.
struct InspectedLot {
    bool is_accepted = true;
    /// It would have been accepted at a limit one step tighter, too; asked for from an acceptance number
    /// of 2.
    bool is_accepted_tighter = true;
    /// The supplier had mended the cause when it came: what was discontinued goes on, tightened.
    bool is_mended = false;
};

/// How the next lot is inspected, and why. Lots are told by their places among those that came.
struct Switching {
    Severity severity = Severity::normal;
    int score = 0;                    ///< of the lots on normal inspection; 30 leads to reduced
    int accepted_in_a_row = 0;        ///< while tightened; 5 lead back to normal
    int not_accepted = 0;             ///< while tightened, all in all; the fifth discontinues
    std::optional<std::size_t> since; ///< the lot whose result led here; none: it began so
    std::vector<std::size_t> because; ///< lots not accepted that led here
};

/// `lots` in the order they came; inspection begins as normal. With an acceptance number of 0 or 1 each
/// accepted lot counts 2 in the score, from 2 on 3 where it would have been accepted one step tighter; what
/// is neither sets the score to 0. `is_mended_since`: the supplier mended the cause after the last of them.
Switching switching_after(std::span<const InspectedLot> lots, int acceptance_number = 0,
                          bool is_mended_since = false);

} // namespace mellowbin
