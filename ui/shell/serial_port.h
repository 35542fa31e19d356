#pragma once

#include "app/acts/scanner.h"
#include "app/book/scanner.h"

#include <functional>
#include <memory>
#include <optional>
#include <vector>

namespace mellowbin::ui {

/// Listens at the scanner's port, on a thread of its own that sleeps while nothing comes. A port that is not
/// there, or was unplugged, is looked for once a second.
class SerialPort {
public:
    /// `wake`: called from that thread when there is something to take.
    explicit SerialPort(std::function<void()> wake);
    ~SerialPort();
    SerialPort(const SerialPort&) = delete;
    SerialPort& operator=(const SerialPort&) = delete;

    /// Listens there from now on; an empty path: nowhere. The same as before: nothing changes.
    void listen_at(const app::ScannerPort& port);
    /// Whole scans since it was asked last.
    std::vector<app::Scanned> take_scans();
    /// How the port stands, where that changed since it was asked last.
    std::optional<app::TellOfPort> take_news();

private:
    class Listener;
    std::function<void()> wake_;
    app::ScannerPort port_;
    bool was_set_ = false;
    std::unique_ptr<Listener> listener_; ///< null: no port is set
};

} // namespace mellowbin::ui
