#pragma once

#include "exchange/plant_file.h"

#include <string>
#include <string_view>

namespace mellowbin::app {

struct Book;

/// The book's plant as a plant file says it: records in the order they were added, retired ones too, products
/// with their flours by name, and what the plant chose otherwise than the program does. Put into an empty
/// book, it describes that one the same.
exchange::PlantDescription described(const Book& book);

/// Whether a plant file has a member of its own for the choice of this key.
bool has_own_member(std::string_view key);

} // namespace mellowbin::app
