#pragma once

#include "ui/widgets/body.h"
#include "ui/widgets/button.h"

#include <string_view>

namespace mellowbin::ui {

enum class Answer { none_yet, harmless, deed };

/// Something a person must decide. Refusals of a field are no question: they stand beside it.
struct Question {
    std::string_view title; ///< the question: "Reject lot W24-118?"
    std::string_view
        harmless;          ///< a verb: "Keep lot". Escape gives this answer, and it has the focus at first
    std::string_view deed; ///< a verb: "Reject lot"
    ButtonKind deed_kind = ButtonKind::primary; ///< stop for what rejects or discards
    std::string_view deed_blocked = {};         ///< why the deed cannot be done yet: "Give a reason"
};

/// Draws the question over the screen, as long as the view calls it each frame; the view stops when there is
/// an answer. Nothing behind it can be pressed. The body may hold fields; Enter in one of them does the deed.
Answer ask(const Question& question, Body body = {});

/// A question stood over the screen in the frame before.
bool is_asked();

/// Something failed that the person did not cause.
struct Failure {
    std::string_view title;   ///< "The book could not be written"
    std::string_view meaning; ///< what it means for the lot, the plan, what was typed
    std::string_view remedy;  ///< what to do
    std::string_view details; ///< for the one who mends it; folded, with "Copy details"
};
/// True when it was put away ("Go on", Escape).
bool failure_box(const Failure& failure);

} // namespace mellowbin::ui
