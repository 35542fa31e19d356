#pragma once

#include "app/book/book.h"
#include "core/lot.h"

#include <string>
#include <string_view>
#include <vector>

/// What the plant asks of a delivery.
namespace mellowbin::app {

/// Stands in a check for the temperature from which flour is delivered warm.
inline constexpr std::string_view temperature_limit = "[temperature]";
/// What is asked where the plant has no checks of its own.
std::vector<std::string> usual_door_checks();
/// The checks at the door, in the order they are asked; a "yes" is well.
std::vector<std::string> door_questions(const Book& book);
/// What the weights of a delivery may differ by, %.
double delivery_tolerance(const Book& book);
/// Within how many days of its own an expected delivery is offered.
int match_days(const Book& book);
/// What a lot's draft is checked against today.
IntakeContext intake_context(const Book& book, Day today);

} // namespace mellowbin::app
