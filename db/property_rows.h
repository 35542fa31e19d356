#pragma once

#include "core/property.h"
#include "db/connection.h"

#include <span>

namespace mellowbin {

/// From this form on a book keeps the list of properties, by which it checks every result that is written.
inline constexpr int first_form_with_properties = 5;

/// Brings the book's list of properties up to the program's: adds what is missing, changes what is another.
/// Writes nothing where all of it is right. Within no Transaction, as it takes one where it must write.
/// Throws BookFault::newer_book where the book has a property that is not among these: what is reported of it
/// could not be read.
void bring_properties_up_to_date(Connection& book,
                                 std::span<const PropertyTraits> properties = all_properties());

} // namespace mellowbin
