#pragma once

#include "core/result.h"
#include "db/migration.h"
#include "db/progress.h"

#include <SQLiteCpp/Database.h>

#include <filesystem>
#include <memory>
#include <span>

namespace mellowbin {

inline constexpr const char* book_in_memory = ":memory:";

/// The SQLite database of a book, opened for writing and in the present form; made where there is none. What
/// SqliteConnection's constructor promises. Throws BookError, or SQLite::Exception for the engine's own
/// faults.
std::unique_ptr<SQLite::Database> open_sqlite_book(const std::filesystem::path& book,
                                                   std::span<const Migration> migrations,
                                                   const Progress& progress = {});

/// Connection::save_copy().
Result<Done> copy_sqlite_book(SQLite::Database& from, const std::filesystem::path& to,
                              const ShareDone& share_done = {});

} // namespace mellowbin
