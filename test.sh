#!/bin/bash
# Builds mellowbin with the address and undefined-behaviour sanitizers, runs every test, and then the fuzz targets for
# a minute. Reference tables that are not part of the project are taken from the folder MELLOWBIN_REFERENCE_DATA, or
# from ../shared/data beside the project; without them the tests that need one skip.
set -euo pipefail
# shellcheck source=.ci/set_up.sh
. "$(dirname "${BASH_SOURCE[0]}")/.ci/set_up.sh"

install_missing program tests

reference_data=${MELLOWBIN_REFERENCE_DATA:-}
if [ -z "$reference_data" ] && [ -d "$project/../shared/data" ]; then
    reference_data=$(cd "$project/../shared/data" && pwd)
fi
[ -z "$reference_data" ] || [ -d "$reference_data" ] || fail "MELLOWBIN_REFERENCE_DATA is no folder: $reference_data"
if [ -n "$reference_data" ]; then
    say "Reference tables: $reference_data"
else
    say "Reference tables: none; the tests that need one skip"
fi

configure test "-DMELLOWBIN_REFERENCE_DATA=$reference_data"
build test

say "Testing"
log="$project/.build/test.log"
outcome=0
(cd "$project" && xvfb-run -a -s "-screen 0 1600x1000x24" ctest --preset test --parallel "$(build_jobs)") 2>&1 |
    tee "$log" || outcome=$?

# CTest's last lines: "95% tests passed, 1 tests failed out of 20".
read -r failed total < <(sed -n 's/.*tests passed, \([0-9]*\) tests\{0,1\} failed out of \([0-9]*\).*/\1 \2/p' "$log") ||
    fail "CTest gave no count; its words are above and in $log"
[ "$total" -gt 0 ] || fail "no test was found"
if [ "$outcome" -ne 0 ] || [ "$failed" -ne 0 ]; then
    fail "$((total - failed)) passed, $failed failed (of $total test programs); the log is $log"
fi
# The readers of foreign bytes, for a minute; .ci/fuzz says where it is not to be had.
"$project/.ci/fuzz" 60
say "Done: $total passed, 0 failed (test programs), in $SECONDS s"
