#include "ui/shell/port_reader.h"

#include <utility>

namespace mellowbin::ui {

void PortReader::take(std::string_view bytes, double seconds) {
    wait_until(seconds);
    last_ = seconds;
    for (const char byte : bytes) {
        if (byte == '\r' || byte == '\n') {
            finish(true);
        } else if (bytes_.size() == most_bytes) {
            bytes_.clear();
            is_dropping_ = was_endless_ = true;
        } else if (!is_dropping_) {
            bytes_ += byte;
        }
    }
}

void PortReader::wait_until(double seconds) {
    if (is_waiting() && seconds - last_ > pause)
        finish(false);
}

void PortReader::finish(bool by_line) {
    if (!bytes_.empty())
        scans_.push_back({std::exchange(bytes_, {}), by_line});
    is_dropping_ = false;
}

std::vector<PortScan> PortReader::take_scans() { return std::exchange(scans_, {}); }
bool PortReader::take_endless() { return std::exchange(was_endless_, false); }

} // namespace mellowbin::ui
