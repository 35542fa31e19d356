#pragma once

#include <string>

namespace mellowbin {
struct Listing;
}

namespace mellowbin::exchange {

/// The list as a CSV file (CsvWriter): a head line, then a line a row, so that any reader finds the columns;
/// what stands above the list on paper is not in it. Days are 2026-11-25, instants 2026-11-25T04:10:00Z,
/// numbers as they are, all digits; what is missing is an empty field.
std::string write_listing_csv(const Listing& listing);

} // namespace mellowbin::exchange
