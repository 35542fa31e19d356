#include "app/book/whole_book.h"

#include "app/book/durable_file.h"
#include "db/sqlite_connection.h"
#include "db/table_store.h"
#include "exchange/whole_book.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <optional>

namespace mellowbin::app {
namespace {

namespace fs = std::filesystem;
using exchange::BookColumn;

std::vector<BookColumn> columns_of(const TableShape& table) {
    std::vector<BookColumn> columns;
    for (const auto& column : table.columns)
        columns.push_back({column.name, column.holds == TableColumn::Holds::whole ? BookColumn::Holds::whole
                                        : column.holds == TableColumn::Holds::real
                                            ? BookColumn::Holds::real
                                            : BookColumn::Holds::text});
    return columns;
}

std::int64_t rows_in_all(const TableStore& store, const std::vector<TableShape>& tables) {
    std::int64_t rows = 0;
    for (const auto& table : tables)
        rows += store.rows_in(table);
    return rows;
}

void write_tables(const TableStore& store, exchange::WholeBookWriter& document, const ShareDone& share_done) {
    const auto tables = store.tables();
    const double all = static_cast<double>(std::max<std::int64_t>(1, rows_in_all(store, tables)));
    std::int64_t done = 0;
    for (const auto& table : tables) {
        document.begin_table(table.name, columns_of(table));
        store.read(table, [&](const TableRow& row) {
            document.row(row);
            if (++done % 1'000 == 0)
                tell(share_done, static_cast<double>(done) / all);
        });
        document.end_table();
    }
    tell(share_done, 1);
}

/// A folder beside the book in which it is made, gone with the scope.
class Workshop {
public:
    explicit Workshop(const fs::path& book) : folder_(book.string() + ".unfinished") {
        std::error_code failed;
        is_made_ = fs::create_directory(folder_, failed);
    }
    Workshop(const Workshop&) = delete;
    Workshop& operator=(const Workshop&) = delete;
    ~Workshop() {
        std::error_code ignored;
        if (is_made_)
            fs::remove_all(folder_, ignored);
    }
    [[nodiscard]] bool is_made() const { return is_made_; }
    [[nodiscard]] fs::path book() const { return folder_ / "book"; }

private:
    fs::path folder_;
    bool is_made_ = false;
};

Refusal about_document(std::string_view what, std::string_view remedy) {
    return {"Document", std::string(what), std::string(remedy)};
}

/// Fills a new book of the document's form as the document is read.
class Filled final : public exchange::WholeBookListener {
public:
    explicit Filled(fs::path book) : path_(std::move(book)) {}

    Result<Done> begin(int form) override {
        const auto migrations = built_in_migrations();
        if (form > migrations.back().number)
            return about_document(
                fmt::format("it is of form {}; this version knows up to {}", form, migrations.back().number),
                "Read it with the newer version of mellowbin");
        book_.emplace(path_, migrations.first(static_cast<std::size_t>(form)));
        tables_ = TableStore(*book_).tables();
        filling_.emplace(*book_);
        return Done{};
    }
    Result<Done> table(const std::string& name, const std::vector<BookColumn>& columns) override {
        const auto at =
            std::find_if(tables_.begin(), tables_.end(), [&](const auto& one) { return one.name == name; });
        row_ = 0;
        if (at == tables_.end())
            return about_document(fmt::format("a book of its form has no table \"{}\"", name), "");
        if (columns_of(*at) != columns)
            return about_document(
                fmt::format("the table \"{}\" has other columns in a book of its form", name), "");
        table_ = &*at;
        ++tables_read_;
        return Done{};
    }
    Result<Done> row(const std::vector<exchange::BookCell>& cells) override {
        ++row_;
        return kept_by_the_book(fmt::format("Table {}, row {}", table_->name, row_),
                                [&] { filling_->write(*table_, cells); });
    }
    /// All was read.
    Result<Done> finish() {
        if (tables_read_ != tables_.size())
            return about_document(fmt::format("{} of {} tables stand in it", tables_read_, tables_.size()),
                                  "Get it again, whole");
        return kept_by_the_book("Document", [&] { filling_->finish(); });
    }
    void close() {
        filling_.reset();
        book_.reset();
    }

private:
    /// What breaks a rule of the book is the document's fault, not the world's.
    template <class Work> Result<Done> kept_by_the_book(const std::string& where, Work work) {
        try {
            work();
        } catch (const BookError& error) {
            if (error.fault() != BookFault::rule_broken)
                throw;
            return Refusal{where, fmt::format("the book does not take it: {}", error.detail()),
                           "Choose a file that mellowbin save-book-as-json wrote"};
        }
        return Done{};
    }

    fs::path path_;
    std::optional<SqliteConnection> book_;
    std::optional<TableFilling> filling_; // after the book it fills
    std::vector<TableShape> tables_;
    const TableShape* table_ = nullptr;
    std::size_t tables_read_ = 0;
    std::int64_t row_ = 0;
};

Result<Done> fill(std::istream& in, const fs::path& book) {
    Filled filled(book);
    auto read = exchange::read_whole_book(in, filled);
    if (read)
        read = filled.finish();
    filled.close();
    return read;
}

} // namespace

Result<Done> save_whole_book(Connection& book, const fs::path& file, Instant now,
                             const ShareDone& share_done) {
    const Reading one_instant(book);
    const TableStore store(book);
    const auto failed = make_durably(file, [&](const fs::path& unfinished) -> std::string {
        std::ofstream out(unfinished, std::ios::binary | std::ios::trunc);
        if (!out)
            return "the folder does not let a file be written";
        exchange::WholeBookWriter document(out, store.form(), iso(now));
        write_tables(store, document, share_done);
        document.end();
        out.close();
        return out ? "" : "the disk took only a part of it";
    });
    if (!failed.empty())
        return Refusal{"File", fmt::format("\"{}\" cannot be written: {}", file.string(), failed),
                       "Make room, or name a file in a folder that is there and can be written to"};
    return Done{};
}

Result<Done> make_book_of(const fs::path& file, const fs::path& book, const ShareDone& share_done) {
    std::ifstream in(file, std::ios::binary);
    if (!in || fs::is_directory(file))
        return Refusal{"File", fmt::format("\"{}\" cannot be read", file.string()), "Choose another file"};
    const Refusal taken{"Book", fmt::format("\"{}\" is already there", book.string()),
                        "Choose another name: what is there is never written over"};
    if (fs::exists(book))
        return taken;
    const Workshop workshop(book);
    if (!workshop.is_made())
        return Refusal{
            "Book",
            fmt::format("\"{}\" cannot be made: its folder cannot be written, or \"{}.unfinished\" is left "
                        "from a time before",
                        book.string(), book.string()),
            "Choose another name"};
    if (const auto filled = fill(in, workshop.book()); !filled)
        return filled;
    tell(share_done, 0.8);
    SqliteConnection made(workshop.book()); // brings it to the present form
    if (const auto faults = made.faults(); !faults.empty())
        return about_document(faults.front(), "Choose a file that mellowbin save-book-as-json wrote");
    const auto saved = made.save_copy(book);
    tell(share_done, 1);
    return saved ? saved : taken;
}

} // namespace mellowbin::app
