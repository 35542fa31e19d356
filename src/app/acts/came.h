#pragma once

#include "app/acts/assignments.h"
#include "app/book/book.h"

#include <span>
#include <string>
#include <vector>

/// An expected delivery that came: what plans had from it goes to its lots.
namespace mellowbin::app {

/// A lot that it came as, and what of that no run has.
struct LotThere {
    LotId lot;
    Grams free;
};

/// The runs that flour of it is promised to, by day: the earlier run comes first where the lots do not reach.
std::vector<RunId> promised_runs(const Book& book, ExpectedId delivery);

/// What the runs have when the flour promised to them is the lots', as far as those reach, the first lot
/// first.
struct Arrived {
    RestoreAssignments plan;
    Grams missing; ///< promised, and more than the lots have
};
Arrived arrived(const Book& book, const ExpectedDelivery& delivery, std::vector<LotThere> lots,
                const std::vector<RunId>& runs);

/// "Delivery E-3 came as lot W24-118; it goes to the 2 runs that counted on it"
std::string came_in_words(const ExpectedDelivery& delivery, const std::string& as, std::size_t runs,
                          Grams missing);
std::string called_off_in_words(const ExpectedDelivery& delivery, const std::string& reason,
                                std::size_t runs);

} // namespace mellowbin::app
