#pragma once

#include "core/batch.h"
#include "db/change.h"

#include <string_view>
#include <vector>

namespace mellowbin {

/// Bags that were held against the cards of runs. Appended only.
class ScanStore {
public:
    explicit ScanStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<BagScan> of(RunId run) const;            ///< in the order they were read
    [[nodiscard]] std::vector<BagScan> of_runs_since(Day first) const; ///< of runs of that day and later

    /// Writes the scan under a new number, by the person and at the instant of the change's line.
    BagScanId log(Change& change, const BagScan& scan);
    /// Somebody of quality let a wrong bag be. Refused when there is no such scan, it was no wrong one, or it
    /// was cleared before.
    Result<Done> clear(Change& change, BagScanId id, std::string_view by, std::string_view reason);

private:
    Connection& connection_;
};

} // namespace mellowbin
