#!/bin/bash
# Makes mellowbin ready on this machine, fills a demo book and opens the window on your own; the first time that asks
# whether to set up your plant or to look at the demo. Without a display it prints the demo's plan and cards instead.
# Run it again at any time: it does only what is still to do.
set -euo pipefail
# shellcheck source=.ci/set_up.sh
. "$(dirname "${BASH_SOURCE[0]}")/.ci/set_up.sh"

program="$project/.build/release/mellowbin"
demo="${XDG_DATA_HOME:-${HOME:?HOME is not set}/.local/share}/mellowbin/demo.mbook"

# The program's commands, all in one place.
make_demo_book() { "$program" --book "$demo" demo; }
open_window() { "$program" window; }
print_plan_and_cards() {
    "$program" --book "$demo" plan
    "$program" --book "$demo" card --today-all
}

install_missing program
[ -f "$project/.build/release/build.ninja" ] || configure release -DBUILD_TESTING=OFF
build release mellowbin

if [ -e "$demo" ]; then
    say "The demo book is there: $demo"
else
    say "Making a demo book: $demo"
    mkdir -p "$(dirname "$demo")"
    make_demo_book || fail "the demo book could not be made; the line above says why"
fi

if [ -z "${DISPLAY:-}" ] && [ -z "${WAYLAND_DISPLAY:-}" ]; then
    say "There is no display here, so no window opens. The plan and today's cards of the demo as text:"
    print_plan_and_cards || fail "the plan and the cards could not be shown; the line above says why"
    say "Done. On a machine with a screen, ./start.sh opens the window."
else
    say "Opening the window"
    open_window || fail "the window did not open or did not close well; the line above says why"
    say "Done: the window was closed. ./start.sh opens it again."
fi
