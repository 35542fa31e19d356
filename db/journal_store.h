#pragma once

#include "db/change.h"

#include <string_view>
#include <vector>

namespace mellowbin {

/// Reads the journal; only a Change writes it.
class JournalStore {
public:
    explicit JournalStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<JournalLine> newest(int count) const;               ///< newest first
    [[nodiscard]] std::vector<JournalLine> about(std::string_view subject) const; ///< oldest first

private:
    Connection& connection_;
};

} // namespace mellowbin
