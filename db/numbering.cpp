#include "db/numbering.h"

#include <fmt/format.h>

namespace mellowbin {

std::int64_t next_number(Connection& connection, std::string_view table) {
    std::int64_t next = 0;
    connection.query(fmt::format("SELECT COALESCE(MAX(id), 0) + 1 FROM {}", table), {},
                     [&](const Row& row) { next = row.integer(0); });
    return next;
}

bool is_taken(Connection& connection, std::string_view table, std::string_view column, std::string_view text,
              std::int64_t id) {
    bool taken = false;
    connection.query(fmt::format("SELECT id FROM {} WHERE {} = $1 AND id <> $2", table, column), {text, id},
                     [&](const Row&) { taken = true; });
    return taken;
}

} // namespace mellowbin
