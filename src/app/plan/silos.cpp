#include "app/plan/silos.h"

#include "app/book/draw_places.h"
#include "app/plan/bans.h"
#include "core/flour_course.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

/// A zone that mixes gives another blend with every kilogram; a plan tells no more than so many apart.
constexpr std::int64_t most_steps = 10;

Grams total_of(const std::vector<Layer>& layers) {
    Grams total;
    for (const auto& layer : layers)
        total += layer.mass;
    return total;
}

/// How much each portion takes.
std::vector<Grams> portion_masses(const std::vector<Layer>& layers, const MixingZone& zone, Grams least) {
    const Grams all = total_of(layers);
    if (!zone.mass)
        return {all};
    std::vector<Grams> masses;
    if (*zone.mass == Grams{0}) {
        for (const auto& layer : layers)
            masses.push_back(layer.mass);
    } else {
        const Grams step = std::max({least, Grams{all.count() / most_steps}, Grams{1}});
        for (Grams left = all; left > Grams{0}; left = left - masses.back())
            masses.push_back(std::min(left, step));
    }
    std::vector<Grams> joined;
    Grams open;
    for (const Grams mass : masses) {
        open += mass;
        if (open < least)
            continue;
        joined.push_back(open);
        open = {};
    }
    if (open > Grams{0} && !joined.empty())
        joined.back() += open;
    else if (open > Grams{0})
        joined.push_back(open);
    return joined;
}

/// By which lots the book names so much: by those that come, as far as it has as much of them there.
std::vector<Layer> named_as(std::vector<Layer>& under_names, const std::vector<Layer>& holds, Grams mass) {
    constexpr double hardly = 1e-9; // of others: only where the ones that come have no more
    std::vector<double> weights;
    std::vector<Grams> most;
    for (const auto& name : under_names) {
        const auto held = std::ranges::find(holds, name.lot, &Layer::lot);
        weights.push_back(held == holds.end() ? hardly : static_cast<double>(held->mass.count()));
        most.push_back(name.mass);
    }
    const auto masses = shared_out(mass, weights, most);
    std::vector<Layer> named;
    for (std::size_t i = 0; i < masses.size(); ++i) {
        under_names[i].mass = under_names[i].mass - masses[i];
        if (masses[i] > Grams{0})
            named.push_back({under_names[i].lot, masses[i]});
    }
    std::erase_if(under_names, [](const Layer& name) { return name.mass <= Grams{0}; });
    return named;
}

} // namespace

std::map<PlaceId, std::vector<Layer>> silo_layers(const Book& book) {
    std::map<PlaceId, MixingZone> zones;
    for (const auto& [silo, facts] : book.silos)
        zones.emplace(silo, facts.zone);
    std::map<PlaceId, std::vector<Layer>> layers;
    if (zones.empty())
        return layers;
    FlourCourse course(zones);
    for (const auto& movement : book.movements)
        course.enter(movement);
    for (const auto& [silo, zone] : zones)
        if (auto lying = course.layers(silo); !lying.empty())
            layers.emplace(silo, std::move(lying));
    return layers;
}

std::vector<SiloPortion> portions_of(const Book& book, PlaceId silo, std::vector<Layer> layers, Grams least) {
    const auto& zone = book.silos.at(silo).zone;
    std::vector<Layer> under_names;
    for (const auto& lot : book.lots)
        if (const Grams mass = book.stock.at(lot.id, silo); mass > Grams{0})
            under_names.push_back({lot.id, mass});
    std::vector<SiloPortion> portions;
    if (total_of(under_names) != total_of(layers))
        layers = book.stock.layers(silo); // of a lot that is put away: then the names are all there is
    std::vector<Layer> below;
    for (const Grams mass : portion_masses(layers, zone, least)) {
        SiloPortion portion{silo, mass, {}, {}, below};
        const auto parts = drawn(layers, zone, mass);
        for (const auto& part : *parts)
            portion.holds.push_back({part.lot, part.mass});
        take_out(layers, *parts);
        portion.named = named_as(under_names, portion.holds, mass);
        below.insert(below.end(), portion.holds.begin(), portion.holds.end());
        portions.push_back(std::move(portion));
    }
    return portions;
}

std::vector<SiloStop> silo_stops(const Book& book, RunId run, std::span<const BatchFlour> flour, Day day) {
    std::vector<SiloStop> stops;
    if (book.silos.empty())
        return stops;
    auto silos = silo_layers(book);
    for (const auto& part : flour)
        for (const auto& from : draw_places(book, run, part.lot, part.mass)) {
            const auto silo = silos.find(from.place);
            if (silo == silos.end())
                continue;
            const auto parts = drawn(silo->second, book.silos.at(from.place).zone, from.mass);
            if (!parts)
                continue;
            take_out(silo->second, *parts);
            for (const auto& one : *parts) {
                const auto why = one.lot == part.lot ? std::string() : blocked(book, one.lot, day);
                const Lot* lot = book.lot(one.lot);
                if (!why.empty())
                    stops.push_back(
                        {part.lot, fmt::format("{} {} {} with it, and {}", book.name(from.place),
                                               one.certainty == Certainty::contains ? "gives" : "may give",
                                               lot ? lot->code : "?", why)});
            }
        }
    return stops;
}

} // namespace mellowbin::app
