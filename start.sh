#!/bin/bash
# Makes mellowbin ready on this machine and opens it on a demo book. Run it again at any time: it does only what is
# still to do.
set -euo pipefail
# shellcheck source=.ci/set_up.sh
. "$(dirname "${BASH_SOURCE[0]}")/.ci/set_up.sh"

program="$project/.build/release/mellowbin"
book="${XDG_DATA_HOME:-${HOME:?HOME is not set}/.local/share}/mellowbin/demo.mbook"

# The program's commands, all in one place.
make_demo_book() { "$program" --book "$book" demo; }
open_window() { "$program" --book "$book" window; }
print_plan_and_cards() {
    "$program" --book "$book" plan
    "$program" --book "$book" card --today-all
}

install_missing program
[ -f "$project/.build/release/build.ninja" ] || configure release -DBUILD_TESTING=OFF
build release mellowbin

if [ -e "$book" ]; then
    say "The demo book is there: $book"
else
    say "Making a demo book: $book"
    mkdir -p "$(dirname "$book")"
    make_demo_book || fail "the demo book could not be made; the line above says why"
fi

if [ -z "${DISPLAY:-}" ] && [ -z "${WAYLAND_DISPLAY:-}" ]; then
    say "There is no display here, so no window opens. The plan and today's cards as text:"
    print_plan_and_cards || fail "the plan and the cards could not be shown; the line above says why"
    say "Done. On a machine with a screen, ./start.sh opens the window."
else
    say "Opening the window"
    open_window || fail "the window did not open or did not close well; the line above says why.
    As text: $program --book '$book' plan"
    say "Done: the window was closed. ./start.sh opens it again."
fi
