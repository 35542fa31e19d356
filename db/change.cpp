#include "db/change.h"

#include "db/journal_store.h"
#include "db/numbering.h"

#include <stdexcept>

namespace mellowbin {
namespace {

void write_record(Connection& book, std::int64_t line, RecordRef record, bool is_subject) {
    book.execute("INSERT INTO journal_record (line_id, kind, number, is_subject) VALUES ($1, $2, $3, $4)",
                 {line, key_of(record.kind), record.number, is_subject ? 1 : 0});
}

} // namespace

Change::Change(Connection& connection, JournalLine line)
    : transaction_(connection), lines_{std::move(line)} {}

Change::Change(Connection& connection, JournalLine line, std::int64_t decided_on)
    : Change(connection, std::move(line)) {
    if (JournalStore(connection).version() != decided_on)
        throw BookMoved();
}

void Change::commit() {
    if (is_refused_)
        throw std::logic_error("a change of which a part was refused cannot be committed");
    const auto first = write_journal();
    LastChange& last = connection().last_change_;
    last = {Fate::not_known, first, lines_.front().who, lines_.front().words};
    try {
        transaction_.commit();
    } catch (const BookError& error) {
        if (error.fault() != BookFault::disk_error)
            last.fate = Fate::not_in_the_book;
        throw;
    }
    last.fate = Fate::in_the_book;
}

/// Each line with the record it is about; the first one also with all others that were written.
std::int64_t Change::write_journal() {
    const auto first = next_number(connection(), "journal");
    auto id = first;
    for (const auto& line : lines_) {
        connection().execute("INSERT INTO journal (id, at, who, intent, subject, words, detail) "
                             "VALUES ($1, $2, $3, $4, $5, $6, $7)",
                             {id, line.at, line.who, line.intent, line.subject, line.words, line.detail});
        if (line.about) {
            write_record(connection(), id, *line.about, true);
            touched_.erase(*line.about);
        }
        ++id;
    }
    for (const auto record : touched_)
        write_record(connection(), first, record, false);
    return first;
}

Refusals Change::refuse(Refusals refusals) {
    is_refused_ = true;
    return refusals;
}

} // namespace mellowbin
