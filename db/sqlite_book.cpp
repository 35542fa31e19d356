#include "db/sqlite_book.h"

#include "db/sqlite_connection.h"
#include "db/sqlite_faults.h"
#include "db/sqlite_migration.h"

#include <SQLiteCpp/Backup.h>
#include <fmt/format.h>

#include <algorithm>
#include <fcntl.h>
#include <linux/magic.h>
#include <random>
#include <sqlite3.h>
#include <sys/vfs.h>
#include <unistd.h>

namespace mellowbin {
namespace {

namespace fs = std::filesystem;
constexpr int busy_timeout_ms = 5000;

std::int64_t number_of(SQLite::Database& book, const char* pragma) {
    return book.execAndGet(pragma).getInt64();
}

/// A name beside `path` that nobody else uses, for a file that is not finished.
fs::path unfinished(const fs::path& path) {
    return path.string() + fmt::format(".unfinished-{:08x}", std::random_device{}());
}

/// Removes a file that was not finished, with what SQLite keeps beside it, when the scope is left.
class Unfinished {
public:
    explicit Unfinished(fs::path path) : path_(std::move(path)) {}
    Unfinished(const Unfinished&) = delete;
    Unfinished& operator=(const Unfinished&) = delete;
    ~Unfinished() {
        std::error_code ignored; // it may be gone, or the disk may be: either way there is nothing left to do
        for (const char* tail : {"", "-wal", "-shm", "-journal"})
            fs::remove(path_.string() + tail, ignored);
    }
    [[nodiscard]] const fs::path& path() const { return path_; }

private:
    fs::path path_;
};

/// The folder's entries reach the disk, so that a new name survives a power cut.
void sync(const fs::path& path) {
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (file < 0)
        return;
    ::fsync(file);
    ::close(file);
}

/// Gives the finished file its name, unless the name is taken; then false.
bool take_name(const fs::path& finished, const fs::path& name) {
    sync(finished);
    std::error_code failed;
    fs::create_hard_link(finished, name, failed);
    if (failed == std::errc::file_exists)
        return false;
    if (failed) { // a file system without hard links: two programs starting a book at once could still
                  // collide
        if (fs::exists(name))
            return false;
        fs::rename(finished, name);
    }
    sync(name.parent_path());
    return true;
}

[[noreturn]] void throw_not_a_book(const fs::path& book, std::string_view why) {
    throw BookError(
        BookFault::not_a_book,
        fmt::format("\"{}\" is not a mellowbin book: {}. It was left as it is. Choose another file, or a "
                    "name that is not taken to begin a new book.",
                    book.string(), why));
}

[[noreturn]] void throw_read_only(const fs::path& place, std::string_view what) {
    throw BookError(
        BookFault::read_only,
        fmt::format("The {} \"{}\" cannot be written, so the book cannot be kept there. Nothing was "
                    "changed. See that you may write it, or choose another place.",
                    what, place.string()));
}

void check_folder(const fs::path& folder) {
    if (!fs::is_directory(folder)) {
        throw BookError(
            BookFault::cannot_open,
            fmt::format("There is no folder \"{}\" to keep the book in. Nothing was written. Make the "
                        "folder, or choose another place.",
                        folder.string()));
    }
    struct statfs file_system {};
    if (::statfs(folder.c_str(), &file_system) == 0) {
        if (const auto network = network_file_system(file_system.f_type)) {
            throw BookError(
                BookFault::network_folder,
                fmt::format("The folder \"{}\" is on a network ({}), where two stations can damage a "
                            "book file. It was not opened. Keep the book on a disk of this machine, and "
                            "put copies on the network.",
                            folder.string(), *network));
        }
    }
    if (::access(folder.c_str(), W_OK) != 0)
        throw_read_only(folder, "folder");
}

void check_file(const fs::path& book) {
    if (fs::is_directory(book))
        throw_not_a_book(book, "it is a folder");
    if (!fs::is_regular_file(book))
        throw_not_a_book(book, "it is not a file");
    if (fs::file_size(book) == 0)
        throw_not_a_book(book, "the file is empty");
    if (::access(book.c_str(), W_OK) != 0)
        throw_read_only(book, "file");
}

/// Every connection needs these; SQLite forgets them when it closes.
void set_up(SQLite::Database& book) {
    book.exec("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; "
              "PRAGMA recursive_triggers = ON; PRAGMA trusted_schema = OFF; PRAGMA cache_size = -32000;");
}

/// SQLite takes the missing end of the last page for zeroes.
void check_end(SQLite::Database& book, const fs::path& path) {
    std::error_code missing;
    const auto log = fs::file_size(path.string() + "-wal", missing);
    if (!missing && log > 0)
        return; // the end may be in the log: the file was in use, or is
    const auto page = number_of(book, "PRAGMA page_size");
    if (fs::file_size(path) % static_cast<std::uintmax_t>(page) != 0)
        throw SQLite::Exception("the file ends within a page", SQLITE_CORRUPT);
}

void check_marks(SQLite::Database& book, const fs::path& path, std::span<const Migration> migrations) {
    if (number_of(book, "PRAGMA application_id") != book_application_id)
        throw_not_a_book(path, "it was made by another program");
    check_end(book, path);
    const auto form = number_of(book, "PRAGMA user_version");
    const int newest = migrations.back().number;
    if (form > newest) {
        throw BookError(
            BookFault::newer_book,
            fmt::format("The book \"{}\" was written by a newer version of mellowbin (its form is {}; "
                        "this version knows up to {}). It was not changed. Open it with the newer version.",
                        path.string(), form, newest));
    }
}

void keep_copy_before(SQLite::Database& book, const fs::path& path, std::int64_t number,
                      const ShareDone& share_done) {
    const std::string name = fmt::format("{}.before-{:04}", path.string(), number);
    for (int taken = 1;; ++taken) {
        const fs::path copy = taken == 1 ? name : fmt::format("{}.{}", name, taken);
        if (!fs::exists(copy) && copy_sqlite_book(book, copy, share_done))
            return;
    }
}

/// A scope in which all reading sees the book of one instant; it may stand within a transaction.
class OneInstant {
public:
    explicit OneInstant(SQLite::Database& book) : book_(book) {
        book_.exec("SAVEPOINT one_instant");
        number_of(book_, "SELECT COUNT(*) FROM sqlite_schema"); // it begins with the first reading
    }
    OneInstant(const OneInstant&) = delete;
    OneInstant& operator=(const OneInstant&) = delete;
    ~OneInstant() { book_.tryExec("RELEASE one_instant"); }

private:
    SQLite::Database& book_;
};

/// Copies all that the book holds at one instant, whatever others write meanwhile.
void copy_pages(SQLite::Database& from, SQLite::Database& copy, const ShareDone& share_done) {
    constexpr int pages_a_step = 1000;
    const OneInstant one_instant(from);
    SQLite::Backup backup(copy, from);
    int result = SQLITE_OK;
    while (result == SQLITE_OK) {
        result = backup.executeStep(pages_a_step);
        tell(share_done, 1 - static_cast<double>(backup.getRemainingPageCount()) /
                                 std::max(1, backup.getTotalPageCount()));
    }
    if (result != SQLITE_DONE)
        throw SQLite::Exception("the copy did not come to its end", SQLITE_BUSY);
}

std::unique_ptr<SQLite::Database> open_file(const fs::path& path) {
    // No mutex: a connection belongs to one thread.
    return std::make_unique<SQLite::Database>(
        path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE | SQLite::OPEN_NOMUTEX, busy_timeout_ms);
}

/// A new book gets its name only when it is whole: whoever finds the name finds a book.
void make_new(const fs::path& path, std::span<const Migration> migrations) {
    const Unfinished file(unfinished(path));
    {
        const auto book = open_file(file.path());
        in_our_words_if_it_fails(book.get(), path, BookTask::opening, [&] {
            set_up(*book);
            // Without a log: closing the book would empty it into the file, and not tell when the disk has no
            // room for that.
            book->exec("PRAGMA journal_mode = DELETE");
            bring_to_present_form(*book, migrations);
        });
    }
    take_name(file.path(), path); // taken meanwhile: another program made it, and it is opened like any other
}

} // namespace

std::optional<std::string> network_file_system(long statfs_type) {
    switch (statfs_type) {
    case NFS_SUPER_MAGIC:
        return "NFS";
    case SMB_SUPER_MAGIC:
    case SMB2_SUPER_MAGIC:
    case CIFS_SUPER_MAGIC:
        return "SMB";
    case V9FS_MAGIC:
        return "9P";
    case AFS_SUPER_MAGIC:
    case AFS_FS_MAGIC:
        return "AFS";
    case CEPH_SUPER_MAGIC:
        return "Ceph";
    case CODA_SUPER_MAGIC:
        return "Coda";
    case NCP_SUPER_MAGIC:
        return "NCP";
    default:
        return {};
    }
}

std::unique_ptr<SQLite::Database>
open_sqlite_book(const fs::path& path, std::span<const Migration> migrations, const Progress& progress) {
    if (path == book_in_memory) {
        auto book = open_file(path);
        set_up(*book);
        bring_to_present_form(*book, migrations);
        return book;
    }
    check_folder(path.parent_path());
    if (!fs::exists(path))
        make_new(path, migrations);
    check_file(path);
    auto book = open_file(path);
    in_our_words_if_it_fails(book.get(), path, BookTask::opening, [&] {
        check_marks(*book, path, migrations); // before anything is written to what may be someone else's file
        set_up(*book);
        const auto form = number_of(*book, "PRAGMA user_version");
        if (form < migrations.back().number) {
            // The copy is read throughout, the steps walk over most of it more than once.
            constexpr double copied = 0.3;
            keep_copy_before(*book, path, form + 1, part_of(progress, "copying it first", 0, copied));
            bring_to_present_form(*book, migrations, part_of(progress, "changing its form", copied, 1));
        }
    });
    return book;
}

Result<Done> copy_sqlite_book(SQLite::Database& from, const fs::path& to, const ShareDone& share_done) {
    const Refusal taken{"Copy to", fmt::format("\"{}\" is already there", to.string()),
                        "Choose another name"};
    if (fs::exists(to))
        return taken;
    const Unfinished file(unfinished(to));
    {
        const auto copy = open_file(file.path());
        in_our_words_if_it_fails(copy.get(), to, BookTask::opening, [&] {
            copy_pages(from, *copy, share_done);
            // One file that needs nothing beside it, and can be read from a disk that cannot be written.
            copy->exec("PRAGMA journal_mode = DELETE");
            if (const auto sound = copy->execAndGet("PRAGMA quick_check(1)").getString(); sound != "ok")
                throw SQLite::Exception(sound, SQLITE_CORRUPT);
        });
    }
    if (!take_name(file.path(), to))
        return taken;
    return Done{};
}

} // namespace mellowbin
