#include "exchange/calendar.h"

#include "core/promised.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <map>
#include <optional>
#include <set>

namespace mellowbin::exchange {
namespace {

constexpr std::size_t most_octets = 75; // of a line, its break not counted

std::string utc(Instant instant) { return date::format("%Y%m%dT%H%M%SZ", instant); }
std::string basic(Day day) { return date::format("%Y%m%d", day); }

/// TEXT of RFC 5545, 3.3.11. Other control characters may not stand in it.
std::string escaped(std::string_view text) {
    std::string words;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (c == '\\' || c == ';' || c == ',')
            words += std::string("\\") + c;
        else if (c == '\n' || c == '\r') {
            words += "\\n";
            i += c == '\r' && i + 1 < text.size() && text[i + 1] == '\n' ? 1 : 0;
        } else if (static_cast<unsigned char>(c) >= 0x20 || c == '\t')
            words += c == '\x7f' ? ' ' : c;
        else
            words += ' ';
    }
    return words;
}

/// An event as it stood in the file, unfolded.
struct WrittenEvent {
    std::vector<std::string> lines; ///< but for SEQUENCE, DTSTAMP and STATUS
    std::int64_t sequence = 0;
    std::string stamp, day;
    bool is_cancelled = false;
};
using Memory = std::map<std::string, WrittenEvent>;

std::vector<std::string> unfolded(std::string_view bytes) {
    std::vector<std::string> lines;
    while (!bytes.empty()) {
        const auto end = std::min(bytes.find("\r\n"), bytes.size());
        const auto line = bytes.substr(0, end);
        bytes.remove_prefix(std::min(end + 2, bytes.size()));
        if (!lines.empty() && (line.starts_with(' ') || line.starts_with('\t')))
            lines.back() += line.substr(1);
        else
            lines.emplace_back(line);
    }
    return lines;
}

std::optional<std::string> after(std::string_view line, std::string_view head) {
    return line.starts_with(head) ? std::optional<std::string>(line.substr(head.size())) : std::nullopt;
}

void remember(WrittenEvent& event, std::string& uid, const std::string& line) {
    if (const auto sequence = after(line, "SEQUENCE:"))
        std::from_chars(sequence->data(), sequence->data() + sequence->size(), event.sequence);
    else if (const auto stamp = after(line, "DTSTAMP:"))
        event.stamp = *stamp;
    else if (const auto status = after(line, "STATUS:"))
        event.is_cancelled = *status == "CANCELLED";
    else {
        if (const auto name = after(line, "UID:"))
            uid = *name;
        if (const auto day = after(line, "DTSTART;VALUE=DATE:"))
            event.day = *day;
        event.lines.push_back(line);
    }
}

Memory memory_of(std::string_view before) {
    Memory memory;
    WrittenEvent event;
    std::string uid;
    bool is_within = false;
    for (const auto& line : unfolded(before)) {
        if (line == "BEGIN:VEVENT") {
            event = {};
            uid.clear();
            is_within = true;
        } else if (line == "END:VEVENT") {
            if (is_within && !uid.empty() && event.day.size() == 8 && event.stamp.size() == 16 &&
                event.sequence >= 0)
                memory[uid] = event;
            is_within = false;
        } else if (is_within)
            remember(event, uid, line);
    }
    return memory;
}

std::vector<std::string> lines_of(const CalendarDay& day) {
    std::vector<std::string> lines{"UID:" + escaped(day.uid), "DTSTART;VALUE=DATE:" + basic(day.day),
                                   "DTEND;VALUE=DATE:" + basic(day.day + Days{1}), // exclusive: 3.6.1
                                   "SUMMARY:" + escaped(day.summary)};
    if (!day.description.empty())
        lines.push_back("DESCRIPTION:" + escaped(day.description));
    lines.emplace_back("TRANSP:TRANSPARENT"); // it keeps nobody busy
    return lines;
}

std::string written(const WrittenEvent& event) {
    std::string bytes = "BEGIN:VEVENT\r\n";
    for (const auto& line : event.lines)
        bytes += folded_line(line);
    bytes += folded_line("DTSTAMP:" + event.stamp);
    bytes += folded_line(fmt::format("SEQUENCE:{}", event.sequence));
    if (event.is_cancelled)
        bytes += folded_line("STATUS:CANCELLED");
    return bytes + "END:VEVENT\r\n";
}

} // namespace

std::string folded_line(std::string_view line) {
    std::string bytes;
    std::size_t on_line = 0;
    while (!line.empty()) {
        const auto length = std::max<std::size_t>(1, character_length(line));
        if (on_line + length > most_octets) {
            bytes += "\r\n ";
            on_line = 1; // the blank counts
        }
        bytes += line.substr(0, length);
        on_line += length;
        line.remove_prefix(length);
    }
    return bytes + "\r\n";
}

std::string write_calendar(std::string_view name, std::span<const CalendarDay> days, Instant now, Day today,
                           std::string_view before) {
    auto memory = memory_of(before);
    std::map<std::string, WrittenEvent> events; // by uid, so that equal books give equal files
    for (const auto& day : days) {
        WrittenEvent event{lines_of(day), 0, utc(now), basic(day.day), false};
        const auto known = memory.find(escaped(day.uid));
        if (known != memory.end()) {
            const auto& was = known->second;
            const bool is_as_it_was = was.lines == event.lines && !was.is_cancelled;
            event.sequence = was.sequence + (is_as_it_was ? 0 : 1);
            event.stamp = is_as_it_was ? was.stamp : event.stamp;
            memory.erase(known);
        }
        promised(events.emplace(escaped(day.uid), std::move(event)).second);
    }
    for (auto& [uid, gone] : memory) {
        if (gone.day < basic(today))
            continue;
        if (!gone.is_cancelled) {
            gone.is_cancelled = true;
            ++gone.sequence;
            gone.stamp = utc(now);
        }
        events.emplace(uid, gone);
    }
    std::string bytes = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//mellowbin//flour and runs//EN\r\n"
                        "CALSCALE:GREGORIAN\r\n";
    bytes +=
        folded_line("X-WR-CALNAME:" + escaped(name)); // not of the RFC, but what calendars show (from memory)
    for (const auto& [uid, event] : events)
        bytes += written(event);
    return bytes + "END:VCALENDAR\r\n";
}

} // namespace mellowbin::exchange
