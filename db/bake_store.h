#pragma once

#include "core/bake.h"
#include "db/change.h"

#include <string_view>
#include <vector>

namespace mellowbin {

/// The plant's trial bakes and how its bread kept. Appended only: a withdrawal is a second row, which these
/// lists show as is_withdrawn of the first. They are in the order in which they were logged.
class BakeStore {
public:
    explicit BakeStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<Bake> bakes() const;
    /// Writes the loaf under a new number, by the person and at the instant of the change's line.
    Result<BakeId> log(Change& change, const Bake& bake);
    /// Refused when there is none of that number, or it was withdrawn before.
    Result<Done> withdraw(Change& change, BakeId id, std::string_view note);

    [[nodiscard]] std::vector<KeepingRecord> records() const;
    Result<KeepingId> log(Change& change, const KeepingRecord& record);
    Result<Done> withdraw(Change& change, KeepingId id, std::string_view note);

private:
    Connection& connection_;
};

} // namespace mellowbin
