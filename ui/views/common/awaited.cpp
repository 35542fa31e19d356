#include "ui/views/common/awaited.h"

#include "app/acts/notice.h"

namespace mellowbin::views {

std::optional<app::Notice::Kind> Awaited::take_answer(const app::Notice& notice) {
    if (!is_asked_ || notice.number == last_number_)
        return {};
    is_asked_ = false;
    return notice.kind;
}

} // namespace mellowbin::views
