#include "app/app.h"
#include "app/book/setup.h"
#include "cli/grammar.h"

namespace mellowbin::cli {
namespace {

int open_window(Session& session, const WindowWish& wish) {
    if (!session.world().open_window)
        throw Failed{"this program was built without a window; see the other commands"};
    app::App app(session.set_up());
    return session.world().open_window(app, wish);
}

} // namespace

void add_window_command(Grammar& grammar) {
    auto [words, typed] = grammar.command("window", "Open the window", open_window);
    words.add_option("--shot", typed.shot, "Draw the screen into this PNG file and leave");
    words.add_option("--screen", typed.screen, "Intake, Lots, Readiness, Plan, Mixer or Settings");
    words.add_option("--text-size", typed.text_size, "1 to 2")->check(CLI::Range(1.0, 2.0));
    words.add_option("--width", typed.width)->check(CLI::Range(640, 8192));
    words.add_option("--height", typed.height)->check(CLI::Range(480, 8192));
    words.add_flag("--dark", typed.is_dark, "Dark, for offices at night");
}

} // namespace mellowbin::cli
