#pragma once

#include "aging/outlook.h"
#include "app/book.h"

#include <unordered_map>
#include <vector>

namespace mellowbin::app {

/// The aging estimate of every lot, kept as long as what it is made from stays the same.
class Estimates {
public:
    /// Makes the estimates that are missing or whose lot was moved; forgets nothing that still holds.
    void follow(const Book& book, Day today);

    [[nodiscard]] const aging::Estimate& of(LotId lot) const { return known_.at(lot.number()).estimate; }
    [[nodiscard]] const aging::Outlook& outlook_today(LotId lot) const {
        return known_.at(lot.number()).outlook;
    }
    [[nodiscard]] double confidence() const { return confidence_; }

private:
    struct Known {
        std::size_t moves; ///< of the lot when it was made
        aging::Estimate estimate;
        aging::Outlook outlook;
    };
    std::unordered_map<std::int64_t, Known> known_;
    double confidence_ = 0;
    Day today_{};
};

/// What the estimate of a lot is made from: its milling, and the places it lay in by its movements.
aging::StoredFlour stored_flour(const Book& book, const Lot& lot);

} // namespace mellowbin::app
