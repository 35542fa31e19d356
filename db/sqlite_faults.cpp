#include "db/sqlite_faults.h"

#include <fmt/format.h>

#include <cerrno>
#include <sqlite3.h>

namespace mellowbin {
namespace {

/// A file of the database says why its last write failed. sqlite3_system_errno() does not tell for the log.
bool has_no_room(sqlite3_file* file) {
    int number = 0;
    if (file == nullptr || file->pMethods == nullptr ||
        file->pMethods->xFileControl(file, SQLITE_FCNTL_LAST_ERRNO, &number) != SQLITE_OK)
        return false;
    return number == ENOSPC || number == EDQUOT || number == EFBIG;
}

bool has_no_room(SQLite::Database& database) {
    for (const int which : {SQLITE_FCNTL_FILE_POINTER, SQLITE_FCNTL_JOURNAL_POINTER}) {
        sqlite3_file* file = nullptr;
        if (sqlite3_file_control(database.getHandle(), "main", which, &file) == SQLITE_OK &&
            has_no_room(file))
            return true;
    }
    return false;
}

BookFault fault_of(const SQLite::Exception& fault, SQLite::Database* database) {
    // SQLite calls only ENOSPC full. A quota, a largest file size and no room for the log's index are the
    // same to a person.
    const bool is_input_output = (fault.getErrorCode() & 0xff) == SQLITE_IOERR;
    if (is_input_output && (fault.getExtendedErrorCode() == SQLITE_IOERR_SHMSIZE ||
                            (database != nullptr && has_no_room(*database))))
        return BookFault::disk_full;
    switch (fault.getErrorCode() & 0xff) {
    case SQLITE_NOTADB:
        return BookFault::not_a_book;
    case SQLITE_CORRUPT:
        return BookFault::damaged;
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return BookFault::busy;
    case SQLITE_FULL:
        return BookFault::disk_full;
    case SQLITE_READONLY:
    case SQLITE_PERM:
        return BookFault::read_only;
    case SQLITE_CANTOPEN:
        return BookFault::cannot_open;
    case SQLITE_IOERR:
    case SQLITE_NOLFS:
        return BookFault::disk_error;
    default:
        return BookFault::rule_broken;
    }
}

const char* what_happened(BookFault fault) {
    switch (fault) {
    case BookFault::not_a_book:
        return "\"{}\" is not a mellowbin book.";
    case BookFault::damaged:
        return "The book \"{}\" is damaged and cannot be read throughout.";
    case BookFault::busy:
        return "Another program is writing to the book \"{}\" and did not finish within 5 seconds.";
    case BookFault::disk_full:
        return "The disk that holds the book \"{}\" is full.";
    case BookFault::read_only:
        return "The book \"{}\" cannot be written: the file, its folder or its disk is read-only.";
    case BookFault::cannot_open:
        return "The book \"{}\" cannot be opened.";
    case BookFault::disk_error:
        return "The disk did not do what it was asked for the book \"{}\".";
    default:
        return "The book \"{}\" refused this, which is a mistake in the program.";
    }
}

const char* what_it_means(BookFault fault, BookTask task) {
    if (task != BookTask::writing && task != BookTask::committing)
        return "Nothing in it was changed.";
    if (fault == BookFault::disk_error && task == BookTask::committing)
        return "It is not certain that this change was saved; everything saved before is.";
    return "This change was not saved; everything saved before is safe.";
}

const char* what_to_do(BookFault fault, BookTask task) {
    switch (fault) {
    case BookFault::not_a_book:
        return "Choose another file, or a name that is not taken to begin a new book.";
    case BookFault::damaged:
        return "Keep the file as it is, and open a saved copy.";
    case BookFault::busy:
        return "Try again in a moment.";
    case BookFault::disk_full:
        return task == BookTask::writing || task == BookTask::committing
                   ? "Free some space on it, then save again."
                   : "Free some space on it, then try again.";
    case BookFault::read_only:
    case BookFault::cannot_open:
        return "See that you may write the file and its folder, or choose another place.";
    case BookFault::disk_error:
        return task == BookTask::committing
                   ? "Open the book again and look whether the change is there before you enter it again."
                   : "Check the disk, then try again.";
    default:
        return "Please report it with the details in the log.";
    }
}

} // namespace

BookError in_our_words(const SQLite::Exception& e, SQLite::Database* database,
                       const std::filesystem::path& book, BookTask task) {
    const BookFault fault = fault_of(e, database);
    return {fault,
            fmt::format(fmt::runtime(what_happened(fault)), book.string()) + " " +
                what_it_means(fault, task) + " " + what_to_do(fault, task),
            fmt::format("SQLite {} ({}): {}", e.getErrorCode(), e.getExtendedErrorCode(), e.what())};
}

} // namespace mellowbin
