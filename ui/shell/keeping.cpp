#include "ui/shell/keeping.h"

#include "ui/views/kept.h"

#include <utility>

namespace mellowbin::ui {

using views::KeptView;

Keeping::Keeping(const std::string& book, std::filesystem::path folder, app::KeptWork::Use use, Pause pause)
    : work_(book, std::move(folder), use), pause_(pause) {}

void Keeping::tell(views::Screens& screens, const app::Clock& clock) {
    auto& view = screens.kept;
    if (auto words = work_.take_trouble(); !words.empty())
        view.trouble = std::move(words);
    const auto* left = work_.left();
    view.left_begun = left ? left->text.begun : std::vector<std::string>();
    // Never today's: the day is said whatever it is.
    view.left_on = left ? clock.in_words(left->begun_at, Day{}) : std::string();
}

Keeping::After Keeping::follow(views::Screens& screens, const views::Models& models, Instant now,
                               app::Intents& out) {
    const auto answer = std::exchange(screens.kept.answer, KeptView::Answer::none);
    const auto* left = work_.left();
    if (answer == KeptView::Answer::take_up && left) {
        views::take_up(screens, models, left->text, out);
        work_.take_up();
        next_ = {}; // it stands in two places as short as can be
    } else if (answer == KeptView::Answer::throw_away && left) {
        work_.throw_away();
    } else if (answer == KeptView::Answer::close) {
        // Nothing is lost that was promised to be kept: then it is asked once more, in other words.
        const bool is_kept = end(screens, models, now);
        if (is_kept || !screens.kept.is_kept)
            return After::closing;
        screens.kept.is_kept = false;
        screens.kept.asks_to_close = true;
    }
    // What was answered leaves its form in the next frame, and is then offered to nobody any more.
    const bool is_answered = std::exchange(notice_, models.notice.number) != models.notice.number;
    if (std::exchange(was_answered_, is_answered) || is_answered)
        next_ = {};
    const auto clock = std::chrono::steady_clock::now();
    waits_ = clock < next_ || is_answered;
    if (clock >= next_) {
        next_ = clock + pause_;
        work_.keep(views::kept_of(screens, models), now);
    }
    return After::nothing;
}

bool Keeping::may_close(views::Screens& screens, const views::Models& models, Instant now) {
    const auto kept = views::kept_of(screens, models);
    work_.keep(kept, now);
    if (kept.is_empty()) {
        work_.finish();
        return true;
    }
    screens.kept.begun = kept.begun;
    screens.kept.is_kept = work_.finish();
    screens.kept.asks_to_close = true;
    return false;
}

bool Keeping::end(const views::Screens& screens, const views::Models& models, Instant now) {
    work_.keep(views::kept_of(screens, models), now);
    return work_.finish();
}

} // namespace mellowbin::ui
