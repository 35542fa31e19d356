#pragma once

#include "app/acts/notice.h"
#include "core/result.h"
#include "ui/views/common/awaited.h"

namespace mellowbin::views {

/// What a form asked for, and why it was refused: the refusals stay with what was typed until it is asked
/// again.
struct Asked {
    Awaited answer;
    Refusals refusals;

    void ask(const app::Notice& last) {
        refusals.clear();
        answer.ask(last);
    }
    /// True when it was done: the form may be emptied.
    bool is_done(const app::Notice& notice) {
        const auto kind = answer.take_answer(notice);
        if (kind == app::Notice::Kind::refused)
            refusals = notice.refusals;
        return kind == app::Notice::Kind::done;
    }
};

} // namespace mellowbin::views
