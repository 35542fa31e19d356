#pragma once

#include "core/day.h"

#include <filesystem>
#include <string>
#include <vector>

namespace mellowbin::bench {

/// The day on which all of it happens.
Day bench_day();

/// Books of 0 and more years before the demo's weeks, in a folder where a second run finds them again.
class YearsBooks {
public:
    explicit YearsBooks(std::filesystem::path folder) : folder_(std::move(folder)) {}

    /// The demo book with so many years before it, in the present form; made where it is not there, which is
    /// said with how long it took.
    std::filesystem::path with_years(int years) const;
    /// A book of the form before the present one, of so many years.
    std::filesystem::path of_the_form_before(int years) const;
    [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }

private:
    std::filesystem::path folder_;
};

/// A copy of a closed book, gone when the scope is left; in memory where there is a file system in memory, so
/// that the disk's time does not count.
class CopyInMemory {
public:
    explicit CopyInMemory(const std::filesystem::path& book);
    CopyInMemory(const CopyInMemory&) = delete;
    CopyInMemory& operator=(const CopyInMemory&) = delete;
    ~CopyInMemory();
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

private:
    std::filesystem::path path_;
};

} // namespace mellowbin::bench
