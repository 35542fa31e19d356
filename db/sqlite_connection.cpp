#include "db/sqlite_connection.h"

#include "db/property_rows.h"
#include "db/sqlite_book.h"
#include "db/sqlite_faults.h"

#include <SQLiteCpp/Statement.h>
#include <fmt/format.h>

#include <sqlite3.h>
#include <unordered_map>

namespace mellowbin {
namespace {

/// $1 is a named parameter to SQLite, numbered by its first appearance; ?1 is what we mean.
std::string with_numbered_parameters(std::string_view sql) {
    std::string translated;
    bool is_in_text = false;
    for (const char c : sql) {
        is_in_text ^= c == '\'';
        translated += c == '$' && !is_in_text ? '?' : c;
    }
    return translated;
}

class SqliteRow final : public Row {
public:
    explicit SqliteRow(const SQLite::Statement& statement) : statement_(statement) {}
    [[nodiscard]] bool is_null(int column) const override { return statement_.getColumn(column).isNull(); }
    [[nodiscard]] std::int64_t integer(int column) const override {
        return statement_.getColumn(column).getInt64();
    }
    [[nodiscard]] double real(int column) const override { return statement_.getColumn(column).getDouble(); }
    [[nodiscard]] std::string_view text(int column) const override {
        const SQLite::Column held = statement_.getColumn(column);
        const char* text = held.getText();
        return {text, static_cast<std::size_t>(held.getBytes())};
    }

private:
    const SQLite::Statement& statement_;
};

void bind(SQLite::Statement& statement, Parameters parameters) {
    int position = 0;
    for (const auto& parameter : parameters) {
        ++position;
        const auto& held = parameter.held();
        if (const auto* whole = std::get_if<std::int64_t>(&held))
            statement.bind(position, *whole);
        else if (const auto* real = std::get_if<double>(&held))
            statement.bind(position, *real);
        else if (const auto* text = std::get_if<std::string>(&held))
            statement.bindNoCopy(position, *text); // the caller's list outlives the statement's run
        else
            statement.bind(position);
    }
}

} // namespace

class SqliteConnection::File {
public:
    File(std::filesystem::path path, std::span<const Migration> migrations, const Progress& progress)
        : path_(std::move(path)) {
        database_ = doing(BookTask::opening, [&] { return open_sqlite_book(path_, migrations, progress); });
    }

    ~File() {
        statements_.clear();
        // A book at rest is one file. Another program may still have it open: then the log stays for it.
        database_->tryExec("PRAGMA wal_checkpoint(TRUNCATE)");
    }
    File(const File&) = delete;
    File& operator=(const File&) = delete;

    template <class Work> auto doing(BookTask task, Work work) -> decltype(work()) {
        return in_our_words_if_it_fails(database_.get(), path_, task, work);
    }

    /// Runs the statement, handing each row to `read`.
    template <class Read> void run(std::string_view sql, Parameters parameters, Read read) {
        const InUse in_use(*this, sql);
        SQLite::Statement& statement = in_use.statement();
        bind(statement, parameters);
        while (statement.executeStep())
            read(SqliteRow(statement));
    }

    SQLite::Database& database() { return *database_; }
    [[nodiscard]] BookTask task() const { return is_writing_ ? BookTask::writing : BookTask::reading; }
    void begin(const char* how, BookTask task) {
        doing(task, [&] { run(how, {}, [](const Row&) {}); });
        is_writing_ = task == BookTask::writing;
    }
    void commit() {
        doing(BookTask::committing, [&] { run("COMMIT", {}, [](const Row&) {}); });
        is_writing_ = false;
    }
    void roll_back() noexcept {
        // A full disk or a damaged file may have ended the transaction already.
        if (sqlite3_get_autocommit(database_->getHandle()) == 0)
            database_->tryExec("ROLLBACK");
        is_writing_ = false;
    }

private:
    struct Prepared {
        std::unique_ptr<SQLite::Statement> statement;
        bool is_in_use = false;
    };
    struct TextHash {
        using is_transparent = void;
        std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>{}(text); }
    };

    /// A prepared statement for as long as it runs; a second run inside the first gets one of its own.
    class InUse {
    public:
        InUse(File& file, std::string_view sql) {
            auto at = file.statements_.find(sql);
            if (at == file.statements_.end())
                at = file.statements_.emplace(std::string(sql), Prepared{file.prepare(sql)}).first;
            if (at->second.is_in_use) {
                own_ = file.prepare(sql);
                statement_ = own_.get();
            } else {
                prepared_ = &at->second;
                prepared_->is_in_use = true;
                statement_ = prepared_->statement.get();
            }
        }
        InUse(const InUse&) = delete;
        InUse& operator=(const InUse&) = delete;
        ~InUse() {
            statement_->tryReset();
            statement_->clearBindings();
            if (prepared_)
                prepared_->is_in_use = false;
        }
        [[nodiscard]] SQLite::Statement& statement() const { return *statement_; }

    private:
        Prepared* prepared_ = nullptr; // a map's node stays where it is while others are added
        std::unique_ptr<SQLite::Statement> own_;
        SQLite::Statement* statement_ = nullptr;
    };

    std::unique_ptr<SQLite::Statement> prepare(std::string_view sql) {
        return std::make_unique<SQLite::Statement>(*database_, with_numbered_parameters(sql));
    }

    std::filesystem::path path_;
    std::unique_ptr<SQLite::Database> database_; // before the statements, which must be gone when it closes
    std::unordered_map<std::string, Prepared, TextHash, std::equal_to<>> statements_;
    bool is_writing_ = false;
};

SqliteConnection::SqliteConnection(const std::filesystem::path& book, std::span<const Migration> migrations,
                                   const Progress& progress)
    : file_(std::make_unique<File>(book == book_in_memory ? book : std::filesystem::absolute(book),
                                   migrations, progress)) {
    if (migrations.back().number >= first_form_with_properties)
        bring_properties_up_to_date(*this);
    was_written_elsewhere();
}

SqliteConnection::~SqliteConnection() = default;

std::int64_t SqliteConnection::execute(std::string_view sql, Parameters parameters) {
    return file_->doing(file_->task(), [&] {
        file_->run(sql, parameters, [](const Row&) {});
        return std::int64_t{file_->database().getChanges()};
    });
}

void SqliteConnection::query(std::string_view sql, Parameters parameters, const RowReader& read) {
    file_->doing(file_->task(), [&] { file_->run(sql, parameters, read); });
}

bool SqliteConnection::was_written_elsewhere() {
    const auto before = data_version_;
    query("PRAGMA data_version", {}, [&](const Row& row) { data_version_ = row.integer(0); });
    return data_version_ != before;
}

Result<Done> SqliteConnection::save_copy(const std::filesystem::path& to) {
    return file_->doing(BookTask::reading, [&] { return copy_sqlite_book(file_->database(), to); });
}

std::vector<std::string> SqliteConnection::faults() {
    std::vector<std::string> found;
    query("PRAGMA integrity_check", {}, [&](const Row& row) {
        if (row.text(0) != "ok")
            found.push_back(row.words(0));
    });
    query("PRAGMA foreign_key_check", {}, [&](const Row& row) {
        found.push_back(
            fmt::format("a row of {} refers to a {} that is not there", row.text(0), row.text(2)));
    });
    bool keeps_what_lies = false; // books of older forms do not
    query("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = 'lying'", {},
          [&](const Row&) { keeps_what_lies = true; });
    if (keeps_what_lies)
        query("SELECT lot_id, place_id FROM (SELECT lot_id, place_id, mass_g FROM lying UNION ALL "
              "SELECT lot_id, to_place_id, -mass_g FROM movement WHERE to_place_id IS NOT NULL UNION ALL "
              "SELECT lot_id, from_place_id, mass_g FROM movement WHERE from_place_id IS NOT NULL) "
              "GROUP BY lot_id, place_id HAVING SUM(mass_g) <> 0",
              {}, [&](const Row& row) {
                  found.push_back(fmt::format("what lies of lot {} in place {} is not what moved there",
                                              row.integer(0), row.integer(1)));
              });
    return found;
}

void SqliteConnection::begin_writing() { file_->begin("BEGIN IMMEDIATE", BookTask::writing); }
void SqliteConnection::begin_reading() { file_->begin("BEGIN", BookTask::reading); }
void SqliteConnection::commit() { file_->commit(); }
void SqliteConnection::roll_back() noexcept { file_->roll_back(); }

} // namespace mellowbin
