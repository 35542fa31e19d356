#include "app/models/trace_course.h"

#include "db/movement_store.h"
#include "db/silo_store.h"

#include <algorithm>

namespace mellowbin::app {
namespace {

/// Lots that lay in one silo without its being empty between.
std::vector<std::set<LotId>> together(std::vector<SiloSpan> spans) {
    std::ranges::sort(spans, {}, &SiloSpan::first);
    std::vector<std::set<LotId>> groups;
    std::int64_t last = 0;
    for (const auto& span : spans) {
        if (groups.empty() || span.first > last)
            groups.emplace_back();
        groups.back().insert(span.lot);
        last = std::max(last, span.last);
    }
    return groups;
}

/// The traced lots that were in silos, and all that met them there, directly or by others.
std::set<LotId> lots_that_met(Connection& connection, const std::vector<LotId>& traced,
                              const std::map<PlaceId, MixingZone>& silos) {
    const TraceStore store(connection);
    std::set<LotId> lots;
    for (const auto lot : traced)
        if (store.was_in_a_silo(lot))
            lots.insert(lot);
    if (lots.empty())
        return lots;
    std::vector<std::set<LotId>> groups;
    for (const auto& [silo, zone] : silos)
        for (auto& group : together(store.spans_of(silo)))
            groups.push_back(std::move(group));
    bool grew = true;
    while (grew) {
        grew = false;
        for (auto& group : groups) {
            if (std::ranges::none_of(group, [&](LotId lot) { return lots.contains(lot); }))
                continue;
            lots.merge(group);
            group.clear();
            grew = true;
        }
    }
    return lots;
}

} // namespace

TraceCourse::TraceCourse(Connection& connection, const std::vector<LotId>& traced) : course_({}) {
    const auto silos = SiloStore(connection).zones();
    lots_ = lots_that_met(connection, traced, silos);
    course_ = FlourCourse(silos);
    std::vector<Movement> movements;
    for (const auto lot : lots_)
        for (auto& movement : MovementStore(connection).of(lot))
            movements.push_back(std::move(movement));
    std::ranges::sort(movements, {}, &Movement::id);
    for (const auto& movement : movements) {
        course_.enter(movement);
        stock_.enter(movement);
    }
}

std::vector<DrawnPart> TraceCourse::lying(LotId named) const {
    std::vector<DrawnPart> parts;
    for (const auto& [place, mass] : stock_.places_of(named)) {
        for (const auto& part : course_.lying(named, place)) {
            const auto known = std::ranges::find(parts, part.lot, &DrawnPart::lot);
            if (known == parts.end())
                parts.push_back(part);
            else
                known->mass += part.mass;
        }
    }
    return parts;
}

} // namespace mellowbin::app
