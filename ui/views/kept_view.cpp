#include "ui/views/kept_view.h"

#include "ui/widgets/ui.h"

#include <fmt/format.h>

namespace mellowbin::views {
namespace {

using ui::ButtonKind;
using ui::Role;

void list(const std::vector<std::string>& begun) {
    for (const auto& words : begun)
        ui::paragraph(words, {.weight = ui::Weight::bold});
}

void ask_to_throw_away(KeptView& view) {
    const auto chosen =
        ui::ask({.title = fmt::format("Throw away what was begun on {}?", view.left_on),
                 .harmless = "Keep it",
                 .deed = "Throw it away",
                 .deed_kind = ButtonKind::stop},
                [&] {
                    list(view.left_begun);
                    ui::paragraph("What was typed of it is then lost. The book is not touched.");
                });
    if (chosen == ui::Answer::deed)
        view.answer = KeptView::Answer::throw_away;
    if (chosen != ui::Answer::none_yet)
        view.asks_to_throw_away = false;
}

void ask_to_close(KeptView& view) {
    const auto chosen = ui::ask(
        {.title = "Close with work begun?",
         .harmless = "Go on",
         .deed = view.is_kept ? "Keep it for the next time and close" : "Lose it and close",
         .deed_kind = view.is_kept ? ButtonKind::primary : ButtonKind::stop},
        [&] {
            list(view.begun);
            ui::paragraph(view.is_kept
                              ? "It is not in the book yet. It is offered at the next start on this "
                                "machine, as it was typed."
                              : "It is not in the book, and it cannot be kept on this machine: closed, "
                                "what was typed is lost.");
        });
    if (chosen == ui::Answer::deed)
        view.answer = KeptView::Answer::close;
    if (chosen != ui::Answer::none_yet)
        view.asks_to_close = false;
}

} // namespace

std::string in_words(const std::vector<std::string>& begun) {
    std::string words;
    for (std::size_t i = 0; i < begun.size(); ++i)
        words += (i == 0 ? "" : i + 1 == begun.size() ? " and " : ", ") + begun[i];
    return words;
}

void draw_kept(KeptView& view) {
    if (!view.left_begun.empty())
        ui::strip(Role::mind,
                  fmt::format("Work begun on {} was kept: {}", view.left_on, in_words(view.left_begun)), [&] {
                      if (ui::button("Take it up"))
                          view.answer = KeptView::Answer::take_up;
                      if (ui::button("Throw it away", {.kind = ButtonKind::quiet}))
                          view.asks_to_throw_away = true;
                  });
    if (!view.trouble.empty())
        ui::strip(Role::mind, view.trouble, [&] {
            if (ui::button("Understood", {.kind = ButtonKind::quiet}))
                view.trouble.clear();
        });
}

void draw_kept_questions(KeptView& view) {
    if (view.asks_to_close && !view.begun.empty())
        ask_to_close(view);
    else if (view.asks_to_throw_away && !view.left_begun.empty())
        ask_to_throw_away(view);
}

} // namespace mellowbin::views
