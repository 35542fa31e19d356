#pragma once

#include <array>
#include <cstdio>
#include <string>

namespace mellowbin::testing {

/// Another program's word on what we wrote.
struct Outside {
    int code = -1;
    std::string out; ///< what it printed, errors too
};

inline Outside run_outside(const std::string& command) {
    Outside ran;
    FILE* pipe = ::popen((command + " 2>&1").c_str(), "r");
    if (!pipe)
        return ran;
    std::array<char, 4096> bytes{};
    for (std::size_t got = 0; (got = std::fread(bytes.data(), 1, bytes.size(), pipe)) > 0;)
        ran.out.append(bytes.data(), got);
    ran.code = ::pclose(pipe);
    return ran;
}

/// The program can be run here; where it cannot, a test says what it skipped.
inline bool is_at_hand(const std::string& program) { return run_outside("command -v " + program).code == 0; }

} // namespace mellowbin::testing
