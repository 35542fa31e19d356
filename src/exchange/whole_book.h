#pragma once

#include "core/result.h"

#include <cstdint>
#include <iosfwd>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

/// The whole book as one JSON document, table by table, row by row: for keeping and for other programs. What
/// it looks like says whole_book.schema.json (JSON Schema, draft 7) beside this file.
namespace mellowbin::exchange {

struct BookColumn {
    enum class Holds { whole, real, text };
    std::string name;
    Holds holds = Holds::text;
    friend bool operator==(const BookColumn&, const BookColumn&) = default;
};
/// Nothing where the book holds nothing.
using BookCell = std::variant<std::monostate, std::int64_t, double, std::string>;

/// Of the document itself; raised when it changes. The book's own form stands beside it.
inline constexpr int whole_book_version = 1;

/// Writes the document to a stream, a row at a time. Every value reads back to the last bit: numbers with the
/// digits that takes, text that is no UTF-8 as its bytes in hex.
class WholeBookWriter {
public:
    WholeBookWriter(std::ostream& out, int form, const std::string& made_at);
    void begin_table(const std::string& name, std::span<const BookColumn> columns);
    void row(std::span<const BookCell> cells);
    void end_table();
    void end();

private:
    std::ostream& out_;
    bool is_first_table_ = true, is_first_row_ = true;
};

/// Hears a document as it is read. A refusal ends the reading.
class WholeBookListener {
public:
    virtual ~WholeBookListener() = default;
    virtual Result<Done> begin(int form) = 0;
    virtual Result<Done> table(const std::string& name, const std::vector<BookColumn>& columns) = 0;
    virtual Result<Done> row(const std::vector<BookCell>& cells) = 0;
};

/// Reads a document from a stream without holding more of it than a row. Refused, naming the table and the
/// row where there is one: no JSON, a torn one, another document, a newer version, a table that stands twice,
/// a row that is not as wide as its table or holds what the column does not.
Result<Done> read_whole_book(std::istream& in, WholeBookListener& listener);

} // namespace mellowbin::exchange
