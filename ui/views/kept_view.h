#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace mellowbin::views {

/// What is said and asked of work begun: what was left by a window that is gone, what cannot be kept, whether
/// the window may close. Whoever holds the window fills it before a frame and looks what was answered after.
struct KeptView {
    enum class Answer { none, take_up, throw_away, close };

    std::string left_on;                 ///< "Tue 24 Nov, 04:12"
    std::vector<std::string> left_begun; ///< in words; empty: nothing is offered
    std::string trouble;                 ///< why work is not kept; empty: it is, or that was read

    std::vector<std::string> begun; ///< in this window now
    bool asks_to_close = false;     ///< the window is to be closed although something is begun
    bool is_kept = true;            ///< what is begun is there at the next start

    bool asks_to_throw_away = false;
    Answer answer = Answer::none; ///< until it is taken
};

/// "a delivery of 3 lots and a retest of lot W24-118".
std::string in_words(const std::vector<std::string>& begun);

/// Strips over the screen; nothing where nothing is to be said.
void draw_kept(KeptView& view);
/// What is asked stands over everything.
void draw_kept_questions(KeptView& view);

} // namespace mellowbin::views
