#include "db/climate_store.h"

#include "db/numbering.h"

#include <fmt/format.h>

#include <algorithm>

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

/// The readings of the logs l that the clause names and nobody withdrew, by place.
std::map<PlaceId, Readings> readings_where(Connection& connection, std::string_view clause,
                                           Parameters parameters) {
    std::map<ClimateLogId, PlaceId> place_of;
    connection.query(fmt::format("SELECT l.id, l.place_id FROM climate_log l LEFT JOIN climate_log w ON "
                                 "w.withdraws_id = l.id WHERE w.id IS NULL AND l.withdraws_id IS NULL {}",
                                 clause),
                     parameters,
                     [&](const Row& row) { place_of.emplace(row.id<ClimateLogId>(0), row.id<PlaceId>(1)); });
    std::map<PlaceId, Readings> by_place;
    for (const auto& [log, place] : place_of) {
        auto& readings = by_place[place];
        connection.query("SELECT log_id, at, temperature_c, humidity FROM climate_reading WHERE log_id = $1 "
                         "ORDER BY at",
                         {log}, [&](const Row& row) { readings.push_back(reading_from(row)); });
    }
    for (auto& [place, readings] : by_place)
        merge_logs(readings);
    return by_place;
}

void write_row(Change& change, ClimateLogId id, const ClimateLog& log,
               std::optional<ClimateLogId> withdraws) {
    change.connection().execute(
        "INSERT INTO climate_log (id, place_id, file, words, at, who, withdraws_id) "
        "VALUES ($1, $2, $3, $4, $5, $6, $7)",
        {id, log.place, log.file, log.words, change.journal_line().at, change.journal_line().who, withdraws});
}

} // namespace

std::vector<ClimateLog> ClimateStore::logs() const {
    std::vector<ClimateLog> logs;
    connection_.query("SELECT l.id, l.place_id, l.file, l.who, l.at, l.words, w.id FROM climate_log l "
                      "LEFT JOIN climate_log w ON w.withdraws_id = l.id WHERE l.withdraws_id IS NULL "
                      "ORDER BY l.id",
                      {}, [&](const Row& row) {
                          logs.push_back({row.id<ClimateLogId>(0), row.id<PlaceId>(1), row.words(2),
                                          row.words(3), row.instant(4), row.words(5), !row.is_null(6)});
                      });
    return logs;
}

std::vector<ClimateReading> ClimateStore::readings(PlaceId place) const {
    auto by_place = readings_where(connection_, "AND l.place_id = $1", {place});
    return by_place.empty() ? Readings{} : std::move(by_place.begin()->second);
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
    return id;
}

Result<Done> ClimateStore::withdraw(Change& change, ClimateLogId id, std::string_view reason) {
    auto all = logs();
    const auto log = std::find_if(all.begin(), all.end(), [&](const auto& l) { return l.id == id; });
    if (log == all.end())
        return change.refuse({"Climate log", "is not in the book", "Choose one from the place's list"});
    if (log->is_withdrawn)
        return change.refuse({"Climate log", "was withdrawn before", "Look at the place's list"});
    log->words = reason;
    write_row(change, ClimateLogId{next_number(change.connection(), "climate_log")}, *log, id);
    return Done{};
}

} // namespace mellowbin
