#pragma once

#include "core/retest.h"
#include "db/change.h"

#include <optional>
#include <string_view>
#include <vector>

namespace mellowbin {

/// The plant's own tests of its lots. Appended only: a withdrawal is a second row, which these lists show as
/// is_withdrawn of the first. They are in the order in which the retests were logged.
class RetestStore {
public:
    explicit RetestStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<Retest> all() const;
    [[nodiscard]] std::vector<Retest> of(LotId lot) const;
    /// Of the mill's lots that were delivered on these days, both included.
    [[nodiscard]] std::vector<Retest> of_mill(MillId mill, Day from, Day until) const;
    [[nodiscard]] std::optional<Retest> find(RetestId id) const;
    /// Lots that were tested, the newest lots first.
    [[nodiscard]] std::vector<LotId> tested_lots(int count) const;

    /// Writes the retest under a new number, by the person and at the instant of the change's line. Refused
    /// without any result.
    Result<RetestId> log(Change& change, const Retest& retest);
    /// Takes a retest back, by the person and at the instant of the change's line. Refused when there is none
    /// of that number, or it was withdrawn before.
    Result<Done> withdraw(Change& change, RetestId id, std::string_view note);

private:
    Connection& connection_;
};

} // namespace mellowbin
