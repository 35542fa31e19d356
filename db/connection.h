#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/quantity.h"
#include "core/result.h"
#include "db/book_error.h"
#include "db/last_change.h"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace mellowbin {

/// A parameter of a statement. What is missing, and a record's number that is not yet known, is null.
class Value {
public:
    Value() = default;
    Value(std::nullopt_t) {}
    Value(int whole) : held_(std::int64_t{whole}) {}
    Value(std::int64_t whole) : held_(whole) {}
    Value(double real) : held_(real) {}
    Value(std::string text) : held_(std::move(text)) {}
    Value(std::string_view text) : held_(std::string(text)) {}
    Value(const char* text) : held_(std::string(text)) {}
    Value(bool) = delete; // 0 or 1, written out: the engines disagree about booleans
    Value(Day day) : held_(iso(day)) {}
    Value(Instant instant) : held_(iso(instant)) {}
    Value(Grams grams) : held_(grams.count()) {}
    template <class Tag> Value(Quantity<Tag> quantity) : held_(quantity.value()) {}
    template <class Tag> Value(Id<Tag> id) {
        if (id.is_known())
            held_ = id.number();
    }
    template <class T> Value(const std::optional<T>& maybe) {
        if (maybe)
            *this = Value(*maybe);
    }

    using Held = std::variant<std::monostate, std::int64_t, double, std::string>;
    [[nodiscard]] const Held& held() const { return held_; }

private:
    Held held_;
};
using Parameters = std::initializer_list<Value>;

/// A row of an answer while it is read; its texts live until the reader returns. Columns count from 0.
/// Reading null by integer(), real() or text() gives 0, 0 or the empty text.
class Row {
public:
    [[nodiscard]] virtual bool is_null(int column) const = 0;
    [[nodiscard]] virtual std::int64_t integer(int column) const = 0;
    [[nodiscard]] virtual double real(int column) const = 0;
    [[nodiscard]] virtual std::string_view text(int column) const = 0;

    [[nodiscard]] std::string words(int column) const { return std::string(text(column)); }
    [[nodiscard]] std::optional<double> maybe_real(int column) const {
        return is_null(column) ? std::nullopt : std::optional(real(column));
    }
    template <class SomeId> [[nodiscard]] SomeId id(int column) const { return SomeId{integer(column)}; }
    template <class SomeId> [[nodiscard]] std::optional<SomeId> maybe_id(int column) const {
        return is_null(column) ? std::nullopt : std::optional(SomeId{integer(column)});
    }
    /// Those below throw BookFault::damaged when the text is not what belongs there.
    [[nodiscard]] Day day(int column) const;
    [[nodiscard]] std::optional<Day> maybe_day(int column) const;
    [[nodiscard]] Instant instant(int column) const;
    /// The value whose key stands in the column: `row.key(3, lot_state_from_key)`.
    template <class T> [[nodiscard]] T key(int column, std::optional<T> (*from_key)(std::string_view)) const {
        if (const auto known = from_key(text(column)))
            return *known;
        unknown_key(column);
    }
    template <class T>
    [[nodiscard]] std::optional<T> maybe_key(int column,
                                             std::optional<T> (*from_key)(std::string_view)) const {
        return is_null(column) ? std::nullopt : std::optional(key(column, from_key));
    }

protected:
    Row() = default;
    ~Row() = default;

private:
    [[noreturn]] void unknown_key(int column) const;
};

using RowReader = std::function<void(const Row&)>;

/// The door to the book's engine. Statements are SQL that more than one engine knows, with parameters $1, $2
/// … in any order; they are prepared once and kept. One connection belongs to one thread. Faults of the world
/// are thrown as BookError.
class Connection {
public:
    Connection(const Connection&) = delete;
    Connection& operator=(const Connection&) = delete;
    virtual ~Connection() = default;

    /// Runs one statement; how many rows it changed.
    virtual std::int64_t execute(std::string_view sql, Parameters parameters = {}) = 0;
    /// Runs one statement and hands each row of its answer to `read`.
    virtual void query(std::string_view sql, Parameters parameters, const RowReader& read) = 0;

    /// Whether another connection has written to the book since this was last asked, or since the book was
    /// opened. Costs next to nothing.
    virtual bool was_written_elsewhere() = 0;

    /// A copy of the whole book as one file that needs nothing beside it; written under another name first,
    /// so that a half-written copy never bears the name. Refused when the name is taken.
    virtual Result<Done> save_copy(const std::filesystem::path& to) = 0;
    /// Reads the whole book and says what is wrong with it; empty when it is sound. Takes long on a big book.
    virtual std::vector<std::string> faults() = 0;

    /// What became of the last change that was asked for here since it was forgotten: what a failure has to
    /// tell.
    [[nodiscard]] const LastChange& last_change() const { return last_change_; }
    void forget_last_change() { last_change_ = {}; }

protected:
    Connection() = default;

private:
    friend class Change;
    friend class Transaction;
    friend class Reading;
    virtual void begin_writing() = 0;
    virtual void begin_reading() = 0;
    virtual void commit() = 0;
    virtual void roll_back() noexcept = 0;

    LastChange last_change_;
};

/// A scope in which changes of the book belong together: leaving it without commit() undoes them all. Takes
/// the book's one writing place at once, so that it cannot be refused half-way. Does not nest.
class Transaction {
public:
    /// Throws BookFault::busy when another writer does not finish in time.
    explicit Transaction(Connection& connection) : connection_(connection) { connection_.begin_writing(); }
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    ~Transaction() {
        if (!is_committed_)
            connection_.roll_back();
    }
    /// Returns once the change is on the disk. After a throw nothing of it is kept, except after
    /// BookFault::disk_error, when the book must be read again to know.
    void commit() {
        connection_.commit();
        is_committed_ = true;
    }
    [[nodiscard]] Connection& connection() { return connection_; }

private:
    Connection& connection_;
    bool is_committed_ = false;
};

/// A scope in which all reading sees the book of one instant, whatever others write meanwhile. Does not nest.
class Reading {
public:
    explicit Reading(Connection& connection) : connection_(connection) { connection_.begin_reading(); }
    Reading(const Reading&) = delete;
    Reading& operator=(const Reading&) = delete;
    ~Reading() { connection_.roll_back(); }

private:
    Connection& connection_;
};

} // namespace mellowbin
