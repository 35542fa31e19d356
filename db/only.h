#pragma once

#include <optional>
#include <utility>
#include <vector>

namespace mellowbin {

/// The record of an answer that has one at most.
template <class Record> std::optional<Record> only(std::vector<Record> found) {
    if (found.empty())
        return {};
    return std::move(found.front());
}

} // namespace mellowbin
