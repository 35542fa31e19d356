#pragma once

#include "db/book_error.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>

#include <filesystem>

namespace mellowbin {

/// What the book was asked for when it failed: it decides what the fault means for the person.
enum class BookTask { opening, reading, writing, committing };

/// SQLite's fault as a sentence for the person; `database` is where it happened, null when it did not open.
BookError in_our_words(const SQLite::Exception& fault, SQLite::Database* database,
                       const std::filesystem::path& book, BookTask task);

/// Runs `work` on the database; a fault of SQLite's is thrown on in our words.
template <class Work>
auto in_our_words_if_it_fails(SQLite::Database* database, const std::filesystem::path& book, BookTask task,
                              Work work) -> decltype(work()) {
    try {
        return work();
    } catch (const SQLite::Exception& fault) {
        throw in_our_words(fault, database, book, task);
    }
}

} // namespace mellowbin
