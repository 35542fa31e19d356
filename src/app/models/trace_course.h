#pragma once

#include "core/flour_course.h"
#include "db/trace_store.h"

#include <map>
#include <optional>
#include <set>
#include <vector>

namespace mellowbin::app {

/// What silos did to the lots of a trace: the movements of all lots that lay in the same silos since these
/// were last empty, entered one after another. Where no lot of the trace ever was in a silo nothing is read.
class TraceCourse {
public:
    TraceCourse(Connection& connection, const std::vector<LotId>& traced);

    /// The lots that were followed: one that is not here never met another.
    [[nodiscard]] const std::set<LotId>& lots() const { return lots_; }
    [[nodiscard]] const std::vector<DrawnPart>& moved_by(MovementId movement) const {
        return course_.moved_by(movement);
    }
    /// What lies under the name of a lot, in all places.
    [[nodiscard]] std::vector<DrawnPart> lying(LotId named) const;
    /// Grams of the followed lot in stock, by the book.
    [[nodiscard]] Grams in_stock(LotId lot) const { return stock_.total(lot); }

private:
    std::set<LotId> lots_;
    FlourCourse course_;
    StockBook stock_;
};

} // namespace mellowbin::app
