#include "cli/progress_lines.h"
#include "support/catch.h"

#include <algorithm>
#include <sstream>

using namespace mellowbin;
using namespace std::chrono_literals;

TEST_CASE("Of an older book a terminal hears nothing within a second, and then a line every two seconds") {
    std::ostringstream err;
    std::chrono::steady_clock::time_point now{};
    const auto progress = cli::progress_lines(err, [&] { return now; });
    for (; now.time_since_epoch() < 900ms; now += 100ms)
        progress("copying it first", 0.1);
    CHECK(err.str().empty());
    for (; now.time_since_epoch() < 6s; now += 10ms)
        progress("changing its form", 0.5);
    const std::string lines = err.str();
    CHECK(std::count(lines.begin(), lines.end(), '\n') == 3);
    CHECK_THAT(lines, Catch::Contains("present form: changing its form, 50 % done"));
}
