#include "db/climate_day_store.h"

#include "db/journal_store.h"

namespace mellowbin {

std::vector<KeptClimateDay> ClimateDayStore::days(PlaceId place, Day from, Day until,
                                                  std::string_view form) const {
    std::vector<KeptClimateDay> days;
    connection_.query("SELECT day, numbers FROM climate_day WHERE place_id = $1 AND day >= $2 AND day < $3 "
                      "AND form = $4 ORDER BY day",
                      {place, from, until, form}, [&](const Row& row) {
                          days.push_back({place, row.day(0), row.words(1)});
                      });
    return days;
}

bool ClimateDayStore::keep(const std::vector<KeptClimateDay>& days, std::string_view form,
                           std::int64_t version) {
    Transaction transaction(connection_);
    if (JournalStore(connection_).version() != version)
        return false;
    for (const auto& one : days)
        connection_.execute(
            "INSERT INTO climate_day (place_id, day, form, numbers) VALUES ($1, $2, $3, $4) "
            "ON CONFLICT (place_id, day) DO UPDATE SET form = excluded.form, numbers = excluded.numbers",
            {one.place, one.day, form, one.numbers});
    transaction.commit();
    return true;
}

void ClimateDayStore::forget(PlaceId place) {
    connection_.execute("DELETE FROM climate_day WHERE place_id = $1", {place});
}

void ClimateDayStore::forget(PlaceId place, Instant from, Instant until) {
    connection_.execute("DELETE FROM climate_day WHERE place_id = $1 AND day BETWEEN $2 AND $3",
                        {place, date::floor<Days>(from), date::floor<Days>(until)});
}

} // namespace mellowbin
