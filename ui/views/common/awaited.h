#pragma once

#include "app/acts/notice.h"

#include <cstdint>
#include <optional>

namespace mellowbin::views {

/// A view's own note that it has asked for something: the next notice answers it. Refusals then belong to the
/// form that asked, and to no other.
class Awaited {
public:
    void ask(const app::Notice& last) {
        is_asked_ = true;
        last_number_ = last.number;
    }
    [[nodiscard]] bool is_waiting() const { return is_asked_; }
    /// What came of it, told once; nothing while it has not come, or nothing was asked.
    std::optional<app::Notice::Kind> take_answer(const app::Notice& notice);

private:
    bool is_asked_ = false;
    std::uint64_t last_number_ = 0;
};

} // namespace mellowbin::views
