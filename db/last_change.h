#pragma once

#include <cstdint>
#include <string>

namespace mellowbin {

class Connection;

/// Whether a change is in the book.
enum class Fate {
    not_in_the_book,
    in_the_book,
    not_known, ///< the disk failed in the midst of the commit: the book must be read again to know
};

/// What became of the last change on a connection, known by the first of its journal lines.
struct LastChange {
    Fate fate = Fate::not_in_the_book;
    std::int64_t line = 0; ///< the line's number; 0: no change came as far as its commit
    std::string who;
    std::string words; ///< the line's
};

/// Looks in the book for the line, by its number and words: another station may have been given the number
/// since. Throws BookError when the book cannot be read.
Fate look_again(Connection& connection, const LastChange& change);

} // namespace mellowbin
