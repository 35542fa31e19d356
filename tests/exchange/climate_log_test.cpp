#include "exchange/climate_log.h"
#include "support/fixture_file.h"
#include "support/refusal_words.h"

#include <fmt/format.h>

#include <chrono>
#include <random>

namespace mellowbin::exchange {
namespace {

using namespace date::literals;
using std::chrono::hours;
using std::chrono::minutes;
using testing::all_words;
using testing::fixture;
using testing::says;

/// Read at noon of 2026-11-25 in a plant in Berlin.
ClimateLogContext in_berlin() {
    return {date::locate_zone("Europe/Berlin"), date::sys_days{2026_y / 11 / 25} + hours{12}, {}};
}

ClimateFile file_of(std::string_view bytes, const ClimateLogContext& context = in_berlin()) {
    auto file = read_climate_log(bytes, context);
    INFO((file ? "" : all_words(file.refusals())));
    REQUIRE(file);
    return *std::move(file);
}

std::string why_not(std::string_view bytes, const ClimateLogContext& context = in_berlin()) {
    const auto file = read_climate_log(bytes, context);
    REQUIRE(!file);
    return all_words(file.refusals());
}

/// "line 4, what: why", each on a line.
std::string words_of(const std::vector<SetAside>& set_aside) {
    std::string words;
    for (const auto& one : set_aside)
        words += fmt::format("line {}, {}: {}\n", one.line, one.what, one.why);
    return words;
}

Instant utc(date::year_month_day day, int hour, int minute = 0) {
    return date::sys_days{day} + hours{hour} + minutes{minute};
}

/// The instants of a file of these times and the temperatures 20.0, 20.1, 20.2, …
std::vector<Instant> instants_of(std::initializer_list<const char*> times) {
    std::string bytes = "Time;Temperature °C\n";
    int tenths = 200;
    for (const char* time : times)
        bytes += fmt::format("{};{:.1f}\n", time, tenths++ / 10.0);
    std::vector<Instant> instants;
    for (const auto& reading : file_of(bytes).readings)
        instants.push_back(reading.at);
    return instants;
}

} // namespace

TEST_CASE("An hourly log in UTC is read as it stands") {
    const auto file = file_of(fixture("climate/hourly_utc.csv"));
    CHECK(file.set_aside.empty());
    CHECK(file.notes.empty());
    REQUIRE(file.readings.size() == 49);
    CHECK(file.readings[0] ==
          ClimateReading{utc(2026_y / 11 / 20, 0), Celsius{16.23}, RelativeHumidity{0.608}});
    CHECK(file.readings[48].at == utc(2026_y / 11 / 22, 0));
}

TEST_CASE("A log with lines above its heads, decimal commas and troubles loses only the troubles") {
    const auto file = file_of(fixture("climate/bay_semicolons.csv"));
    REQUIRE(file.readings.size() == 6);
    CHECK(file.readings[0] == ClimateReading{utc(2026_y / 11 / 1, 7), Celsius{17.4}, RelativeHumidity{0.61}});
    CHECK(file.readings[3] == ClimateReading{utc(2026_y / 11 / 1, 9), Celsius{18.0}, {}});
    CHECK(file.readings[4] == ClimateReading{utc(2026_y / 11 / 1, 10), Celsius{18.2}, {}});
    CHECK(file.readings[5].temperature == Celsius{18.9});
    CHECK(
        words_of(file.set_aside) ==
        "line 8, Temp. (°C): \"-999\": no reading; from -40 to 60 °C is expected\n"
        "line 11, RH (%): \"140,2\": no reading; the temperature was kept; from 0 to 100 % is expected\n"
        "line 12, Temp. (°C): \"ERR\": no number; from -40 to 60 °C is expected\n"
        "line 14, Time: \"01.11.2026 11:00:00\": line 13 gives other values for the same time, and was kept\n"
        "line 15, Time: \"31.11.2026 11:30:00\": the calendar has no such day\n");
    CHECK(file.notes == std::vector<std::string>{"The column \"No.\" was not read",
                                                 "The column \"Dew point (°C)\" was not read",
                                                 "1 line repeated another and counted once"});
}

TEST_CASE("Degrees Fahrenheit are converted, and a log that begins with its newest line is turned round") {
    const auto file = file_of(fixture("climate/fahrenheit_newest_first.csv"));
    CHECK(words_of(file.set_aside).empty());
    REQUIRE(file.readings.size() == 5);
    CHECK(file.readings[0] ==
          ClimateReading{utc(2026_y / 11 / 8, 23, 15), Celsius{-40}, RelativeHumidity{0.55}});
    CHECK(file.readings[4].at == utc(2026_y / 11 / 14, 12)); // 1:00 PM
    CHECK(file.readings[4].temperature.value() == Approx(20));
    CHECK(file.readings[2].at == utc(2026_y / 11 / 14, 11)); // 12:00 PM is noon
}

TEST_CASE("The unit of the temperature is found in many heads, in any order of columns") {
    for (const char* heads : {"Time,Temp °C", "time,degC", "Date/Time,\"Temperature, °C\"", "TIME,T [℃]",
                              "Timestamp,C", "datetime,Channel 1 (º C)", "Date,Temperature_C"}) {
        INFO(heads);
        const auto file = file_of(std::string(heads) + "\n2026-11-03 10:00,20.5\n");
        CHECK(file.readings.at(0) == ClimateReading{utc(2026_y / 11 / 3, 9), Celsius{20.5}, {}});
    }
    for (const char* heads : {"Temp °F,Time", "degF,Time", "Temperature (Fahrenheit),Date", "F,Timestamp"}) {
        INFO(heads);
        const auto file = file_of(std::string(heads) + "\n68,2026-11-03 10:00\n");
        CHECK(file.readings.at(0).temperature == Celsius{20});
    }
    for (const char* head : {"%RH", "RH", "Humidity %", "rel. humidity (%)", "RH[%]"}) {
        INFO(head);
        const auto file = file_of(std::string(head) + ",°C,Time\n55.5,20,2026-11-03 10:00\n");
        CHECK(file.readings.at(0).humidity == RelativeHumidity{0.555});
    }
}

TEST_CASE("Heads that leave something to guess are refused by name") {
    CHECK(says(why_not("Time,Temperature\n2026-11-03 10:00,20\n"),
               "Column \"Temperature\": no unit was read; °C or °F is expected"));
    CHECK(says(why_not("Time,Temperature K\n2026-11-03 10:00,293\n"), "the unit K was read"));
    CHECK(says(why_not("Time,Temp °C / °F\n2026-11-03 10:00,20\n"), "two units were read"));
    CHECK(
        says(why_not("Time,Value\n1,2\n"),
             "no column of a temperature with its unit, such as \"Temperature °C\" was found; the heads read "
             "are: Time, Value"));
    CHECK(says(why_not("Temp °C,RH\n1,2\n"), "no column of a time"));
    CHECK(says(why_not("Time,Dew point °C,Max °C\n1,2,3\n"), "no column of a temperature"));
    CHECK(says(why_not("Time,Temp 1 °C,Temp 2 °C\n1,2,3\n"),
               "2 columns of temperature were read: \"Temp 1 °C\", \"Temp 2 °C\"; one is expected"));
    CHECK(says(why_not("Time,Clock time,°C\n1,2,3\n"), "2 columns of time were read"));
    CHECK(says(why_not("2026-11-03 10:00,20.5\n2026-11-03 11:00,20.6\n"), "no column of a time"));
}

TEST_CASE(
    "Times with an offset are instants whatever the plant's zone, and so are those under a head in UTC") {
    const auto first = [](const std::string& bytes) { return file_of(bytes).readings.at(0).at; };
    const Instant ten = utc(2026_y / 11 / 3, 10);
    for (const char* time : {"2026-11-03T10:00Z", "2026-11-03T10:00:00.000Z", "2026-11-03 12:30:59+02:30",
                             "2026-11-03T08:00:00-0200", "2026-11-03 09:00 -01", "2026/11/03 10:00 UTC",
                             "03.11.2026 11:00:00", "3.11.2026 11:00", "2026-11-03T11:00:00,5"}) {
        INFO(time);
        CHECK(date::floor<hours>(first(fmt::format("Time;°C\n{};20\n", time))) == ten);
    }
    CHECK(first("Time (UTC);°C\n2026-11-03 10:00;20\n") == ten);
    CHECK(first("Time GMT+02:00;°C\n2026-11-03 12:00;20\n") == ten);
    CHECK(first("Time (local);Time (UTC);°C\n2026-11-03 17:00;2026-11-03 10:00;20\n") == ten);
    auto nowhere = in_berlin();
    nowhere.zone = nullptr;
    CHECK(file_of("Time;°C\n2026-11-03 10:00;20\n", nowhere).readings.at(0).at == ten);
}

TEST_CASE("What is no time is set aside with what was read") {
    const auto file =
        file_of("Time;°C\nyesterday;20\n2026-11-03;20\n2026-11-03 25:00;20\n2026-11-03 10:60;20\n"
                "03.11.26 10:00;20\n45964.4;20\n;20\n2026-11-03 10:00;20\n13:00 PM;20\n");
    CHECK(file.readings.size() == 1);
    CHECK(file.set_aside.size() == 8);
    CHECK(file.set_aside[0] ==
          SetAside{2, "Time: \"yesterday\"", "no time; such as 2026-11-25 14:30 is expected"});
}

TEST_CASE("The hour that clocks repeat is told by the order of lines: the second pass is the later") {
    const auto file = file_of(fixture("climate/clocks_back.csv"));
    REQUIRE(file.readings.size() == 7);
    CHECK(file.set_aside.empty());
    CHECK(file.notes.empty());
    // 01:30 of summer time is 23:30 UTC; from there on, every half hour.
    for (int i = 0; i < 7; ++i) {
        const auto& reading = file.readings[static_cast<std::size_t>(i)];
        CHECK(reading.at == utc(2026_y / 10 / 24, 23, 30) + minutes{30 * i});
        CHECK(reading.temperature.value() == Approx(15.0 + 0.1 * i));
    }
}

TEST_CASE("Newest line first, the second pass of the repeated hour is the earlier in the file") {
    const auto instants = instants_of({"2026-10-25 03:00", "2026-10-25 02:30", "2026-10-25 02:00",
                                       "2026-10-25 02:30", "2026-10-25 02:00", "2026-10-25 01:30"});
    REQUIRE(instants.size() == 6);
    for (int i = 0; i < 6; ++i)
        CHECK(instants[static_cast<std::size_t>(i)] == utc(2026_y / 10 / 24, 23, 30) + minutes{30 * i});
}

TEST_CASE("A repeated hour that stands in the file once is taken where it fits, and a note says so") {
    const auto both = file_of("Time;°C\n2026-10-25 01:50;20\n2026-10-25 02:30;20\n2026-10-25 03:00;20\n");
    CHECK(both.readings[1].at == utc(2026_y / 10 / 25, 0, 30));
    REQUIRE(both.notes.size() == 1);
    CHECK(both.notes[0] == "The clocks went back on 2026-10-25; the hour they repeated stands in the file "
                           "once, from 02:30, and was taken for its first pass");
    const auto begins = file_of("Time;°C\n2026-10-25 02:40;20\n2026-10-25 02:50;20\n2026-10-25 03:00;20\n");
    CHECK(begins.readings[0].at == utc(2026_y / 10 / 25, 1, 40));
    CHECK(says(begins.notes.at(0), "second pass"));
    const auto ends = file_of("Time;°C\n2026-10-25 01:50;20\n2026-10-25 02:00;20\n");
    CHECK(ends.readings[1].at == utc(2026_y / 10 / 25, 0));
}

TEST_CASE("Two exports that both hold the repeated hour agree about it") {
    const std::string once =
        "2026-10-25 01:00;20\n2026-10-25 02:00;21\n2026-10-25 02:00;22\n2026-10-25 03:00;23\n";
    const auto file = file_of("Time;°C\n" + once + once);
    CHECK(file.readings.size() == 4);
    CHECK(file.set_aside.empty());
    CHECK(file.notes.at(0) == "4 lines repeated another and counted once");
}

TEST_CASE("A time that the clocks skipped is set aside") {
    const auto file = file_of("Time;°C\n2026-03-29 01:30;8\n2026-03-29 02:30;8\n2026-03-29 03:30;8\n");
    REQUIRE(file.readings.size() == 2);
    CHECK(file.readings[1].at - file.readings[0].at == hours{1});
    CHECK(words_of(file.set_aside) ==
          "line 3, Time: \"2026-03-29 02:30\": the clocks of Europe/Berlin skipped this "
          "time when they went forward\n");
}

TEST_CASE("Every local time of a year has the instant that the zone tables give") {
    std::string bytes = "Time;°C\n";
    const auto& zone = *in_berlin().zone;
    const Instant begin = utc(2025_y / 11 / 20, 0);
    for (int i = 0; i < 365 * 48; ++i)
        bytes += date::format("%F %R;20\n", zone.to_local(begin + i * minutes{30}));
    const auto file = file_of(bytes);
    REQUIRE(file.readings.size() == 365 * 48);
    for (int i = 0; i < 365 * 48; ++i)
        REQUIRE(file.readings[static_cast<std::size_t>(i)].at == begin + i * minutes{30});
}

TEST_CASE("Slashed dates are read where the whole file leaves one way, else refused") {
    const auto first = [](const std::string& bytes) { return file_of(bytes).readings.at(0).at; };
    CHECK(first("Time;°C\n03/04/2026 10:00;20\n13/04/2026 10:00;20\n") == utc(2026_y / 4 / 3, 8));
    CHECK(first("Time;°C\n03/04/2026 10:00;20\n03/13/2026 10:00;20\n") == utc(2026_y / 3 / 4, 9));
    CHECK(first("Time;°C\n03/03/2026 10:00;20\n") == utc(2026_y / 3 / 3, 9));
    CHECK(says(why_not("Time;°C\n03/03/2026 10:00;20\n03/04/2026 10:00;20\n"),
               "Column \"Time\": 03/04/2026 was read, which may be two days"));
    CHECK(says(why_not("Date;Time;°C\n03/13/2026;10:00;20\n13/03/2026;10:00;20\n"),
               "Column \"Date\": 13/03/2026 has the day in front and 03/13/2026 the month"));
}

TEST_CASE("Sentinels, empty fields and impossible temperatures are no readings") {
    std::string bytes = "Time;°C\n";
    for (const char* value :
         {"-999", "-99", "9999", "NaN", "", "--", "85", "-41", "60.1", "21 C", "1e1", "20"})
        bytes += fmt::format("2026-11-03 10:00;{}\n", value);
    const auto file = file_of(bytes);
    CHECK(file.readings.size() == 1);
    CHECK(file.set_aside.size() == 11);
    CHECK(says(words_of(file.set_aside), "line 5, °C: \"NaN\": no reading"));
    CHECK(says(words_of(file.set_aside), "line 11, °C: \"21 C\": no number"));
    CHECK(file_of("Time;°C\n2026-11-03 10:00;-40\n2026-11-03 11:00;60\n").readings.size() == 2);
    CHECK(says(words_of(file_of("Time;°F\n2026-11-03 10:00;70\n2026-11-03 11:00;141\n").set_aside),
               "from -40 to 140 °F is expected"));
}

TEST_CASE("A bad humidity takes no temperature with it") {
    const auto file = file_of("Time;°C;RH\n2026-11-03 10:00;20;-1\n2026-11-03 11:00;20;wet\n"
                              "2026-11-03 12:00;20;\n2026-11-03 13:00;20;100\n");
    REQUIRE(file.readings.size() == 4);
    CHECK(file.set_aside.size() == 2);
    CHECK(says(words_of(file.set_aside), "line 3, RH: \"wet\": no number; the temperature was kept"));
    CHECK_FALSE(file.readings[0].humidity);
    CHECK_FALSE(file.readings[2].humidity);
    CHECK(file.readings[3].humidity == RelativeHumidity{1});
}

TEST_CASE("A humidity that is a share of 1 under a head of percent is not taken for dry air") {
    const auto file = file_of("Time;°C;RH %\n2026-11-03 10:00;20;0.55\n2026-11-03 11:00;20;0.6\n");
    CHECK_FALSE(file.readings[0].humidity);
    CHECK(says(file.notes.at(0), "No line of \"RH %\" is above 1 %"));
}

TEST_CASE("A line of another width is set aside, an empty field behind the last head is none") {
    const auto file = file_of("Time,°C\n2026-11-03 10:00,20,5\n2026-11-03 11:00,20.5,\n2026-11-03 12:00\n");
    REQUIRE(file.readings.size() == 1);
    CHECK(file.readings[0].temperature == Celsius{20.5});
    CHECK(words_of(file.set_aside) ==
          "line 2, begins \"2026-11-03 10:00\": 3 fields were read; 2 are expected, as in the head line\n"
          "line 4, begins \"2026-11-03 12:00\": 1 fields were read; 2 are expected, as in the head line\n");
}

TEST_CASE("A log whose clock ran a year ahead or behind is refused as a whole, with by how much") {
    const auto ahead = why_not(fixture("climate/clock_a_year_ahead.csv"));
    INFO(ahead);
    CHECK(says(ahead,
               "the logger's clock looks wrong: 40 of 40 readings lie after now, 2026-11-25T12:00:00Z; "
               "the newest is about 1 year ahead"));
    auto context = in_berlin();
    context.earliest = utc(2026_y / 9 / 1, 0);
    const std::string old = "Time;°C\n2025-11-24 10:00;20\n2025-11-25 10:00;20\n";
    CHECK(says(why_not(old, context), "2 of 2 readings lie over 60 days before this plant had flour, "
                                      "2026-09-01T00:00:00Z; the newest is about 1 year behind now"));
    CHECK(file_of(old).readings.size() == 2); // nothing is known of the plant's flour
    CHECK(file_of("Time;°C\n2026-07-04 10:00;20\n", context).readings.size() == 1);
    CHECK(says(why_not("Time;°C\n2026-11-25 20:00;20\n"), "about 7 hours ahead"));
    CHECK(says(why_not("Time;°C\n2026-12-25 13:00;20\n"), "about 30 days ahead"));
}

TEST_CASE("A sound log that was begun long before the first flour is taken from where it matters") {
    auto context = in_berlin();
    context.earliest = utc(2026_y / 9 / 1, 0);
    std::string bytes = "Time (UTC);Temp °C\n"; // twelve hours apart, a year and a half back from today
    int lines = 0;
    for (Instant at = utc(2025_y / 5 / 25, 0); at <= utc(2026_y / 11 / 25, 0); at += hours{12}, ++lines)
        bytes += fmt::format("{};{:.1f}\n", iso(at), 18 + 0.1 * (lines % 7));
    const auto file = file_of(bytes, context);
    CHECK(file.readings.front().at == utc(2026_y / 7 / 3, 0)); // 60 days before: an assumption
    CHECK(file.readings.back().at == utc(2026_y / 11 / 25, 0));
    CHECK(file.before_flour + file.readings.size() == static_cast<std::size_t>(lines));
    REQUIRE(file.notes.size() == 1);
    CHECK(says(file.notes[0],
               "Taken from 2026-07-03 on, 60 days before this plant had flour: 808 earlier readings"));
    CHECK(file_of(bytes).before_flour == 0); // nothing is known of the plant's flour
}

TEST_CASE("A log of which most lies in another year, with nothing between, has a clock that jumped") {
    auto context = in_berlin();
    context.earliest = utc(2026_y / 9 / 1, 0);
    std::string bytes = "Time (UTC);Temp °C\n2026-11-24T00:00Z;18.1\n2026-11-24T12:00Z;18.3\n";
    for (int hour = 0; hour < 5; ++hour)
        bytes += fmt::format("2000-01-01T{:02}:00Z;18.{}\n", hour, hour);
    CHECK(says(why_not(bytes, context),
               "the logger's clock looks wrong: 5 of 7 readings lie over 60 days before "
               "this plant had flour"));
}

TEST_CASE("Figures too warm for °C that would be a store's in °F are refused with that") {
    CHECK(says(why_not("Time;Temp °C\n2026-11-24 10:00;68.2\n2026-11-24 11:00;68.4\n"),
               "Read in °F most would be temperatures of a store"));
    CHECK_FALSE(says(why_not("Time;Temp °C\n2026-11-24 10:00;-999\n"), "°F"));
}

TEST_CASE("Of a log that is mostly right, only what lies over an hour after now is set aside") {
    const auto file = file_of("Time;°C\n2026-11-25 12:00;20\n2026-11-25 14:00;21\n2026-11-25 14:01;22\n");
    CHECK(file.readings.size() == 2);
    CHECK(words_of(file.set_aside) ==
          "line 4, Time: \"2026-11-25 14:01\": is after now, 2026-11-25T12:00:00Z: the "
          "logger's clock was wrong\n");
}

TEST_CASE("A file without any reading is refused with the first reason") {
    CHECK(says(why_not("Time;°C\n"), "the file has a head line and no readings"));
    CHECK(says(why_not("Time;°C\n2026-11-03 10:00;ERR\n2026-11-03 11:00;ERR\n"),
               "no line gives a reading; the first reason is line 2, °C: \"ERR\": no number"));
    CHECK(says(why_not(""), "the file is empty"));
    CHECK(says(why_not("\xFF\xFET\0i\0"), "UTF-16"));
}

TEST_CASE("Shuffled rows give the same readings") {
    auto lines = std::vector<std::string>{};
    for (int i = 0; i < 500; ++i)
        lines.push_back(fmt::format("2026-11-{:02}T{:02}:{:02}:00Z,{:.1f}\n", 1 + i / 48, i / 2 % 24,
                                    30 * (i % 2), 15 + i % 70 * 0.1));
    const auto joined = [&] {
        std::string bytes = "Time,°C\n";
        for (const auto& one : lines)
            bytes += one;
        return bytes;
    };
    const auto in_order = file_of(joined());
    std::shuffle(lines.begin(), lines.end(), std::mt19937{20261125});
    CHECK(file_of(joined()).readings == in_order.readings);
    CHECK(in_order.readings.size() == 500);
}

TEST_CASE("Every truncation of a log is read up to its end or refused") {
    for (const char* name :
         {"climate/bay_semicolons.csv", "climate/fahrenheit_newest_first.csv", "climate/clocks_back.csv"}) {
        const auto bytes = fixture(name);
        for (std::size_t length = 0; length < bytes.size(); ++length) {
            const auto file = read_climate_log(std::string_view(bytes).substr(0, length), in_berlin());
            INFO(name << ", " << length << " bytes");
            if (file)
                CHECK_FALSE(file->readings.empty());
            else
                CHECK_FALSE(in_words(file.refusals().front()).empty());
        }
    }
}

TEST_CASE("A log with bytes changed at random is read or refused, every line once") {
    const auto good = fixture("climate/bay_semicolons.csv");
    std::mt19937 random{20261125};
    constexpr std::string_view bytes_to_try = "0123456789-:.,;/ \"\nTZ\xC2\xB0\xFF";
    for (int i = 0; i < 2000; ++i) {
        std::string bytes = good;
        for (int change = 0; change < 4; ++change)
            bytes[random() % bytes.size()] = bytes_to_try[random() % bytes_to_try.size()];
        if (const auto file = read_climate_log(bytes, in_berlin()))
            REQUIRE(std::is_sorted(file->readings.begin(), file->readings.end(),
                                   [](const auto& a, const auto& b) { return a.at < b.at; }));
    }
}

TEST_CASE("Too many lines are refused before they are read, 40,000 in the wrong order are not slow") {
    CHECK(
        says(why_not("Time;°C\n" + std::string(most_climate_lines, '\n')), "2000001 lines were read; up to"));
    std::string bytes = "Time;°C\n";
    for (int i = 40'000; i > 0; --i)
        bytes += date::format("%F %T;20\n", utc(2026_y / 1 / 1, 0) + minutes{i});
    const auto begin = std::chrono::steady_clock::now();
    CHECK(file_of(bytes).readings.size() > 39'000);
    CHECK(std::chrono::steady_clock::now() - begin < std::chrono::seconds{20}); // seconds with sanitizers
}

} // namespace mellowbin::exchange
