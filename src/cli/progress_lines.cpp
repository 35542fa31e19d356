#include "cli/progress_lines.h"

#include "cli/say.h"

#include <memory>
#include <ostream>

namespace mellowbin::cli {

using namespace std::chrono_literals;

Progress progress_lines(std::ostream& err, std::function<std::chrono::steady_clock::time_point()> now) {
    const auto next = std::make_shared<std::chrono::steady_clock::time_point>(now() + 1s);
    return [&err, now = std::move(now), next](std::string_view what, double share) {
        const auto at = now();
        if (at < *next)
            return;
        *next = at + 2s;
        say(err, "mellowbin: the book is being brought to its present form: {}, {:.0f} % done\n", what,
            100 * share);
        err.flush();
    };
}

} // namespace mellowbin::cli
