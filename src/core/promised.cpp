#include "core/promised.h"

#include <fmt/format.h>

namespace mellowbin {

void break_promise(const char* file, int line) {
    throw BrokenPromise(fmt::format("a promise of the program was broken at {}:{}", file, line));
}

} // namespace mellowbin
