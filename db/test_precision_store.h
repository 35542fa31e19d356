#pragma once

#include "core/test_precision.h"
#include "db/change.h"

#include <optional>
#include <vector>

namespace mellowbin {

/// How far two results may lie apart, as the plant has read it in its own standards.
class TestPrecisionStore {
public:
    explicit TestPrecisionStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<TestPrecision> rows() const; ///< in the order they were entered
    [[nodiscard]] std::optional<TestPrecision> find(std::int64_t id) const;
    /// Writes it under its number, or a new one where it has none; by the person and at the instant of the
    /// change's line. It has an R.
    std::int64_t save(Change& change, const TestPrecision& row);
    void remove(Change& change, std::int64_t id);

private:
    Connection& connection_;
};

} // namespace mellowbin
