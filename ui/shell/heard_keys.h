#pragma once

#include "ui/shell/scan_reader.h"
#include "ui/widgets/frame.h"

#include <optional>
#include <vector>

namespace mellowbin::ui {

/// The keyboard of the one window: what its callbacks hear goes through the reader of scans into the frame.
class HeardKeys {
public:
    /// `seconds` on GLFW's clock; letting go of a key is nothing.
    void key(int glfw_key, int scancode, int glfw_action, int glfw_mods, double seconds);
    void character(unsigned int code_point, double seconds);
    /// The window has fetched what came, some time since `from` and before `now`: what a person typed goes
    /// into the frame.
    void take_in(Frame& frame, double from, double now);
    /// The pointer presses now: what was typed before goes where the cursor was.
    void before_pointer(Frame& frame, double now);

    void set_longest_gap(double seconds) { reader_.set_longest_gap(seconds); }
    /// When take_in() must be called again although nothing comes.
    [[nodiscard]] std::optional<double> due() const { return reader_.due(); }
    std::vector<CaughtScan> take_scans() { return reader_.take_scans(); }

private:
    void pass_on(Frame& frame);

    std::vector<KeyStroke> heard_;
    ScanReader reader_;
    double looked_ = 0; ///< when it was fetched last
};

} // namespace mellowbin::ui
