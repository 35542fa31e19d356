#pragma once

#include "core/plant.h"
#include "db/connection.h"

#include <vector>

namespace mellowbin {

/// All products with their windows and ingredients, in the order they were added.
std::vector<Product> read_products(Connection& connection);

/// Writes the product with all its parts under this number, over what the book has there.
void write_product(Connection& connection, ProductId id, const Product& product);

} // namespace mellowbin
