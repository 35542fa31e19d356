#include "core/stock.h"

#include "core/decimal.h"

#include <fmt/format.h>

#include <array>

namespace mellowbin {
namespace {

constexpr std::array<std::string_view, 6> kinds{"receipt", "move", "use", "count", "waste", "return"};

/// A receipt brings, a use takes; only the counter-entry of one goes the other way.
bool places_fit(const Movement& m) {
    const bool brings = m.to && !m.from;
    const bool takes = m.from && !m.to;
    switch (m.kind) {
    case MovementKind::receipt:
    case MovementKind::give_back:
        return m.counters ? takes : brings;
    case MovementKind::use:
    case MovementKind::waste:
        return m.counters ? brings : takes;
    case MovementKind::move:
        return m.from && m.to && *m.from != *m.to;
    case MovementKind::count:
        return brings || takes;
    }
    return false;
}

} // namespace

std::string_view key_of(MovementKind kind) { return kinds[static_cast<std::size_t>(kind)]; }

std::optional<MovementKind> movement_kind_from_key(std::string_view key) {
    for (std::size_t i = 0; i < kinds.size(); ++i)
        if (kinds[i] == key)
            return static_cast<MovementKind>(i);
    return {};
}

void StockBook::enter(const Movement& m) {
    if (m.from)
        lying_[{m.lot, *m.from}] += -m.mass;
    if (m.to)
        lying_[{m.lot, *m.to}] += m.mass;
}

Result<Done> StockBook::check(const Movement& m) const {
    if (m.mass <= Grams{0})
        return Refusal{"Weight", fmt::format("{} g was read; more than nothing is expected", m.mass.count()),
                       "Enter how much was moved"};
    if (!places_fit(m)) {
        return Refusal{"Place",
                       fmt::format("the places do not fit a movement of the kind \"{}\"", key_of(m.kind)),
                       m.kind == MovementKind::move ? "Choose two different places" : "Choose one place"};
    }
    if (m.from && at(m.lot, *m.from) < m.mass) {
        return Refusal{"Weight",
                       fmt::format("{} kg was read, but only {} kg of the lot lies there",
                                   fixed(to_kilograms(m.mass).value(), 3),
                                   fixed(to_kilograms(at(m.lot, *m.from)).value(), 3)),
                       "Count the place, or take less"};
    }
    return Done{};
}

Grams StockBook::at(LotId lot, PlaceId place) const {
    const auto found = lying_.find({lot, place});
    return found == lying_.end() ? Grams{0} : found->second;
}

Grams StockBook::total(LotId lot) const {
    Grams sum;
    for (auto it = lying_.lower_bound({lot, PlaceId{INT64_MIN}});
         it != lying_.end() && it->first.first == lot; ++it)
        sum += it->second;
    return sum;
}

std::map<PlaceId, Grams> StockBook::places_of(LotId lot) const {
    std::map<PlaceId, Grams> places;
    for (auto it = lying_.lower_bound({lot, PlaceId{INT64_MIN}});
         it != lying_.end() && it->first.first == lot; ++it)
        if (it->second != Grams{0})
            places[it->first.second] = it->second;
    return places;
}

Movement countering(const Movement& mistaken, std::string who, Instant at, std::string note) {
    Movement counter = mistaken;
    counter.id = {};
    std::swap(counter.from, counter.to);
    counter.counters = mistaken.id;
    counter.who = std::move(who);
    counter.at = at;
    counter.note = std::move(note);
    return counter;
}

std::optional<Movement> correction_by_count(LotId lot, PlaceId place, Grams booked, Grams counted) {
    if (booked == counted)
        return {};
    Movement m;
    m.lot = lot;
    m.kind = MovementKind::count;
    m.mass = counted > booked ? counted - booked : booked - counted;
    (counted > booked ? m.to : m.from) = place;
    return m;
}

} // namespace mellowbin
