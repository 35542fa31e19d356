#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::ui {

/// A scan that came over a serial port.
struct PortScan {
    std::string bytes;         ///< as the scanner sent them, separators as the byte 0x1D
    bool ended_by_line = true; ///< else by a pause
};

/// Bytes of a serial port as scans: a line end (CR, LF or both) or a pause ends one. No symbol holds more
/// than 7,089 characters (ISO/IEC 18004); what goes on for longer without an end is dropped to its end, and
/// told.
class PortReader {
public:
    static constexpr std::size_t most_bytes = 8000;
    static constexpr double pause = 0.1; ///< seconds; a choice: at 9,600 baud a character takes 1 ms

    void take(std::string_view bytes, double seconds);
    /// Nothing came until now.
    void wait_until(double seconds);
    /// Bytes are there whose end has not come.
    [[nodiscard]] bool is_waiting() const { return !bytes_.empty() || is_dropping_; }
    std::vector<PortScan> take_scans();
    /// More came without an end than a scan can have, since it was asked last.
    bool take_endless();

private:
    void finish(bool by_line);

    std::string bytes_;
    double last_ = 0;
    bool is_dropping_ = false, was_endless_ = false;
    std::vector<PortScan> scans_;
};

} // namespace mellowbin::ui
