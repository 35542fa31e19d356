#pragma once

#include "core/specification.h"
#include "db/connection.h"

#include <unordered_map>
#include <vector>

namespace mellowbin {

/// Adds what belongs to a record: rows that begin with the record's number, in the record's own order.
template <class Record, class Add>
void add_parts(Connection& connection, std::string_view sql, std::vector<Record>& records, Add add) {
    std::unordered_map<std::int64_t, Record*> by_number;
    for (auto& record : records)
        by_number[record.id.number()] = &record;
    connection.query(sql, {}, [&](const Row& row) {
        if (const auto at = by_number.find(row.integer(0)); at != by_number.end())
            add(*at->second, row);
    });
}

/// From property, low, high and method behind the owner's number.
Window window_from(const Row& row);

/// `table` of windows, each the `owner`'s.
void write_windows(Connection& connection, std::string_view table, std::string_view owner, std::int64_t id,
                   const Specification& windows);

} // namespace mellowbin
