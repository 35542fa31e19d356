#include "db/table_store.h"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace mellowbin {
namespace {

std::string named_in_sql(std::string_view name) {
    std::string words = "\"";
    for (const char c : name)
        words += c == '"' ? "\"\"" : std::string(1, c);
    return words + '"';
}

TableColumn::Holds holds_of(std::string_view type) {
    if (type == "INTEGER" || type == "INT")
        return TableColumn::Holds::whole;
    if (type == "REAL")
        return TableColumn::Holds::real;
    if (type == "TEXT")
        return TableColumn::Holds::text;
    throw BookError(BookFault::damaged,
                    fmt::format("The book has a column of the kind {}, which is not known.", type));
}

std::string names_of(const TableShape& table, bool keys_only) {
    std::string names;
    for (const auto& column : table.columns)
        if (!keys_only || column.is_key)
            names += (names.empty() ? "" : ", ") + named_in_sql(column.name);
    return names;
}

Value::Held held(const Row& row, int at, TableColumn::Holds holds) {
    if (row.is_null(at))
        return {};
    switch (holds) {
    case TableColumn::Holds::whole:
        return row.integer(at);
    case TableColumn::Holds::real:
        return row.real(at);
    case TableColumn::Holds::text:
        break;
    }
    return row.words(at);
}

Value value_of(const Value::Held& held) {
    return std::visit(
        [](const auto& one) {
            if constexpr (std::is_same_v<std::decay_t<decltype(one)>, std::monostate>)
                return Value();
            else
                return Value(one);
        },
        held);
}

// A statement takes its parameters as a list that is written out, so there is one for each width.
constexpr std::size_t widest_table = 64;
using Run = void (*)(Connection&, std::string_view, const std::vector<Value>&);

template <std::size_t... At>
void run_with(Connection& book, std::string_view sql, const std::vector<Value>& values,
              std::index_sequence<At...>) {
    book.execute(sql, {values[At]...});
}
template <std::size_t Width>
void run(Connection& book, std::string_view sql, const std::vector<Value>& values) {
    run_with(book, sql, values, std::make_index_sequence<Width>());
}
template <std::size_t... Width>
constexpr std::array<Run, sizeof...(Width)> runs_of(std::index_sequence<Width...>) {
    return {&run<Width + 1>...};
}
constexpr auto runs = runs_of(std::make_index_sequence<widest_table>());

std::string insertion(const TableShape& table) {
    std::string places;
    for (std::size_t at = 1; at <= table.columns.size(); ++at)
        places += fmt::format("{}${}", at == 1 ? "" : ", ", at);
    return fmt::format("INSERT INTO {} ({}) VALUES ({})", named_in_sql(table.name), names_of(table, false),
                       places);
}

} // namespace

int TableStore::form() const {
    std::int64_t form = 0;
    connection_.query("PRAGMA user_version", {}, [&](const Row& row) { form = row.integer(0); });
    return static_cast<int>(form);
}

std::vector<TableShape> TableStore::tables() const {
    std::vector<TableShape> tables;
    connection_.query(
        "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' "
        "ORDER BY name",
        {}, [&](const Row& row) {
            tables.push_back({row.words(0), {}});
        });
    for (auto& table : tables) {
        connection_.query(
            "SELECT name, type, pk FROM pragma_table_info($1) ORDER BY cid", {table.name},
            [&](const Row& row) {
                table.columns.push_back({row.words(0), holds_of(row.text(1)), row.integer(2) > 0});
            });
        promised(!table.columns.empty() && table.columns.size() <= widest_table);
    }
    return tables;
}

std::int64_t TableStore::rows_in(const TableShape& table) const {
    std::int64_t rows = 0;
    connection_.query(fmt::format("SELECT COUNT(*) FROM {}", named_in_sql(table.name)), {},
                      [&](const Row& row) { rows = row.integer(0); });
    return rows;
}

void TableStore::read(const TableShape& table, const std::function<void(const TableRow&)>& take) const {
    const auto keys = names_of(table, true);
    TableRow cells(table.columns.size());
    connection_.query(fmt::format("SELECT {} FROM {}{}{}", names_of(table, false), named_in_sql(table.name),
                                  keys.empty() ? "" : " ORDER BY ", keys),
                      {}, [&](const Row& row) {
                          for (std::size_t at = 0; at < cells.size(); ++at)
                              cells[at] = held(row, static_cast<int>(at), table.columns[at].holds);
                          take(cells);
                      });
}

TableFilling::TableFilling(Connection& connection) : transaction_(connection) {
    connection.execute("PRAGMA defer_foreign_keys = ON"); // until the commit
    connection.query("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'", {}, [&](const Row& row) {
        triggers_.push_back({row.words(0), row.words(1)});
    });
    for (const auto& trigger : triggers_)
        connection.execute("DROP TRIGGER " + named_in_sql(trigger.name));
    for (const auto& table : TableStore(connection).tables())
        connection.execute("DELETE FROM " + named_in_sql(table.name));
}

void TableFilling::write(const TableShape& table, const TableRow& row) {
    promised(row.size() == table.columns.size());
    std::vector<Value> values;
    for (const auto& cell : row)
        values.push_back(value_of(cell));
    runs.at(values.size() - 1)(transaction_.connection(), insertion(table), values);
}

void TableFilling::finish() {
    for (const auto& trigger : triggers_)
        transaction_.connection().execute(trigger.sql);
    transaction_.commit();
}

} // namespace mellowbin
