#include "aging/climate_day.h"
#include "app/book/book.h"
#include "db/climate_store.h"
#include "exchange/climate_day.h"

namespace mellowbin::app {
namespace {

constexpr Days last_days{3};      // of which readings are at hand: they still come in
constexpr Days before_arrival{2}; // a plant's day begins and ends elsewhere than the clock's
constexpr Days after_use{2};

const std::string& form() {
    static const std::string form = aging::climate_day_form();
    return form;
}

} // namespace

/// When the first of the lots came that are in stock or were lately.
Instant Book::oldest_live() const {
    Day oldest = since;
    for (const auto& one : lots)
        if (is_live(one.id))
            oldest = std::min(oldest, one.delivered_on);
    return Instant{oldest - before_arrival};
}

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

/// Where the lot lay, from when it came until nothing of it was moved or tested any more.
void Book::read_old_readings(Connection& connection, LotId id) {
    const Lot& old = *lot(id);
    const Instant from{old.delivered_on - before_arrival};
    if (from >= readings_from_)
        return;
    std::set<PlaceId> lay{old.received_into};
    Instant until{old.delivered_on};
    for (const Movement* movement : movements_of(id)) {
        until = std::max(until, movement->at);
        if (movement->to)
            lay.insert(*movement->to);
    }
    for (const Retest* retest : retests_of(id))
        until = std::max(until, Instant{retest->taken_on});
    if (stock.total(id) > Grams{0})
        until = std::max(until, Instant{day});
    for (const auto where : lay)
        old_readings[{id, where}] = std::make_shared<const std::vector<ClimateReading>>(
            ClimateStore(connection).readings(where, from, until + after_use));
}

void Book::keep_climate_days(Connection& connection) {
    if (unkept_days_.empty())
        return;
    ClimateDayStore(connection).keep(unkept_days_, form(), version);
    // Where others wrote, they are made again the next time: it costs no more than it did.
    unkept_days_.clear();
}

} // namespace mellowbin::app
