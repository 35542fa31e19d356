#include "app/book/setup.h"
#include "cli/grammar.h"

namespace mellowbin::cli {
namespace {

int open_window(Session& session, const WindowWish& wish) {
    if (!session.world().open_window)
        throw Failed{"this program was built without a window; see the other commands"};
    return session.world().open_window(session.set_up_to_begin(), wish);
}

} // namespace

void add_window_command(Grammar& grammar) {
    auto [words, typed] = grammar.command("window", "Open the window", open_window);
    words.option("--shot", typed.shot, "Draw the screen into this PNG file and leave");
    words.option("--screen", typed.screen, "Intake, Lots, Readiness, Plan, Mixer, Trace, Plant or Settings");
    words.option("--open", typed.open,
                 "For a picture: press what has these words, a lot, a page or a button; one after another");
    words.option("--text-size", typed.text_size, "1 to 2").within(1.0, 2.0);
    words.option("--width", typed.width).within(640, 8192);
    words.option("--height", typed.height).within(480, 8192);
    words.flag("--dark", typed.is_dark, "Dark, for offices at night");
}

} // namespace mellowbin::cli
