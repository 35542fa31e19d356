#include "exchange/climate_head.h"

#include "core/typed_text.h"
#include "exchange/logger_time.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>

namespace mellowbin::exchange {
namespace {

using Words = std::vector<std::string>;
using WordList = std::span<const std::string_view>;

constexpr std::string_view celsius_words[]{"°c", "c", "degc", "celsius"};
constexpr std::string_view fahrenheit_words[]{"°f", "f", "degf", "fahrenheit"};
constexpr std::string_view other_scale_words[]{"k", "kelvin", "°k"};
constexpr std::string_view sure_unit_words[]{"°c", "degc", "celsius", "°f", "degf", "fahrenheit"};
constexpr std::string_view unit_marks[]{"°", "deg"};
constexpr std::string_view temperature_words[]{"temperature", "temp", "t"};
constexpr std::string_view humidity_words[]{"rh", "humidity", "hum"};
constexpr std::string_view instant_words[]{"timestamp", "datetime"};
constexpr std::string_view date_words[]{"date", "day"};
constexpr std::string_view time_words[]{"time"};
/// Words of columns that are none of those sought.
constexpr std::string_view other_words[]{"dew",     "dewpoint", "wet",     "heat",    "absolute", "setpoint",
                                         "set",     "min",      "max",     "minimum", "maximum",  "lowest",
                                         "highest", "alarm",    "elapsed", "zone",    "timezone", "interval"};

std::string replaced(std::string text, std::string_view what, std::string_view by) {
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
        text.replace(at, what.size(), by);
    return text;
}

bool is_one_of(std::string_view word, WordList list) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

/// "Temp. [℃]" -> "temp", "°c"; what is neither letter, digit nor beyond ASCII parts words; "%" is left out.
Words words_of(std::string_view head) {
    std::string text = lower_case(head);
    text = replaced(text, "\u2103", "°c");
    text = replaced(text, "\u2109", "°f");
    text = replaced(text, "\u00BA", "°"); // the ordinal sign, which looks the same
    text = replaced(text, "\u00A0", " ");
    text = replaced(text, "\u202F", " ");
    Words words(1);
    for (const char c : text) {
        const bool is_letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c & 0x80) != 0;
        if (is_letter)
            words.back() += c;
        else if (!words.back().empty())
            words.emplace_back();
    }
    if (words.back().empty())
        words.pop_back();
    for (std::size_t i = 0; i + 1 < words.size(); ++i) // "° C", "deg C"
        if (is_one_of(words[i], unit_marks)) {
            words[i] += words[i + 1];
            words.erase(words.begin() + static_cast<std::ptrdiff_t>(i) + 1);
        }
    return words;
}

bool has_any(const Words& words, WordList list) {
    return std::any_of(words.begin(), words.end(), [&](const auto& word) { return is_one_of(word, list); });
}

bool is_temperature(const Words& words) {
    const bool is_only_a_unit =
        !words.empty() && std::all_of(words.begin(), words.end(), [](const auto& word) {
            return is_one_of(word, celsius_words) || is_one_of(word, fahrenheit_words);
        });
    return has_any(words, temperature_words) || has_any(words, sure_unit_words) || is_only_a_unit;
}

/// "Time (UTC+01:00)" -> one hour; nothing where the head does not speak of UTC.
std::optional<std::chrono::minutes> offset_in(std::string_view head) {
    const std::string text = lower_case(head);
    for (const std::string_view name : {"utc", "gmt"}) {
        const auto at = text.find(name);
        if (at == std::string::npos)
            continue;
        std::string_view behind = trimmed(std::string_view(text).substr(at + name.size()));
        behind = behind.substr(0, behind.find_first_of(" )]"));
        return read_offset(behind).value_or(std::chrono::minutes{0});
    }
    return {};
}

/// The columns that could be each thing.
struct Candidates {
    std::vector<std::size_t> instants, times, dates, temperatures, humidities;
};

Candidates candidates_in(const std::vector<std::string>& heads) {
    Candidates found;
    for (std::size_t i = 0; i < heads.size(); ++i) {
        const Words words = words_of(heads[i]);
        if (has_any(words, other_words))
            continue;
        const bool has_date = has_any(words, date_words);
        const bool has_time = has_any(words, time_words);
        if (has_any(words, instant_words) || (has_date && has_time))
            found.instants.push_back(i);
        else if (has_time)
            found.times.push_back(i);
        else if (has_date)
            found.dates.push_back(i);
        else if (has_any(words, humidity_words))
            found.humidities.push_back(i);
        else if (is_temperature(words))
            found.temperatures.push_back(i);
    }
    return found;
}

class ColumnFinder {
public:
    explicit ColumnFinder(const std::vector<std::string>& heads)
        : heads_(heads), candidates_(candidates_in(heads)) {}

    Result<ClimateColumns> found() {
        find_time();
        if (const auto at = only("temperature", candidates_.temperatures)) {
            columns_.temperature = *at;
            find_unit(heads_[*at]);
        } else if (candidates_.temperatures.empty()) {
            refuse_missing("a temperature with its unit, such as \"Temperature °C\"");
        }
        columns_.humidity = only("humidity", candidates_.humidities);
        if (!refusals_.empty())
            return refusals_;
        return columns_;
    }

private:
    void find_time() {
        auto& [instants, times, dates, temperatures, humidities] = candidates_;
        if (instants.empty() && !times.empty() && !dates.empty()) {
            const auto date = only("date", dates);
            columns_.date = date;
            columns_.time = only("time", times).value_or(0);
        } else {
            auto& all = !instants.empty() ? instants : !times.empty() ? times : dates;
            if (all.empty())
                return refuse_missing("a time, such as \"Time\", or \"Date\" and \"Time\"");
            keep_those_in_utc(all);
            columns_.time = only("time", all).value_or(0);
        }
        columns_.offset = offset_in(heads_[columns_.time]);
    }
    /// Of times told twice, those in UTC leave nothing to guess.
    void keep_those_in_utc(std::vector<std::size_t>& times) const {
        const auto is_in_utc = [&](std::size_t at) { return offset_in(heads_[at]).has_value(); };
        if (times.size() > 1 && std::any_of(times.begin(), times.end(), is_in_utc))
            std::erase_if(times, [&](std::size_t at) { return !is_in_utc(at); });
    }
    void find_unit(const std::string& head) {
        const Words words = words_of(head);
        const bool is_celsius = has_any(words, celsius_words);
        const bool is_fahrenheit = has_any(words, fahrenheit_words);
        columns_.unit = is_fahrenheit ? TemperatureUnit::fahrenheit : TemperatureUnit::celsius;
        if (is_celsius != is_fahrenheit)
            return;
        const char* what = is_celsius                          ? "two units were read"
                           : has_any(words, other_scale_words) ? "the unit K was read"
                                                               : "no unit was read";
        refusals_.push_back({fmt::format("Column \"{}\"", excerpt(head)),
                             fmt::format("{}; °C or °F is expected", what),
                             "Write the unit into the head, such as \"Temperature °C\""});
    }
    /// The only candidate; several are refused, none is for the caller to judge.
    std::optional<std::size_t> only(std::string_view what, const std::vector<std::size_t>& all) {
        if (all.size() > 1) {
            std::string names;
            for (const auto at : all)
                names += fmt::format("{}\"{}\"", names.empty() ? "" : ", ", excerpt(heads_[at]));
            refusals_.push_back(
                {"Head line",
                 fmt::format("{} columns of {} were read: {}; one is expected", all.size(), what, names),
                 "Take the others out, or read one file for each place"});
        }
        return all.size() == 1 ? std::optional(all.front()) : std::nullopt;
    }
    void refuse_missing(std::string_view what) {
        std::string names;
        for (const auto& head : heads_)
            names += (names.empty() ? "" : ", ") + excerpt(head);
        refusals_.push_back({"Head line",
                             fmt::format("no column of {} was found; the heads read are: {}", what, names),
                             "Give the columns heads, or choose another file"});
    }

    const std::vector<std::string>& heads_;
    Candidates candidates_;
    ClimateColumns columns_;
    Refusals refusals_;
};

} // namespace

Result<ClimateColumns> find_climate_columns(const std::vector<std::string>& heads) {
    return ColumnFinder(heads).found();
}

bool looks_like_climate_heads(std::string_view line) {
    const Words words = words_of(line);
    return (has_any(words, date_words) || has_any(words, time_words) || has_any(words, instant_words)) &&
           is_temperature(words) && line.find_first_of(",;\t") != std::string_view::npos;
}

} // namespace mellowbin::exchange
