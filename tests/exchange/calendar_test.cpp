#include "exchange/calendar.h"
#include "support/catch.h"
#include "support/iso.h"

#include <libical/ical.h>
#include <map>
#include <memory>

using namespace mellowbin;
using namespace mellowbin::exchange;
using Catch::Matchers::Contains;

namespace {

const Day today = day_from_iso("2026-11-25");
const Instant now = instant_from_iso("2026-11-25T04:10:00Z");
const Instant later = instant_from_iso("2026-11-26T04:10:00Z");

const std::string hostile =
    "Мука; пшеничная, \"высший\" \\ сорт:\r\n1,5 кг – ½ ≥ 4 °C \xF0\x9F\x8C\xBE\nи ещё много слов, "
    "чтобы строка была длинной";

std::vector<CalendarDay> three_days() {
    return {{"lot-1-ready@x", day_from_iso("2026-11-27"), "Lot W24,118; ready", hostile},
            {"run-7@x", day_from_iso("2026-12-31"), "Pan bread", ""},
            {"lot-1-last-day@x", day_from_iso("2027-02-28"), "Last day", "one\\two"}};
}

struct Event {
    std::string summary, description, start, end, stamp, status;
    int sequence = -1;
};

struct Frees {
    void operator()(icalcomponent* component) const { icalcomponent_free(component); }
};

std::string text_of(const char* text) { return text ? text : ""; }

/// By libical, which folds, escapes and counts days by itself; refused lines become error components there.
std::map<std::string, Event> read_by_libical(const std::string& bytes) {
    const std::unique_ptr<icalcomponent, Frees> calendar(icalparser_parse_string(bytes.c_str()));
    REQUIRE(calendar);
    CHECK(icalcomponent_count_errors(calendar.get()) == 0);
    CHECK(icalrestriction_check(calendar.get()) ==
          1); // RFC 5545's own table of what must stand and how often
    CHECK(icalcomponent_count_errors(calendar.get()) == 0);
    std::map<std::string, Event> events;
    for (auto* one = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT); one;
         one = icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT)) {
        Event event;
        event.summary = text_of(icalcomponent_get_summary(one));
        event.description = text_of(icalcomponent_get_description(one));
        event.start = icaltime_as_ical_string(icalcomponent_get_dtstart(one));
        event.end = icaltime_as_ical_string(icalcomponent_get_dtend(one));
        event.stamp = icaltime_as_ical_string(icalcomponent_get_dtstamp(one));
        event.sequence = icalcomponent_get_sequence(one);
        event.status = icalcomponent_get_status(one) == ICAL_STATUS_CANCELLED ? "cancelled" : "";
        events[text_of(icalcomponent_get_uid(one))] = event;
    }
    return events;
}

std::string unix_lines(std::string text) {
    for (auto at = text.find("\r\n"); at != std::string::npos; at = text.find("\r\n"))
        text.erase(at, 1);
    return text;
}

} // namespace

TEST_CASE("libical reads the calendar: days, texts with everything that must be escaped, no error") {
    const auto events = read_by_libical(write_calendar("Bakery; flour", three_days(), now, today));
    REQUIRE(events.size() == 3);
    const auto& ready = events.at("lot-1-ready@x");
    CHECK(ready.summary == "Lot W24,118; ready");
    CHECK(ready.description == unix_lines(hostile));
    CHECK(ready.start == "20261127");
    CHECK(ready.end == "20261128"); // exclusive
    CHECK(ready.stamp == "20261125T041000Z");
    CHECK(ready.sequence == 0);
    CHECK(events.at("run-7@x").end == "20270101");
    CHECK(events.at("lot-1-last-day@x").end == "20270301");
    CHECK(events.at("lot-1-last-day@x").description == "one\\two");
}

TEST_CASE("Every line ends CRLF, is at most 75 octets long and parts no character") {
    auto bytes = write_calendar("x", three_days(), now, today);
    while (!bytes.empty()) {
        const auto end = bytes.find("\r\n");
        REQUIRE(end != std::string::npos);
        CHECK(end <= 75);
        CHECK((static_cast<unsigned char>(bytes[0]) & 0xC0) != 0x80);
        CHECK((bytes[0] != ' ' || (static_cast<unsigned char>(bytes[1]) & 0xC0) != 0x80));
        CHECK(bytes.substr(0, end).find_first_of("\r\n") == std::string::npos);
        bytes.erase(0, end + 2);
    }
}

TEST_CASE("A line is folded where RFC 5545 says") {
    CHECK(folded_line("SUMMARY:x") == "SUMMARY:x\r\n");
    CHECK(folded_line(std::string(75, 'x')) == std::string(75, 'x') + "\r\n");
    CHECK(folded_line(std::string(76, 'x')) == std::string(75, 'x') + "\r\n x\r\n");
    CHECK(folded_line(std::string(75 + 74 + 1, 'x')) ==
          std::string(75, 'x') + "\r\n " + std::string(74, 'x') + "\r\n x\r\n");
    CHECK(folded_line(std::string(74, 'x') + "ж") == std::string(74, 'x') + "\r\n ж\r\n");
}

TEST_CASE(
    "An event that did not change keeps its SEQUENCE and DTSTAMP; one that did gets the next, and now") {
    auto days = three_days();
    const auto first = write_calendar("x", days, now, today);
    CHECK(write_calendar("x", days, later, today, first) == first);
    days[1].summary = "Plain loaf";
    const auto second = write_calendar("x", days, later, today, first);
    auto events = read_by_libical(second);
    CHECK(events.at("run-7@x").sequence == 1);
    CHECK(events.at("run-7@x").stamp == "20261126T041000Z");
    CHECK(events.at("lot-1-ready@x").sequence == 0);
    CHECK(events.at("lot-1-ready@x").stamp == "20261125T041000Z");
    days[1].day += Days{1};
    events = read_by_libical(write_calendar("x", days, later, today, second));
    CHECK(events.at("run-7@x").sequence == 2);
}

TEST_CASE("What is gone and still to come is cancelled, once; it can come back; what is past is left out") {
    auto days = three_days();
    const auto first = write_calendar("x", days, now, today);
    days.erase(days.begin() + 1);
    const auto second = write_calendar("x", days, later, today, first);
    auto events = read_by_libical(second);
    CHECK(events.at("run-7@x").status == "cancelled");
    CHECK(events.at("run-7@x").sequence == 1);
    CHECK(events.at("run-7@x").summary == "Pan bread");
    CHECK(events.at("lot-1-ready@x").status.empty());
    CHECK(write_calendar("x", days, later + std::chrono::hours{1}, today, second) == second);
    events = read_by_libical(write_calendar("x", three_days(), later, today, second));
    CHECK(events.at("run-7@x").status.empty());
    CHECK(events.at("run-7@x").sequence == 2);
    const auto in_january = day_from_iso("2027-01-02");
    CHECK_FALSE(read_by_libical(write_calendar("x", days, later, in_january, second)).contains("run-7@x"));
}

TEST_CASE("A file from before that is torn or no calendar of ours does no harm") {
    const auto days = three_days();
    const auto first = write_calendar("x", days, now, today);
    for (const std::string& before :
         {std::string("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:a\r\nEND:VEVENT\r\n"),
          std::string("\r\n\r\n \r\n"), first.substr(0, first.size() / 2),
          std::string("BEGIN:VEVENT\r\nUID:run-7@x\r\nSEQUENCE:99999999999999999999"),
          std::string(1000, ' ')}) {
        const auto events = read_by_libical(write_calendar("x", days, later, today, before));
        CHECK(events.size() == 3);
    }
}
