#include "db/record_parts.h"

#include <fmt/format.h>

namespace mellowbin {

Window window_from(const Row& row) {
    return {row.key(1, property_from_key), row.maybe_real(2), row.maybe_real(3), row.words(4)};
}

void write_windows(Connection& connection, std::string_view table, std::string_view owner, std::int64_t id,
                   const Specification& windows) {
    connection.execute(fmt::format("DELETE FROM {} WHERE {}_id = $1", table, owner), {id});
    const auto insert = fmt::format("INSERT INTO {} ({}_id, position, property, low, high, method) "
                                    "VALUES ($1, $2, $3, $4, $5, $6)",
                                    table, owner);
    int position = 0;
    for (const auto& w : windows)
        connection.execute(insert, {id, position++, traits(w.property).key, w.low, w.high, w.method});
}

} // namespace mellowbin
