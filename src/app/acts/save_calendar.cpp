#include "app/acts/save_calendar.h"

#include "app/acts/intent.h"
#include "app/acts/saved_file.h"
#include "app/acts/state.h"
#include "app/book/durable_file.h"
#include "app/book/settings.h"
#include "app/models/calendar.h"
#include "core/counted.h"

#include <fmt/format.h>

#include <fstream>
#include <sstream>

namespace mellowbin::app {
namespace {

namespace fs = std::filesystem;

std::string bytes_there(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream bytes;
    if (in)
        bytes << in.rdbuf();
    return bytes.str();
}

/// A file that is there and no calendar was not written by us.
bool is_another_file(const std::string& before) {
    return !before.empty() && !before.starts_with("BEGIN:VCALENDAR\r\n");
}

/// Empty: it is written, or was so already.
std::string write(const State& state, const CalendarModel& calendar, const fs::path& file) {
    const auto before = bytes_there(file);
    if (is_another_file(before))
        return "a file that is no calendar has this name, and it is kept";
    const auto bytes = exchange::write_calendar(calendar.name, calendar.days, state.setup.clock.now(),
                                                state.today(), before);
    if (bytes == before)
        return {};
    return make_durably(file, [&](const fs::path& unfinished) { return write_bytes(unfinished, bytes); });
}

} // namespace

Result<Told> carry_out(State& state, const SaveCalendar& act) {
    const auto file = file_to_save(state, act.file, {".ics"});
    if (!file)
        return file.refusals();
    const auto calendar = make_calendar(state);
    if (const auto failed = write(state, calendar, *file); !failed.empty())
        return not_saved(*file, failed);
    return Told{fmt::format("Calendar saved to {}: {}", file->string(),
                            counted(calendar.days.size(), "day", "days"))};
}

std::string keep_calendar_file(const State& state) {
    const auto named = Choices(state.book.settings).words("calendar_file");
    if (named.empty())
        return {};
    std::error_code ignored;
    if (!fs::is_directory(fs::absolute(named).parent_path(), ignored))
        return {}; // the book is shared, and another machine has the folder
    const auto file = file_to_save(state, named, {".ics"});
    if (!file)
        return in_words(file.refusals().front());
    return write(state, make_calendar(state), *file);
}

} // namespace mellowbin::app
