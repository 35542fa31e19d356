#include "aging/climate_day.h"
#include "app/book/book.h"
#include "db/climate_store.h"
#include "exchange/climate_day.h"

namespace mellowbin::app {
namespace {

constexpr Days last_days{3}; // of which readings are at hand: they still come in

const std::string& form() {
    static const std::string form = aging::climate_day_form();
    return form;
}

} // namespace

void Book::read_climates(Connection& connection) {
    readings.clear();
    climate_days.clear();
    unkept_days_.clear();
    for (const auto& place : places)
        read_climate(connection, place);
}

/// What each day came to that is over; the readings of the last ones.
void Book::read_climate(Connection& connection, const Place& place) {
    const Day from = date::floor<Days>(readings_from_);
    const Day until = std::max(from, day - last_days);
    auto of_place = ClimateStore(connection).readings_around(place.id, Instant{until});
    std::vector<aging::ClimateDay> days;
    for (const auto& kept : ClimateDayStore(connection).days(place.id, from, until, form()))
        if (auto read = exchange::climate_day_from_json(kept.day, kept.numbers))
            days.push_back(*std::move(read));
    const bool is_measured = !days.empty() || (!of_place.empty() && of_place.back().at >= Instant{from});
    if (!is_measured) // by no logger from then on: what is assumed holds
        return;
    make_climate_days(connection, place, days, until);
    if (!of_place.empty())
        readings[place.id] = std::make_shared<const std::vector<ClimateReading>>(std::move(of_place));
    if (!days.empty())
        climate_days[place.id] = std::make_shared<const std::vector<aging::ClimateDay>>(std::move(days));
}

/// Those that are missing in the days, each from the readings of its time.
void Book::make_climate_days(Connection& connection, const Place& place, std::vector<aging::ClimateDay>& days,
                             Day until) {
    std::vector<aging::ClimateDay> all;
    const auto make = [&](Day first, Day past) {
        if (first >= past)
            return;
        const auto around = ClimateStore(connection).readings_around(place.id, Instant{first}, Instant{past});
        for (auto& made : aging::sums_of(place, around, first, past)) {
            unkept_days_.push_back({place.id, made.day, exchange::climate_day_as_json(made)});
            all.push_back(std::move(made));
        }
    };
    Day next = date::floor<Days>(readings_from_);
    for (auto& one : days) {
        make(next, one.day);
        next = one.day + Days{1};
        all.push_back(std::move(one));
    }
    make(next, until);
    days = std::move(all);
}

void Book::keep_climate_days(Connection& connection) {
    if (unkept_days_.empty())
        return;
    ClimateDayStore(connection).keep(unkept_days_, form(), version);
    // Where others wrote, they are made again the next time: it costs no more than it did.
    unkept_days_.clear();
}

} // namespace mellowbin::app
