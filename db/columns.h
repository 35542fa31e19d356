#pragma once

#include "db/connection.h"

#include <array>
#include <span>
#include <type_traits>
#include <utility>
#include <vector>

namespace mellowbin {

/// A column of a table of records: its name, what is written there of a record, and how that is read back.
/// The record's number stands before all columns and is none of them.
template <class Record> struct Column {
    std::string_view name;
    Value (*written)(const Record&);
    void (*read)(Record&, const Row&, int at);
};

// How a field is written and read by what it is.

template <class Field> Value value_of(const Field& field) {
    if constexpr (std::is_same_v<Field, bool>)
        return field ? 1 : 0;
    else
        return field;
}
inline void read_field(bool& field, const Row& row, int at) { field = row.integer(at) != 0; }
inline void read_field(int& field, const Row& row, int at) { field = static_cast<int>(row.integer(at)); }
inline void read_field(double& field, const Row& row, int at) { field = row.real(at); }
inline void read_field(std::optional<double>& field, const Row& row, int at) { field = row.maybe_real(at); }
inline void read_field(std::string& field, const Row& row, int at) { field = row.words(at); }
template <class Tag> void read_field(Quantity<Tag>& field, const Row& row, int at) {
    field = Quantity<Tag>{row.real(at)};
}
template <class Tag> void read_field(Id<Tag>& field, const Row& row, int at) {
    field = row.template id<Id<Tag>>(at);
}

template <class Word> Value value_of_word(Word word) { return key_of(word); }
template <class Word> Value value_of_word(std::optional<Word> word) {
    return word ? Value(key_of(*word)) : Value();
}
template <class Word> using FromKey = std::optional<Word> (*)(std::string_view);
template <class Word> void read_word(Word& field, FromKey<Word> from_key, const Row& row, int at) {
    field = row.key(at, from_key);
}
template <class Word>
void read_word(std::optional<Word>& field, FromKey<Word> from_key, const Row& row, int at) {
    field = row.maybe_key(at, from_key);
}

template <class Record, class Field> Record record_with(Field Record::*);
template <auto field> using RecordWith = decltype(record_with(field));

/// The column of a field: `column<&Product::name>("name")`.
template <auto field> constexpr Column<RecordWith<field>> column(std::string_view name) {
    using Record = RecordWith<field>;
    return {name, [](const Record& record) { return value_of(record.*field); },
            [](Record& record, const Row& row, int at) { read_field(record.*field, row, at); }};
}

/// The column of a field that is one of core's words, or may be none, stored by its key.
template <auto field, auto from_key> constexpr Column<RecordWith<field>> word_column(std::string_view name) {
    using Record = RecordWith<field>;
    return {name, [](const Record& record) { return value_of_word(record.*field); },
            [](Record& record, const Row& row, int at) { read_word(record.*field, from_key, row, at); }};
}

/// "SELECT id, … FROM table ORDER BY id".
std::string select_all(std::string_view table, std::span<const std::string_view> columns);
/// "INSERT INTO table (id, …) VALUES ($1, …)", which changes the record that has the number already.
std::string insert_or_change(std::string_view table, std::span<const std::string_view> columns);

template <class Record, std::size_t N>
constexpr std::array<std::string_view, N> names_of(const std::array<Column<Record>, N>& columns) {
    std::array<std::string_view, N> names;
    for (std::size_t i = 0; i < N; ++i)
        names[i] = columns[i].name;
    return names;
}

/// All records of a table, in the order they were added.
template <class Record, std::size_t N>
std::vector<Record> read_records(Connection& connection, std::string_view table,
                                 const std::array<Column<Record>, N>& columns) {
    std::vector<Record> records;
    connection.query(select_all(table, names_of(columns)), {}, [&](const Row& row) {
        auto& record = records.emplace_back();
        record.id = row.id<decltype(record.id)>(0);
        int at = 0;
        for (const auto& column : columns)
            column.read(record, row, ++at);
    });
    return records;
}

/// Writes the record under this number, over what the table has there.
template <class Record, std::size_t N>
void write_record(Connection& connection, std::string_view table,
                  const std::array<Column<Record>, N>& columns, decltype(Record::id) id,
                  const Record& record) {
    const auto write = [&]<std::size_t... at>(std::index_sequence<at...>) {
        connection.execute(insert_or_change(table, names_of(columns)), {id, columns[at].written(record)...});
    };
    write(std::make_index_sequence<N>{});
}

} // namespace mellowbin
