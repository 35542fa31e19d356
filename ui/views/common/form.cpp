#include "ui/views/common/form.h"

namespace mellowbin::views {

std::optional<app::Notice::Kind> Asked::take_answer(const app::Notice& notice) {
    if (!is_asked_ || notice.number == last_number_)
        return {};
    is_asked_ = false;
    refusals = notice.kind == app::Notice::Kind::refused ? notice.refusals : Refusals{};
    return notice.kind;
}

} // namespace mellowbin::views
