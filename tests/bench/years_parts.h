#pragma once

#include "years_books.h"
#include "years_table.h"

#include <filesystem>
#include <string>
#include <vector>

namespace mellowbin::bench {

/// What is measured, and how often after once to warm up.
struct Measured {
    std::vector<std::filesystem::path> books; ///< from the youngest to the oldest
    std::string program;
    int times = 5;
};

// Each prints its lines into the table; what fails is said there and counts as a goal missed.

/// Time and memory of the program's commands, each in a process of its own.
void measure_commands(YearsTable& table, const Measured& measured);
/// The first frame and the memory of the window; skipped with words where there is no display.
void measure_window(YearsTable& table, const Measured& measured);
/// From a person's act to the frame that shows it, without the disk's time.
void measure_acts(YearsTable& table, const Measured& measured);
/// Looking things up in what has been: a search by words, a page of the journal.
void measure_pages(YearsTable& table, const Measured& measured);
/// A book of the form before is brought to the present one.
void measure_migration(YearsTable& table, const YearsBooks& books, int years);

/// So many acts on the demo book, with the memory held after each tenth of them; true when the second half of
/// them let it grow by less than 2 MB.
bool soak(const std::filesystem::path& demo, int acts);

} // namespace mellowbin::bench
