#include "exchange/climate_log.h"

#include "core/typed_text.h"
#include "exchange/climate_head.h"
#include "exchange/climate_rows.h"
#include "exchange/csv.h"
#include "exchange/logger_clock.h"
#include "exchange/plant_time.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::exchange {
namespace {

class ClimateLogReader {
public:
    ClimateLogReader(const CsvTable& table, const ClimateColumns& columns, const ClimateLogContext& context)
        : table_(table), columns_(columns), context_(context), from_(table, columns) {}

    Result<ClimateFile> read() {
        for (std::size_t at = 0; at < table_.rows.size(); ++at)
            if (auto row = from_.read(at))
                rows_.push_back(*row);
        note_other_columns();
        drop_humidities_that_are_shares();
        if (auto refusals = place_in_time(); !refusals.empty())
            return refusals;
        std::vector<Instant> instants;
        for (const ClimateRow& row : rows_)
            instants.push_back(row.reading.at);
        if (auto wrong = why_clock_is_wrong(instants, context_.now, context_.earliest))
            return *std::move(wrong);
        set_aside_what_is_to_come();
        leave_out_what_was_before_flour();
        take_each_instant_once();
        file_.set_aside = from_.all_set_aside();
        file_.unit = columns_.unit;
        file_.temperature_head = table_.heads[columns_.temperature];
        if (file_.readings.empty())
            return nothing_read();
        if (!table_.ends_with_line_break)
            file_.notes.emplace_back("The last line has no line break: was the file cut off?");
        return std::move(file_);
    }

private:
    void note_other_columns() {
        for (std::size_t i = 0; i < table_.heads.size(); ++i)
            if (i != columns_.time && i != columns_.date && i != columns_.temperature &&
                i != columns_.humidity && !table_.heads[i].empty())
                file_.notes.push_back(
                    fmt::format("The column \"{}\" was not read", excerpt(table_.heads[i])));
    }

    /// Air of at most 1 % in every line is a share of 1, written under a head that speaks of %.
    void drop_humidities_that_are_shares() {
        bool is_any = false;
        for (const ClimateRow& row : rows_) {
            const auto humidity = row.reading.humidity.value_or(RelativeHumidity{0});
            if (humidity > RelativeHumidity{0.01})
                return;
            is_any = is_any || humidity > RelativeHumidity{0};
        }
        if (!is_any)
            return;
        for (ClimateRow& row : rows_)
            row.reading.humidity.reset();
        file_.notes.push_back(fmt::format("No line of \"{}\" is above 1 %: a share of 1 seems to be meant, "
                                          "so the humidity was not read",
                                          excerpt(table_.heads[*columns_.humidity])));
    }

    /// Gives each row its instant; rows that have none are set aside.
    Refusals place_in_time() {
        std::vector<LoggerTime> times;
        for (const ClimateRow& row : rows_)
            times.push_back(row.time);
        const auto slashed = way_of_slashed_dates(times);
        if (!slashed) {
            Refusal why = slashed.refusals().front();
            why.field =
                fmt::format("Column \"{}\"", excerpt(table_.heads[columns_.date.value_or(columns_.time)]));
            return {why};
        }
        const auto written = on_the_loggers_clock(*slashed);
        auto instants = to_instants(written, context_.zone);
        file_.notes.insert(file_.notes.end(), instants.notes.begin(), instants.notes.end());
        std::size_t next = 0;
        std::erase_if(rows_, [&](ClimateRow& row) {
            const auto instant = instants.of[next++];
            if (instant)
                row.reading.at = *instant;
            else
                from_.set_aside_for_its_time(
                    row.at, fmt::format("the clocks of {} skipped this time when they went forward",
                                        context_.zone->name()));
            return !instant;
        });
        return {};
    }

    /// The time of each row, in the order of the lines; rows of no day of the calendar are set aside.
    std::vector<WrittenTime> on_the_loggers_clock(SlashedDates slashed) {
        std::vector<WrittenTime> written;
        std::erase_if(rows_, [&](const ClimateRow& row) {
            const auto local = on_its_clock(row.time, slashed);
            if (local)
                written.push_back({*local, row.time.offset});
            else
                from_.set_aside_for_its_time(row.at, "the calendar has no such day");
            return !local;
        });
        return written;
    }

    void set_aside_what_is_to_come() {
        std::erase_if(rows_, [&](const ClimateRow& row) {
            const bool is_to_come = row.reading.at > context_.now + clock_tolerance;
            if (is_to_come)
                from_.set_aside_for_its_time(
                    row.at, fmt::format("is after now, {}: the logger's clock was wrong", iso(context_.now)));
            return is_to_come;
        });
    }

    void leave_out_what_was_before_flour() {
        if (!context_.earliest)
            return;
        const Instant from = *context_.earliest - longest_before_flour;
        file_.before_flour =
            std::erase_if(rows_, [&](const ClimateRow& row) { return row.reading.at < from; });
        if (file_.before_flour > 0)
            file_.notes.push_back(
                fmt::format("Taken from {} on, {} days before this plant had flour: {} earlier "
                            "reading{} left out",
                            iso(from).substr(0, 10), longest_before_flour.count(), file_.before_flour,
                            file_.before_flour == 1 ? " was" : "s were"));
    }

    void take_each_instant_once() {
        std::stable_sort(rows_.begin(), rows_.end(), [](const ClimateRow& a, const ClimateRow& b) {
            return a.reading.at < b.reading.at;
        });
        std::size_t pairs = 0;
        const ClimateRow* kept = nullptr;
        for (const ClimateRow& row : rows_) {
            if (!kept || row.reading.at != kept->reading.at) {
                kept = &row;
                file_.readings.push_back(row.reading);
            } else if (row.reading == kept->reading) {
                ++pairs;
            } else {
                from_.set_aside_for_its_time(
                    row.at, fmt::format("line {} gives other values for the same time, and was kept",
                                        table_.rows[kept->at].line));
            }
        }
        if (pairs > 0)
            file_.notes.push_back(
                fmt::format("{} line{} repeated another and counted once", pairs, pairs == 1 ? "" : "s"));
    }

    [[nodiscard]] Refusal nothing_read() const {
        if (file_.set_aside.empty())
            return {"", "the file has a head line and no readings", "Choose another file"};
        const auto& first = file_.set_aside.front();
        const auto why = fmt::format("no line gives a reading; the first reason is line {}, {}: {}",
                                     first.line, first.what, first.why);
        if (from_.would_do_in_fahrenheit() * 2 > table_.rows.size())
            return {"", why + ". Read in °F most would be temperatures of a store",
                    fmt::format("See whether the head \"{}\" names the wrong unit, or choose another file",
                                excerpt(table_.heads[columns_.temperature]))};
        return {"", why, "Correct the file or choose another"};
    }

    const CsvTable& table_;
    const ClimateColumns& columns_;
    const ClimateLogContext& context_;
    ClimateRows from_;
    std::vector<ClimateRow> rows_;
    ClimateFile file_;
};

std::size_t count_of_lines(std::string_view bytes) {
    return static_cast<std::size_t>(
        std::max(std::count(bytes.begin(), bytes.end(), '\n'), std::count(bytes.begin(), bytes.end(), '\r')));
}

/// Where the head line begins, when lines about the logger stand above it; 0 when none do, or none is found.
std::size_t begin_of_heads(std::string_view bytes) {
    constexpr int most_lines_above = 50;
    std::size_t begin = 0;
    for (int line = 0; line < most_lines_above && begin < bytes.size(); ++line) {
        const auto end = std::min(bytes.find_first_of("\r\n", begin), bytes.size());
        if (looks_like_climate_heads(bytes.substr(begin, end - begin)))
            return begin;
        begin = std::min(bytes.find_first_not_of("\r\n", end), bytes.size());
    }
    return 0;
}

/// The file with the lines above its heads left empty, so that line numbers stay those of the file.
std::string with_empty_lines_above(std::string_view bytes, std::size_t begin_of_heads) {
    std::string emptied;
    std::copy_if(bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(begin_of_heads),
                 std::back_inserter(emptied), [](char c) { return c == '\n' || c == '\r'; });
    return emptied.append(bytes.substr(begin_of_heads));
}

} // namespace

Result<ClimateFile> read_climate_log(std::string_view bytes, const ClimateLogContext& context) {
    if (const auto lines = count_of_lines(bytes); lines > most_climate_lines)
        return Refusal{"",
                       fmt::format("{} lines were read; up to {} are expected", lines, most_climate_lines),
                       "Export the log in parts, or one reading for several minutes"};
    std::string emptied;
    const bool says_its_separator = lower_case(bytes.substr(0, 8)).find("sep=") != std::string::npos;
    if (const auto begin = says_its_separator ? 0 : begin_of_heads(bytes); begin > 0) {
        emptied = with_empty_lines_above(bytes, begin);
        bytes = emptied;
    }
    const auto table = read_csv(bytes, RaggedRows::keep);
    if (!table)
        return table.refusals();
    const auto columns = find_climate_columns(table->heads);
    if (!columns)
        return columns.refusals();
    return ClimateLogReader(*table, *columns, context).read();
}

} // namespace mellowbin::exchange
