#pragma once

#include "app/acts/notice.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "support/screen.h"
#include "ui/models/lots.h"
#include "ui/models/plan.h"
#include "ui/views/mixer/view.h"

#include <algorithm>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace mellowbin::test {

/// The Mixer's screen over a model that a test sets; what the person asked for is in `asked`.
struct OpenedMixer {
    app::MixerModel model;
    views::MixerView view;
    app::Notice notice;
    app::Overview overview;
    app::Intents asked;
    testing::Screen screen;

    explicit OpenedMixer(app::MixerModel mixer = a_batch(), ui::FrameSetup setup = {})
        : model(std::move(mixer)), screen([this] { draw(view, model, notice, overview, asked); }, setup) {
        screen.settle();
    }
    template <class T> std::vector<T> all() const {
        std::vector<T> found;
        for (const auto& intent : asked)
            if (const auto* one = intent.as<T>())
                found.push_back(*one);
        return found;
    }
    /// The application's answer, and the frames after it.
    void tell(app::Notice answer) {
        answer.number = notice.number + 1;
        notice = std::move(answer);
        screen.settle();
    }
    void tell_done() {
        ++model.batches_logged;
        tell(done(0, "done"));
    }
    void tell_refused(Refusals refusals) { tell(refused(0, std::move(refusals))); }
    /// Words in view of this role's sign, or nullptr.
    const ui::Note* note_with(std::string_view words) const {
        const auto& notes = screen.probe().notes();
        const auto at = std::find_if(notes.begin(), notes.end(), [&](const ui::Note& note) {
            return note.visible && note.label.find(words) != std::string::npos;
        });
        return at == notes.end() ? nullptr : &*at;
    }
};

inline bool is_whole_in_view(const ui::Note& note) {
    return note.seen.width() >= note.rect.width() - 1 && note.seen.height() >= note.rect.height() - 1;
}

/// What the window leaves to a screen at 1280 x 720, beside the rail and under the line on top.
inline ui::FrameSetup small_window(float text_size) {
    return {.width = 1060, .height = 620, .text_size = text_size};
}

} // namespace mellowbin::test
