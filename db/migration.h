#pragma once

#include <span>
#include <string_view>

namespace mellowbin {

/// A step from one form of the book to the next. Never edited once shipped.
struct Migration {
    int number = 0; ///< the form it leads to: 1, 2, 3 … without a gap
    std::string_view name;
    std::string_view sql; ///< statements ended by semicolons
};

/// The steps in db/migrations, in order, built into the program.
std::span<const Migration> built_in_migrations();

} // namespace mellowbin
