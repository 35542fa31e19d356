#include "db/climate_store.h"

#include "db/climate_day_store.h"
#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace mellowbin {
namespace {

using Readings = std::vector<ClimateReading>;

ClimateReading reading_from(const Row& row) {
    ClimateReading reading{Instant{std::chrono::seconds{row.integer(1)}}, Celsius{row.real(2)}, {}};
    if (const auto humidity = row.maybe_real(3))
        reading.humidity = RelativeHumidity{*humidity};
    return reading;
}

/// Logs one after the other become one series. What was read later stands behind and holds.
void merge_logs(Readings& readings) {
    const auto is_earlier = [](const ClimateReading& a, const ClimateReading& b) { return a.at < b.at; };
    const auto is_no_later = [](const ClimateReading& a, const ClimateReading& b) { return a.at >= b.at; };
    if (std::adjacent_find(readings.begin(), readings.end(), is_no_later) == readings.end())
        return; // logs that do not overlap, in order
    std::stable_sort(readings.begin(), readings.end(), is_earlier);
    const auto kept = std::unique(readings.rbegin(), readings.rend(),
                                  [](const auto& a, const auto& b) { return a.at == b.at; });
    readings.erase(readings.begin(), kept.base());
}

/// Instants between which readings are asked for.
struct Span {
    std::optional<Instant> from, until;
};

std::int64_t seconds(std::optional<Instant> at, std::int64_t otherwise) {
    return at ? std::int64_t{at->time_since_epoch().count()} : otherwise;
}

/// The readings of the logs l that the clause names and nobody withdrew, by place. A log that was read before
/// the span began has none in it.
std::map<PlaceId, Readings> readings_where(Connection& connection, std::string_view clause,
                                           Parameters parameters, Span span = {}) {
    std::map<ClimateLogId, PlaceId> place_of;
    connection.query(
        fmt::format("SELECT l.id, l.place_id, l.at FROM climate_log l LEFT JOIN climate_log w ON "
                    "w.withdraws_id = l.id WHERE w.id IS NULL AND l.withdraws_id IS NULL {}",
                    clause),
        parameters, [&](const Row& row) {
            if (!span.from || row.instant(2) >= *span.from)
                place_of.emplace(row.id<ClimateLogId>(0), row.id<PlaceId>(1));
        });
    std::map<PlaceId, Readings> by_place;
    for (const auto& [log, place] : place_of) {
        auto& readings = by_place[place];
        connection.query("SELECT log_id, at, temperature_c, humidity FROM climate_reading WHERE log_id = $1 "
                         "AND at BETWEEN $2 AND $3 ORDER BY at",
                         {log, seconds(span.from, std::numeric_limits<std::int64_t>::min()),
                          seconds(span.until, std::numeric_limits<std::int64_t>::max())},
                         [&](const Row& row) { readings.push_back(reading_from(row)); });
    }
    for (auto& [place, readings] : by_place)
        merge_logs(readings);
    return by_place;
}

/// Logs of a place that nobody withdrew; the one that holds where they overlap comes first.
struct LogAndWhen {
    ClimateLogId id;
    Instant read_at; ///< it has no reading from after that
};
std::vector<LogAndWhen> logs_that_count(Connection& connection, PlaceId place) {
    std::vector<LogAndWhen> logs;
    connection.query("SELECT l.id, l.at FROM climate_log l LEFT JOIN climate_log w ON w.withdraws_id = l.id "
                     "WHERE w.id IS NULL AND l.withdraws_id IS NULL AND l.place_id = $1 ORDER BY l.id DESC",
                     {place}, [&](const Row& row) {
                         logs.push_back({row.id<ClimateLogId>(0), row.instant(1)});
                     });
    return logs;
}

constexpr auto most_beside = static_cast<std::int64_t>(readings_beside);

/// The last readings_beside ones before an instant, in order of time.
Readings last_before(Connection& connection, PlaceId place, Instant at) {
    Readings found;
    for (const auto& log : logs_that_count(connection, place)) {
        if (found.size() == readings_beside && found.front().at >= log.read_at)
            continue;
        Readings of_log;
        connection.query("SELECT log_id, at, temperature_c, humidity FROM climate_reading WHERE log_id = $1 "
                         "AND at < $2 ORDER BY at DESC LIMIT $3",
                         {log.id, seconds(at, 0), most_beside},
                         [&](const Row& row) { of_log.push_back(reading_from(row)); });
        found.insert(found.begin(), of_log.rbegin(), of_log.rend());
        merge_logs(found);
        if (found.size() > readings_beside)
            found.erase(found.begin(), found.end() - most_beside);
    }
    return found;
}

/// The first readings_beside ones from an instant on, in order of time.
Readings first_from(Connection& connection, PlaceId place, Instant at) {
    Readings found;
    for (const auto& log : logs_that_count(connection, place)) {
        if (log.read_at < at)
            continue;
        Readings of_log;
        connection.query("SELECT log_id, at, temperature_c, humidity FROM climate_reading WHERE log_id = $1 "
                         "AND at >= $2 ORDER BY at LIMIT $3",
                         {log.id, seconds(at, 0), most_beside},
                         [&](const Row& row) { of_log.push_back(reading_from(row)); });
        found.insert(found.begin(), of_log.begin(), of_log.end());
        merge_logs(found);
        if (found.size() > readings_beside)
            found.erase(found.begin() + most_beside, found.end());
    }
    return found;
}

std::vector<ClimateLog> logs_where(Connection& connection, std::string_view clause, Parameters parameters) {
    std::vector<ClimateLog> logs;
    connection.query(
        fmt::format("SELECT l.id, l.place_id, l.file, l.who, l.at, l.words, w.id FROM climate_log l "
                    "LEFT JOIN climate_log w ON w.withdraws_id = l.id WHERE l.withdraws_id IS NULL "
                    "{} ORDER BY l.id",
                    clause),
        parameters, [&](const Row& row) {
            logs.push_back({row.id<ClimateLogId>(0), row.id<PlaceId>(1), row.words(2), row.words(3),
                            row.instant(4), row.words(5), !row.is_null(6)});
        });
    return logs;
}

void write_row(Change& change, ClimateLogId id, const ClimateLog& log,
               std::optional<ClimateLogId> withdraws) {
    change.connection().execute(
        "INSERT INTO climate_log (id, place_id, file, words, at, who, withdraws_id) "
        "VALUES ($1, $2, $3, $4, $5, $6, $7)",
        {id, log.place, log.file, log.words, change.journal_line().at, change.journal_line().who, withdraws});
    change.touches(record_of(withdraws.value_or(id)));
}

} // namespace

std::vector<ClimateLog> ClimateStore::logs() const { return logs_where(connection_, "", {}); }

std::vector<ClimateLog> ClimateStore::logs_since(Instant since) const {
    return logs_where(connection_, "AND l.at >= $1", {since});
}

std::optional<ClimateLog> ClimateStore::find(ClimateLogId id) const {
    return only(logs_where(connection_, "AND l.id = $1", {id}));
}

std::vector<ClimateReading> ClimateStore::readings(PlaceId place) const {
    auto by_place = readings_where(connection_, "AND l.place_id = $1", {place});
    return by_place.empty() ? Readings{} : std::move(by_place.begin()->second);
}

std::vector<ClimateReading> ClimateStore::readings(PlaceId place, Instant from,
                                                   std::optional<Instant> until) const {
    auto by_place = readings_where(connection_, "AND l.place_id = $1", {place}, {from, until});
    return by_place.empty() ? Readings{} : std::move(by_place.begin()->second);
}

std::vector<ClimateReading> ClimateStore::readings_around(PlaceId place, Instant from,
                                                          std::optional<Instant> until) const {
    auto found = last_before(connection_, place, from);
    const auto within =
        readings(place, from, until ? std::optional(*until - std::chrono::seconds{1}) : until);
    found.insert(found.end(), within.begin(), within.end());
    if (until) {
        const auto after = first_from(connection_, place, *until);
        found.insert(found.end(), after.begin(), after.end());
    }
    return found;
}

std::map<PlaceId, std::vector<ClimateReading>> ClimateStore::all_readings() const {
    return readings_where(connection_, "", {});
}

Result<ClimateLogId> ClimateStore::add(Change& change, const ClimateLog& log,
                                       std::span<const ClimateReading> readings) {
    if (readings.empty())
        return change.refuse({"File", "has no readings", "Choose another file"});
    auto& book = change.connection();
    const ClimateLogId id{next_number(book, "climate_log")};
    write_row(change, id, log, {});
    for (const auto& reading : readings)
        book.execute(
            "INSERT INTO climate_reading (log_id, at, temperature_c, humidity) VALUES ($1, $2, $3, $4)",
            {id, std::int64_t{reading.at.time_since_epoch().count()}, reading.temperature, reading.humidity});
    forget_days(log.place, readings.front().at, readings.back().at);
    return id;
}

/// The days that readings of a log changed, from its first to its last: with as many beside as say how they
/// join.
void ClimateStore::forget_days(PlaceId place, Instant first, Instant last) {
    const auto before = last_before(connection_, place, first);
    const auto after = first_from(connection_, place, last + std::chrono::seconds{1});
    ClimateDayStore(connection_)
        .forget(place, before.empty() ? first : before.front().at, after.empty() ? last : after.back().at);
}

Result<Done> ClimateStore::withdraw(Change& change, ClimateLogId id, std::string_view reason) {
    auto log = find(id);
    if (!log)
        return change.refuse({"Climate log", "is not in the book", "Choose one from the place's list"});
    if (log->is_withdrawn)
        return change.refuse({"Climate log", "was withdrawn before", "Look at the place's list"});
    log->words = reason;
    write_row(change, ClimateLogId{next_number(change.connection(), "climate_log")}, *log, id);
    Instant first, last;
    connection_.query("SELECT MIN(at), MAX(at) FROM climate_reading WHERE log_id = $1", {id},
                      [&](const Row& row) {
                          first = Instant{std::chrono::seconds{row.integer(0)}};
                          last = Instant{std::chrono::seconds{row.integer(1)}};
                      });
    forget_days(log->place, first, last);
    return Done{};
}

} // namespace mellowbin
