#pragma once

#include <stdexcept>
#include <string>

namespace mellowbin {

/// Why the book cannot be opened, read or written: a broken world, not a refused request.
enum class BookFault {
    damaged,        ///< the file is a book but cannot be read throughout
    busy,           ///< another program held the book for longer than we wait
    disk_full,      ///< no room for the change
    read_only,      ///< the file, its folder or its disk cannot be written
    newer_book,     ///< made by a later version of the program
    not_a_book,     ///< the file is something else
    network_folder, ///< SQLite's locks cannot be trusted there
    cannot_open,    ///< missing folder, no permission, not a file
    disk_error,     ///< the disk did not do what it was asked
    rule_broken,    ///< the book refused a row that core should have refused: our mistake
};

/// what() is for the person: what happened, what it means for what was entered, what to do. detail() is for
/// the log: the engine's own words.
class BookError : public std::runtime_error {
public:
    BookError(BookFault fault, const std::string& words, std::string detail = {})
        : std::runtime_error(words), fault_(fault), detail_(std::move(detail)) {}
    [[nodiscard]] BookFault fault() const { return fault_; }
    [[nodiscard]] const std::string& detail() const { return detail_; }

private:
    BookFault fault_;
    std::string detail_;
};

} // namespace mellowbin
