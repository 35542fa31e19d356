#include "core/stock.h"

#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin {
namespace {

constexpr std::array<std::string_view, 7> kinds{"receipt", "move",   "use",        "count",
                                                "waste",   "return", "mill_return"};

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
    case MovementKind::to_mill:
        return m.counters ? brings : takes;
    case MovementKind::move:
        return m.from && m.to && *m.from != *m.to;
    case MovementKind::count:
        return brings || takes;
    }
    return false;
}

/// Which end of a place flour goes to or comes from.
enum class End { oldest, newest };

/// Takes the layer out; two of one lot that lay about it become one, so that a place has no more layers than
/// its lots took turns.
void drop(std::vector<Layer>& layers, std::vector<Layer>::iterator at) {
    at = layers.erase(at);
    if (at == layers.begin() || at == layers.end() || std::prev(at)->lot != at->lot)
        return;
    std::prev(at)->mass += at->mass;
    layers.erase(at);
}

void take(std::vector<Layer>& layers, LotId lot, Grams mass, End end) {
    const auto is_its_own = [&](const Layer& layer) { return layer.lot == lot; };
    while (mass > Grams{0}) {
        auto at = std::ranges::find_if(layers, is_its_own);
        if (end == End::newest && at != layers.end())
            at = std::prev(std::find_if(layers.rbegin(), layers.rend(), is_its_own).base());
        if (at == layers.end())
            return;
        const Grams taken = std::min(at->mass, mass);
        at->mass = at->mass - taken;
        mass = mass - taken;
        if (at->mass <= Grams{0})
            drop(layers, at);
    }
}

void put(std::vector<Layer>& layers, LotId lot, Grams mass, End end) {
    if (end == End::oldest) {
        if (!layers.empty() && layers.front().lot == lot)
            layers.front().mass += mass;
        else
            layers.insert(layers.begin(), {lot, mass});
        return;
    }
    if (!layers.empty() && layers.back().lot == lot)
        layers.back().mass += mass;
    else
        layers.push_back({lot, mass});
}

/// What a count found more of a lot lay there all the time: it belongs to the lot's own newest layer.
void add_counted(std::vector<Layer>& layers, LotId lot, Grams mass) {
    const auto own =
        std::find_if(layers.rbegin(), layers.rend(), [&](const Layer& layer) { return layer.lot == lot; });
    if (own != layers.rend())
        own->mass += mass;
    else
        layers.push_back({lot, mass});
}

} // namespace

std::string_view key_of(MovementKind kind) { return kinds[static_cast<std::size_t>(kind)]; }

std::optional<MovementKind> movement_kind_from_key(std::string_view key) {
    for (std::size_t i = 0; i < kinds.size(); ++i)
        if (kinds[i] == key)
            return static_cast<MovementKind>(i);
    return {};
}

std::string_view in_words(MovementKind kind) {
    return kind == MovementKind::to_mill ? "back to the mill" : key_of(kind);
}

void StockBook::enter(const Movement& m) {
    const bool is_counter = m.counters.has_value();
    if (m.from) {
        lying_[{m.lot, *m.from}] += -m.mass;
        take(layers_[*m.from], m.lot, m.mass, is_counter ? End::newest : End::oldest);
    }
    if (m.to) {
        lying_[{m.lot, *m.to}] += m.mass;
        if (m.kind == MovementKind::count)
            add_counted(layers_[*m.to], m.lot, m.mass);
        else
            put(layers_[*m.to], m.lot, m.mass, is_counter ? End::oldest : End::newest);
    }
}

const std::vector<Layer>& StockBook::layers(PlaceId place) const {
    static const std::vector<Layer> nothing;
    const auto found = layers_.find(place);
    return found == layers_.end() ? nothing : found->second;
}

Result<Done> possible(const Movement& m, Grams lying) {
    if (m.mass <= Grams{0})
        return Refusal{"Weight", fmt::format("{} g was read; more than nothing is expected", m.mass.count()),
                       "Enter how much was moved"};
    if (!places_fit(m)) {
        return Refusal{"Place",
                       fmt::format("the places do not fit a movement of the kind \"{}\"", key_of(m.kind)),
                       m.kind == MovementKind::move ? "Choose two different places" : "Choose one place"};
    }
    if (m.from && lying < m.mass) {
        return Refusal{"Weight",
                       fmt::format("{} kg was read, but only {} kg of the lot lies there",
                                   fixed(to_kilograms(m.mass).value(), 3),
                                   fixed(to_kilograms(lying).value(), 3)),
                       "Count the place, or take less"};
    }
    return Done{};
}

std::vector<PlacedFlour> drawn_from(std::map<PlaceId, Grams> lying, std::span<const PlaceId> said,
                                    Grams needed) {
    std::vector<PlacedFlour> order;
    for (const auto place : said)
        if (const auto there = lying.extract(place))
            order.push_back({there.key(), there.mapped()});
    const auto others = static_cast<std::ptrdiff_t>(order.size());
    for (const auto& [place, mass] : lying)
        order.push_back({place, mass});
    std::stable_sort(order.begin() + others, order.end(),
                     [](const PlacedFlour& a, const PlacedFlour& b) { return a.mass < b.mass; });
    std::vector<PlacedFlour> drawn;
    for (auto part : order) {
        part.mass = std::min(part.mass, needed);
        if (part.mass <= Grams{0})
            continue;
        needed = needed - part.mass;
        drawn.push_back(part);
    }
    return drawn;
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
