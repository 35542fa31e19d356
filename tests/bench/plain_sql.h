#pragma once

#include <fmt/format.h>

#include <cstdint>
#include <filesystem>
#include <sqlite3.h>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

/// The engine itself, for what a benchmark writes by the million: no store of the program's is in the way.
namespace mellowbin::bench {

class PlainBook {
public:
    explicit PlainBook(const std::filesystem::path& path) {
        check(sqlite3_open(path.c_str(), &book_));
        // A book for a benchmark is made anew when the machine fails.
        run("PRAGMA synchronous = OFF");
        run("PRAGMA foreign_keys = OFF");
        run("PRAGMA cache_size = -200000");
    }
    PlainBook(const PlainBook&) = delete;
    PlainBook& operator=(const PlainBook&) = delete;
    ~PlainBook() { sqlite3_close(book_); }

    void run(const char* sql) { check(sqlite3_exec(book_, sql, nullptr, nullptr, nullptr)); }
    /// The first column of each row.
    std::vector<std::int64_t> numbers(std::string_view sql) {
        std::vector<std::int64_t> found;
        each(sql, [&](sqlite3_stmt* row) { found.push_back(sqlite3_column_int64(row, 0)); });
        return found;
    }
    std::string words(std::string_view sql) {
        std::string found;
        each(sql, [&](sqlite3_stmt* row) {
            if (const auto* text = sqlite3_column_text(row, 0))
                found = reinterpret_cast<const char*>(text);
        });
        return found;
    }
    std::int64_t next(std::string_view table) {
        return numbers(fmt::format("SELECT COALESCE(MAX(id), 0) + 1 FROM {}", table)).at(0);
    }

    void check(int result) const {
        if (result != SQLITE_OK && result != SQLITE_DONE && result != SQLITE_ROW)
            throw std::runtime_error(book_ ? sqlite3_errmsg(book_) : "the book cannot be opened");
    }
    sqlite3_stmt* prepare(std::string_view sql) const {
        sqlite3_stmt* statement = nullptr;
        check(sqlite3_prepare_v2(book_, sql.data(), static_cast<int>(sql.size()), &statement, nullptr));
        return statement;
    }

private:
    template <class Read> void each(std::string_view sql, Read read) {
        sqlite3_stmt* statement = prepare(sql);
        while (sqlite3_step(statement) == SQLITE_ROW)
            read(statement);
        check(sqlite3_finalize(statement));
    }
    sqlite3* book_ = nullptr;
};

/// One prepared insert, run again and again: `insert(1, "text", nullptr)`.
class Insert {
public:
    /// `into`: a table and its columns, "lot (id, code)".
    Insert(const PlainBook& book, const std::string& into) : book_(book) {
        std::string marks = "?";
        for (const char c : into)
            marks += c == ',' ? ", ?" : "";
        statement_ = book.prepare("INSERT INTO " + into + " VALUES (" + marks + ")");
    }
    Insert(const Insert&) = delete;
    Insert& operator=(const Insert&) = delete;
    ~Insert() { sqlite3_finalize(statement_); }

    template <class... Values> void operator()(const Values&... values) {
        int position = 0;
        (bind(++position, values), ...);
        book_.check(sqlite3_step(statement_));
        sqlite3_reset(statement_);
    }

private:
    void bind(int at, std::int64_t number) { sqlite3_bind_int64(statement_, at, number); }
    void bind(int at, int number) { sqlite3_bind_int(statement_, at, number); }
    void bind(int at, double number) { sqlite3_bind_double(statement_, at, number); }
    void bind(int at, std::nullptr_t) { sqlite3_bind_null(statement_, at); }
    void bind(int at, std::string_view text) {
        sqlite3_bind_text(statement_, at, text.data(), static_cast<int>(text.size()), SQLITE_STATIC);
    }

    const PlainBook& book_;
    sqlite3_stmt* statement_ = nullptr;
};

} // namespace mellowbin::bench
