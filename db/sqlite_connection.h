#pragma once

#include "db/connection.h"
#include "db/migration.h"
#include "db/progress.h"

#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string>

namespace mellowbin {

/// "mwbn": the mark in the file's head by which a book is known from another SQLite file.
inline constexpr std::int32_t book_application_id = 0x6d77626e;

/// A book in one SQLite file on this machine.
class SqliteConnection final : public Connection {
public:
    /// Opens the book, makes it where there is none, and brings an older one to the present form, keeping a
    /// copy "<book>.before-000N" of it first, and its list of properties up to the program's. ":memory:" is a
    /// book that is gone when closed. Throws BookError with a sentence for a file that is not a book, a
    /// damaged or newer one, a network folder, a read-only place. `progress` hears of the copy and the steps
    /// of an older book, on this thread.
    explicit SqliteConnection(const std::filesystem::path& book,
                              std::span<const Migration> migrations = built_in_migrations(),
                              const Progress& progress = {});
    ~SqliteConnection() override;

    std::int64_t execute(std::string_view sql, Parameters parameters = {}) override;
    void query(std::string_view sql, Parameters parameters, const RowReader& read) override;
    bool was_written_elsewhere() override;
    Result<Done> save_copy(const std::filesystem::path& to) override;
    std::vector<std::string> faults() override;

private:
    void begin_writing() override;
    void begin_reading() override;
    void commit() override;
    void roll_back() noexcept override;

    class File;
    std::unique_ptr<File> file_;
    std::int64_t data_version_ = 0;
};

/// The network file system with this statfs(2) type, in words; nothing for a disk of this machine.
std::optional<std::string> network_file_system(long statfs_type);

} // namespace mellowbin
