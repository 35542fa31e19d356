#pragma once

#include "app/book/book.h"
#include "core/lot.h"

#include <string>
#include <vector>

/// What the plant asks of a delivery.
namespace mellowbin::app {

/// The checks at the door, in the order they are asked; a "yes" is well.
std::vector<std::string> door_questions(const Book& book);
/// What a lot's draft is checked against today.
IntakeContext intake_context(const Book& book, Day today);

} // namespace mellowbin::app
