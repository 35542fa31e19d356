#include "exchange/climate_log.h"
#include "exchange/logger_clock.h"
#include "fuzz/target.h"

namespace mellowbin::fuzz {
namespace {

using namespace exchange;

constexpr Instant now = date::sys_days{date::year{2026} / 11 / 25} + std::chrono::hours{12};

void expect_sound(const ClimateFile& file, const ClimateLogContext& context, std::string_view bytes) {
    expect(!file.readings.empty(), "a file that is read has a reading");
    std::optional<Instant> before;
    for (const auto& reading : file.readings) {
        expect(!before || reading.at > *before, "readings stand in order, each instant once");
        before = reading.at;
        expect(reading.at <= context.now + clock_tolerance, "no reading is of the future");
        expect(!context.earliest || reading.at >= *context.earliest - longest_before_flour,
               "no reading is from long before the flour");
        expect(reading.temperature >= Celsius{-40} && reading.temperature <= Celsius{60},
               "a temperature is one of a store");
        expect(!reading.humidity ||
                   (*reading.humidity >= RelativeHumidity{0} && *reading.humidity <= RelativeHumidity{1}),
               "a humidity is a share");
    }
    std::size_t line = 1;
    for (const auto& one : file.set_aside) {
        expect(one.line >= line && one.line <= bytes.size() + 1, "what is set aside stands by line");
        line = one.line;
        expect(!one.what.empty() && !one.why.empty(), "what is set aside is said, and why");
        expect_text(one.what);
        expect_text(one.why);
    }
    for (const auto& note : file.notes)
        expect_text(note);
}

void take(std::string_view bytes) {
    const auto* berlin = date::locate_zone("Europe/Berlin");
    for (const auto& context :
         {ClimateLogContext{berlin, now, now - Days{400}}, ClimateLogContext{nullptr, now, std::nullopt}}) {
        const auto file = read_climate_log(bytes, context);
        if (file)
            expect_sound(*file, context, bytes);
        else
            expect_well_said(file.refusals(), bytes);
    }
}

const Registered target{"climate_log", take};

} // namespace
} // namespace mellowbin::fuzz
