#include "exchange/calendar.h"
#include "fuzz/target.h"

#include <array>
#include <string>

namespace mellowbin::fuzz {
namespace {

const Day today = date::sys_days{date::year{2026} / 11 / 25};

/// Whatever stood in the file before, what is written is a calendar that is its own memory.
void take(std::string_view bytes) {
    const std::array<exchange::CalendarDay, 2> days{
        {{"lot-1@mellowbin", today, "W24-118 is ready", ""},
         {"run-2@mellowbin", today + Days{2}, "Run", "two\nlines"}}};
    const Instant now = today;
    const auto written = exchange::write_calendar("Flour", days, now, today, bytes);
    expect(written.starts_with("BEGIN:VCALENDAR\r\n") && written.ends_with("END:VCALENDAR\r\n"),
           "a calendar is whole");
    expect(written.size() <= 4096 + 8 * bytes.size(),
           "what is remembered is in proportion to what was there");
    expect(exchange::write_calendar("Flour", days, now + std::chrono::hours{1}, today, written) == written,
           "a calendar in which nothing changed stays as it is");
}

const Registered target{"calendar", take};

} // namespace
} // namespace mellowbin::fuzz
