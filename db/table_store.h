#pragma once

#include "db/change.h"
#include "db/progress.h"

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace mellowbin {

/// A column of a table as the engine has it.
struct TableColumn {
    enum class Holds { whole, real, text };
    std::string name;
    Holds holds = Holds::text;
    bool is_key = false; ///< of the primary key
    friend bool operator==(const TableColumn&, const TableColumn&) = default;
};

struct TableShape {
    std::string name;
    std::vector<TableColumn> columns; ///< in the table's order
    friend bool operator==(const TableShape&, const TableShape&) = default;
};

/// A row of any table, a cell a column.
using TableRow = std::vector<Value::Held>;

/// The book table by table, as the engine itself lists them, whatever migrations made of it: for taking all
/// of it out and putting it into a new book. The engine's lists and the way its triggers rest are SQLite's
/// own; another driver brings its own.
class TableStore {
public:
    explicit TableStore(Connection& connection) : connection_(connection) {}

    /// The number of the newest migration that the book has gone through.
    [[nodiscard]] int form() const;
    /// By name.
    [[nodiscard]] std::vector<TableShape> tables() const;
    [[nodiscard]] std::int64_t rows_in(const TableShape& table) const;
    /// Every row in the order of its primary key.
    void read(const TableShape& table, const std::function<void(const TableRow&)>& take) const;

private:
    Connection& connection_;
};

/// A scope in which a new book is filled row by row. Rows come as they were: the rules for acts (triggers)
/// rest until finish(), those for values (types, checks, references) hold. Leaving without finish() leaves
/// the book as it was.
class TableFilling {
public:
    /// Empties all tables: what a book is born with comes with the rows.
    explicit TableFilling(Connection& connection);
    /// A row as wide as the table. Throws BookError, BookFault::rule_broken, for one that the table does not
    /// take.
    void write(const TableShape& table, const TableRow& row);
    /// Throws BookError where a row refers to nothing.
    void finish();

private:
    struct Trigger {
        std::string name, sql;
    };
    Transaction transaction_;
    std::vector<Trigger> triggers_;
};

} // namespace mellowbin
