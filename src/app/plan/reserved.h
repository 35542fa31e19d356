#pragma once

#include "app/book/book.h"

#include <string>

/// Flour that is spoken for, and what is free of it.
namespace mellowbin::app {

/// Flour of the lot kept back from every plan.
Grams kept_back(const Book& book, LotId lot);
/// Why the lot is not for this product, in words; empty: it may be.
std::string kept_for_others(const Book& book, LotId lot, const Product& product);
/// Flour of the lot that lies there and that no run has and nobody kept back.
Grams free_of(const Book& book, LotId lot);

} // namespace mellowbin::app
