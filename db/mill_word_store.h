#pragma once

#include "core/mill_word.h"
#include "db/change.h"

#include <vector>

namespace mellowbin {

/// What the words on mills' certificates mean. A change is a new row; what is forgotten stays as it was, and
/// holds no more.
class MillWordStore {
public:
    explicit MillWordStore(Connection& connection) : connection_(connection) {}

    /// What holds of every mill, in the order in which it was learned.
    [[nodiscard]] std::vector<MillWord> holding() const;

    /// From now on the word means this, by the person and at the instant of the change's line.
    void keep(Change& change, const MillWord& word);
    /// Nothing is known any more of such a word.
    void forget(Change& change, const MillWord& word);

private:
    Connection& connection_;
};

} // namespace mellowbin
