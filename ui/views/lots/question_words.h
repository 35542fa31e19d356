#pragma once

#include "ui/views/lots/question.h"
#include "ui/widgets/button.h"

#include <string>
#include <string_view>

namespace mellowbin::views {

/// What a question is called, and its two answers.
struct QuestionWords {
    std::string title;
    std::string_view harmless, deed;
    ui::ButtonKind kind = ui::ButtonKind::primary;
};
QuestionWords words_for(const LotQuestion& question);
/// What follows from it; empty: nothing that it does not say.
std::string_view what_it_means(const LotQuestion& question);

} // namespace mellowbin::views
