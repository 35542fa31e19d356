#include "exchange/climate_rows.h"

#include "core/decimal.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::exchange {
namespace {

constexpr double coldest_c = -40, warmest_c = 60; // what a logger in a store can have measured

std::string field_words(std::string_view head, std::string_view text) {
    return fmt::format("{}: \"{}\"", excerpt(head), excerpt(trimmed(text)));
}

/// What loggers and spreadsheets write where there is nothing to write.
bool says_nothing(std::string_view text) {
    static constexpr std::array<std::string_view, 8> words{"", "nan", "na", "n/a", "#n/a", "-", "--", "---"};
    return std::find(words.begin(), words.end(), lower_case(text)) != words.end();
}

double to_celsius(double value, TemperatureUnit unit) {
    return unit == TemperatureUnit::celsius ? value : (value - 32) * 5 / 9;
}

} // namespace

std::optional<ClimateRow> ClimateRows::read(std::size_t at) {
    const CsvRow& row = table_.rows[at];
    if (!has_the_heads_width(row)) {
        set_aside(at, fmt::format("begins \"{}\"", excerpt(trimmed(row.fields.front()))),
                  ragged_row(table_, row).what);
        return {};
    }
    auto time = read_logger_time(time_text(at));
    if (!time) {
        set_aside_for_its_time(at, "no time; such as 2026-11-25 14:30 is expected");
        return {};
    }
    if (!time->offset)
        time->offset = columns_.offset;
    const auto temperature = read_temperature(at);
    if (!temperature)
        return {};
    return ClimateRow{at, *time, {{}, *temperature, read_humidity(at)}};
}

void ClimateRows::set_aside(std::size_t at, std::string what, std::string why) {
    set_aside_.push_back({table_.rows[at].line, std::move(what), std::move(why)});
}

void ClimateRows::set_aside_for_its_time(std::size_t at, std::string why) {
    set_aside(at, field_words(table_.heads[columns_.time], time_text(at)), std::move(why));
}

std::vector<SetAside> ClimateRows::all_set_aside() const {
    auto by_line = set_aside_;
    std::stable_sort(by_line.begin(), by_line.end(),
                     [](const SetAside& a, const SetAside& b) { return a.line < b.line; });
    return by_line;
}

/// Loggers end their lines with a separator: empty fields behind the last head are none.
bool ClimateRows::has_the_heads_width(const CsvRow& row) const {
    const auto width = std::ssize(table_.heads);
    return std::ssize(row.fields) >= width &&
           std::all_of(row.fields.begin() + width, row.fields.end(),
                       [](const std::string& field) { return trimmed(field).empty(); });
}

std::string ClimateRows::time_text(std::size_t at) const {
    const auto& fields = table_.rows[at].fields;
    const std::string& time = fields[columns_.time];
    return columns_.date ? fmt::format("{} {}", trimmed(fields[*columns_.date]), trimmed(time)) : time;
}

std::optional<double> ClimateRows::number(std::size_t at, std::size_t column, std::string_view expected) {
    const std::string& text = table_.rows[at].fields[column];
    const bool is_none = says_nothing(trimmed(text));
    if (!is_none)
        if (const auto read = read_decimal("", text))
            return **read;
    set_aside(at, field_words(table_.heads[column], text),
              fmt::format("{}; {} is expected", is_none ? "no reading" : "no number", expected));
    return {};
}

std::optional<Celsius> ClimateRows::read_temperature(std::size_t at) {
    const bool is_celsius = columns_.unit == TemperatureUnit::celsius;
    const char* expected = is_celsius ? "from -40 to 60 °C" : "from -40 to 140 °F";
    const auto value = number(at, columns_.temperature, expected);
    if (!value)
        return {};
    const double celsius = to_celsius(*value, columns_.unit);
    if (celsius >= coldest_c && celsius <= warmest_c)
        return Celsius{celsius};
    const double in_fahrenheit = to_celsius(*value, TemperatureUnit::fahrenheit);
    if (is_celsius && celsius > warmest_c && in_fahrenheit <= warmest_c)
        ++would_do_in_fahrenheit_;
    const std::string& text = table_.rows[at].fields[columns_.temperature];
    set_aside(at, field_words(table_.heads[columns_.temperature], text),
              fmt::format("no reading; {} is expected", expected));
    return {};
}

std::optional<RelativeHumidity> ClimateRows::read_humidity(std::size_t at) {
    if (!columns_.humidity)
        return {};
    const std::string& text = table_.rows[at].fields[*columns_.humidity];
    if (trimmed(text).empty())
        return {};
    constexpr const char* expected = "the temperature was kept; from 0 to 100 %";
    const auto percent = number(at, *columns_.humidity, expected);
    if (!percent)
        return {};
    if (*percent >= 0 && *percent <= 100)
        return RelativeHumidity{*percent / 100};
    set_aside(at, field_words(table_.heads[*columns_.humidity], text),
              fmt::format("no reading; {} is expected", expected));
    return {};
}

} // namespace mellowbin::exchange
