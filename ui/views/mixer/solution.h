#pragma once

#include "app/acts/notice.h"
#include "app/models/mixer.h"
#include "ui/views/common/form.h"

#include <string>

namespace mellowbin::views {

/// Today's stock solution of an oxidant: what is there, and the small form of a new one.
struct SolutionForm {
    bool is_open = false;
    bool wants_focus = false; ///< it was opened just now
    std::string substance;    ///< name; empty: the card's
    std::string strength;     ///< g/L, as typed
    std::string keeps;        ///< hours, as typed
    std::string answer;       ///< why it is so strong or weak, as typed
    Asked made, ended;

    /// Made, the form closes empty.
    void take_answer(const app::Notice& notice);
};

/// The solution's words, loud where it is past its time or missing, and what can be done about it.
void draw(SolutionForm& form, const app::MixerModel& model, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
