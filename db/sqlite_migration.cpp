#include "db/sqlite_migration.h"

#include "db/sqlite_connection.h"

#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>
#include <fmt/format.h>

#include <algorithm>
#include <sqlite3.h>
#include <string>
#include <vector>

namespace mellowbin {
namespace {

std::int64_t number_of(SQLite::Database& book, const char* pragma) {
    return book.execAndGet(pragma).getInt64();
}

constexpr const char* check_of_references = "PRAGMA foreign_key_check";

/// What a statement weighs beside the others: those that walk over rows take nearly all of the time.
double weight_of(std::string_view sql) {
    for (const std::string_view walks : {"INSERT", "UPDATE", "DELETE", "DROP TABLE", "CREATE INDEX",
                                         "CREATE UNIQUE INDEX", "PRAGMA foreign_key_check"})
        if (sql.starts_with(walks))
            return 100;
    return 1;
}

/// The statements of a step, one by one, without the comments and blanks before each.
std::vector<std::string> statements_of(std::string_view sql) {
    std::vector<std::string> statements;
    std::string one;
    while (!sql.empty()) {
        const auto end = std::min(sql.find(';'), sql.size() - 1);
        one += sql.substr(0, end + 1);
        sql.remove_prefix(end + 1);
        if (sqlite3_complete(one.c_str()) == 0) // a semicolon in a text, a comment or a trigger
            continue;
        statements.push_back(std::move(one));
        one.clear();
    }
    if (!one.empty())
        statements.push_back(std::move(one));
    return statements;
}

std::string_view begin_of(std::string_view statement) {
    for (;;) {
        statement.remove_prefix(std::min(statement.find_first_not_of(" \t\r\n"), statement.size()));
        if (!statement.starts_with("--"))
            return statement;
        statement.remove_prefix(std::min(statement.find('\n'), statement.size()));
    }
}

/// Tells how far a run of statements is: by their weights, and within one by the engine's own steps beside a
/// guess from the size of the book, which never comes to the statement's end before it is there.
class Walk {
public:
    Walk(SQLite::Database& book, double weight, const ShareDone& share_done)
        : book_(book), weight_(weight), share_done_(share_done),
          steps_guessed_(static_cast<double>(number_of(book, "PRAGMA page_count")) * steps_a_page) {
        if (share_done_)
            sqlite3_progress_handler(book_.getHandle(), steps_a_call, &Walk::hear, this);
    }
    Walk(const Walk&) = delete;
    Walk& operator=(const Walk&) = delete;
    ~Walk() { sqlite3_progress_handler(book_.getHandle(), 0, nullptr, nullptr); }

    void begin(double weight) {
        now_ = weight;
        steps_ = 0;
    }
    void end() {
        done_ += now_;
        now_ = 0;
        tell(share_done_, std::min(1.0, done_ / weight_));
    }

private:
    static constexpr int steps_a_call = 200'000;
    static constexpr double steps_a_page = 400;
    static int hear(void* walk) {
        static_cast<Walk*>(walk)->step();
        return 0; // go on
    }
    void step() {
        steps_ += steps_a_call;
        const double within = steps_ / (steps_ + steps_guessed_);
        tell(share_done_, std::min(1.0, (done_ + now_ * within) / weight_));
    }

    SQLite::Database& book_;
    double weight_;
    const ShareDone& share_done_;
    double steps_guessed_;
    double done_ = 0, now_ = 0, steps_ = 0;
};

double weight_of(const std::vector<std::string>& statements) {
    double weight = weight_of(check_of_references);
    for (const auto& statement : statements)
        weight += weight_of(begin_of(statement));
    return weight;
}

void take(SQLite::Database& book, const Migration& step, const std::vector<std::string>& statements,
          Walk& walk) {
    SQLite::Transaction transaction(book, SQLite::TransactionBehavior::IMMEDIATE);
    if (number_of(book, "PRAGMA user_version") >= step.number)
        return; // another program was quicker
    for (const auto& statement : statements) {
        walk.begin(weight_of(begin_of(statement)));
        book.exec(statement);
        walk.end();
    }
    walk.begin(weight_of(check_of_references));
    if (SQLite::Statement(book, check_of_references).executeStep())
        throw SQLite::Exception(
            fmt::format("step {} \"{}\" left a reference to nothing", step.number, step.name),
            SQLITE_CONSTRAINT);
    walk.end();
    book.exec(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {};", book_application_id,
                          step.number));
    transaction.commit();
}

} // namespace

void bring_to_present_form(SQLite::Database& book, std::span<const Migration> migrations,
                           const ShareDone& share_done) {
    const auto form = number_of(book, "PRAGMA user_version");
    std::vector<std::pair<const Migration*, std::vector<std::string>>> steps;
    double weight = 0;
    for (const auto& migration : migrations) {
        if (migration.number <= form)
            continue;
        steps.emplace_back(&migration, statements_of(migration.sql));
        weight += weight_of(steps.back().second);
    }
    // A step may rebuild a table that others refer to: checked at its end instead.
    book.exec("PRAGMA foreign_keys = OFF");
    Walk walk(book, weight, share_done);
    for (const auto& [step, statements] : steps)
        take(book, *step, statements, walk);
    book.exec("PRAGMA foreign_keys = ON");
}

} // namespace mellowbin
