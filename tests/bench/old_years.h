#pragma once

#include <cstdint>
#include <filesystem>

namespace mellowbin::bench {

/// How much was written.
struct OldYears {
    std::int64_t lots = 0, runs = 0, batches = 0, lines = 0;
};

/// Writes so many years (above 0) of ordinary work before the first lot of the book: 8 lots of 12 t a working
/// day, up to 400 batches of 200 kg a day over 4 runs on the book's lines while there is flour, one batch in
/// five with its result, a journal line each, hourly readings of up to 5 places. All of it is used up. The
/// records have higher numbers than those that were there. The book must be of a form this version knows, and
/// closed. Throws std::runtime_error with SQLite's words.
OldYears write_old_years(const std::filesystem::path& book, int years);

} // namespace mellowbin::bench
