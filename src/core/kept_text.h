#pragma once

#include <map>
#include <string>
#include <vector>

namespace mellowbin {

/// Work that was begun in a window and is not in the book: what it is, and every text that was typed, letter
/// by letter.
struct KeptText {
    std::vector<std::string> begun;            ///< in words: "a delivery of 3 lots"; empty: nothing is begun
    std::map<std::string, std::string> fields; ///< by the path of the field: "intake/lots/0/draft/code"

    [[nodiscard]] bool is_empty() const { return begun.empty(); }
    friend bool operator==(const KeptText&, const KeptText&) = default;
};

} // namespace mellowbin
