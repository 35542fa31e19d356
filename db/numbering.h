#pragma once

#include "db/connection.h"

#include <string_view>

namespace mellowbin {

/// The record's own number, or the next free one of the table for a record that is not yet in the book. Safe
/// within a Transaction only, which keeps other writers away.
template <class SomeId> SomeId number_for(Connection& connection, std::string_view table, SomeId id);

/// The next free number of the table.
std::int64_t next_number(Connection& connection, std::string_view table);

/// Another record than `id` has this text in the column.
bool is_taken(Connection& connection, std::string_view table, std::string_view column, std::string_view text,
              std::int64_t id);

template <class SomeId> SomeId number_for(Connection& connection, std::string_view table, SomeId id) {
    return id.is_known() ? id : SomeId{next_number(connection, table)};
}

} // namespace mellowbin
