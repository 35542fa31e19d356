#pragma once

#include "core/day.h"
#include "core/result.h"
#include "db/progress.h"

#include <filesystem>

namespace mellowbin {
class Connection;
}

namespace mellowbin::app {

/// Writes every table of the book, as of one instant, into the file as one JSON document
/// (exchange/whole_book.h); it gets its name only when it is whole. Refused under "File" where it cannot be
/// written.
Result<Done> save_whole_book(Connection& book, const std::filesystem::path& file, Instant now,
                             const ShareDone& share_done = {});

/// Makes a book of such a file, in the present form. It gets its name only when every row is in it and refers
/// to what is there. Refused, naming the table and the row: a document that cannot be read, one of a newer
/// form, tables or columns that the book does not have or that are missing, a row that the book does not
/// take; and a name that is taken.
Result<Done> make_book_of(const std::filesystem::path& file, const std::filesystem::path& book,
                          const ShareDone& share_done = {});

} // namespace mellowbin::app
