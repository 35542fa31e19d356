#pragma once

#include <stdexcept>

namespace mellowbin {

/// The program broke a promise it made to itself: a fault of ours, never of what people typed.
class BrokenPromise : public std::logic_error {
public:
    using std::logic_error::logic_error;
};

[[noreturn]] void break_promise(const char* file, int line);

/// What must hold by then, in every build. Where it does not, BrokenPromise flies to App::handle, to the end
/// of a job or of a command, and becomes a failure that is told; nothing that rests on it is done. (The
/// compilers' own words for where it stands: Debian 12's clang cannot read std::source_location yet.)
constexpr void promised(bool holds, const char* file = __builtin_FILE(), int line = __builtin_LINE()) {
    if (!holds)
        break_promise(file, line);
}

} // namespace mellowbin
