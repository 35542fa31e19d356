#pragma once

#include "db/change.h"

#include <vector>

namespace mellowbin {

/// A run draws a lot from a place, as somebody scanned or chose it.
struct DrawPlace {
    RunId run;
    LotId lot;
    PlaceId place;
    friend bool operator==(const DrawPlace&, const DrawPlace&) = default;
};

/// From where runs draw. Appended only: the newest row of a run and a lot holds.
class DrawStore {
public:
    explicit DrawStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::vector<DrawPlace> of(RunId run) const; ///< the newest of each lot
    /// Of runs of that day and later.
    [[nodiscard]] std::vector<DrawPlace> of_runs_since(Day first) const;
    void say(Change& change, const DrawPlace& draw);

private:
    Connection& connection_;
};

} // namespace mellowbin
