#include "db/columns.h"

#include <fmt/format.h>

namespace mellowbin {

std::string select_all(std::string_view table, std::span<const std::string_view> columns) {
    return fmt::format("SELECT id, {} FROM {} ORDER BY id", fmt::join(columns, ", "), table);
}

std::string insert_or_change(std::string_view table, std::span<const std::string_view> columns) {
    std::string parameters = "$1";
    std::string changes;
    int number = 1;
    for (const auto column : columns) {
        parameters += fmt::format(", ${}", ++number);
        changes += fmt::format("{}{} = excluded.{}", changes.empty() ? "" : ", ", column, column);
    }
    return fmt::format("INSERT INTO {} (id, {}) VALUES ({}) ON CONFLICT (id) DO UPDATE SET {}", table,
                       fmt::join(columns, ", "), parameters, changes);
}

} // namespace mellowbin
