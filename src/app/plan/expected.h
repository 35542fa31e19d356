#pragma once

#include "app/book/book.h"
#include "app/book/estimates.h"
#include "app/plan/lots.h"

#include <string>

/// Deliveries to come.
namespace mellowbin::app {

/// A delivery that should have come and has not: the plan takes it for tomorrow's.
bool is_late(const ExpectedDelivery& delivery, Day today);
/// The day a delivery can be used from: its arrival, or tomorrow where it is late, and the days quality
/// needs.
Day usable_from(const Book& book, const ExpectedDelivery& delivery, Day today);

/// What is expected of a delivery, and in words what that rests on: "figures as the mean of its last 3 lots".
struct Expectation {
    PlanFlour flour;
    std::string figures;
};
/// The mean of the newest lots of its mill and flour; what those do not say, the middle of the flour's
/// specification; what neither says is not known. The mill's additions are those of its newest lot. It ages
/// as fresh flour of its class where the newest such lot was received.
Expectation expectation_of(const Book& book, const Estimates& estimates, const ExpectedDelivery& delivery,
                           Day today);

} // namespace mellowbin::app
