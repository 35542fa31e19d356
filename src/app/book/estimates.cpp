#include "app/book/estimates.h"

#include "aging/moisture_doubt.h"
#include "app/book/settings.h"
#include "exchange/lesson.h"

#include <algorithm>

namespace mellowbin::app {
namespace {

constexpr Days recent{14}; // a retest so old has been looked at

std::size_t mark_of(const std::vector<const Retest*>& retests) {
    std::size_t mark = 0;
    for (const Retest* retest : retests)
        mark += retest->is_withdrawn ? 2 : 1;
    return mark;
}

/// Null where the place has none.
template <class Shared> Shared found_in(const std::map<PlaceId, Shared>& by_place, PlaceId place) {
    const auto at = by_place.find(place);
    return at == by_place.end() ? nullptr : at->second;
}

/// The newest moisture on a certificate or of a retest that stands.
std::optional<aging::KnownMoisture> newest_moisture(const Lot& lot,
                                                    const std::vector<const Retest*>& retests) {
    std::optional<aging::KnownMoisture> newest;
    if (const auto moisture = lot.certificate.moisture())
        newest = {*moisture, aging::days_of(lot.delivered_on)};
    for (const Retest* retest : retests) {
        const auto moisture = retest->results.moisture();
        const double at = aging::days_of(retest->taken_on);
        if (moisture && !retest->is_withdrawn && (!newest || at >= newest->at))
            newest = {*moisture, at};
    }
    return newest;
}

bool is_recently_tested(const std::vector<const Retest*>& retests, Day today) {
    return std::any_of(retests.begin(), retests.end(), [&](const Retest* retest) {
        return !retest->is_withdrawn && retest->taken_on + recent >= today;
    });
}

} // namespace

std::vector<aging::StorageAlarm> moisture_alarms_on(const aging::StoragePath& path,
                                                    const std::optional<aging::KnownMoisture>& known,
                                                    Day day) {
    if (!known)
        return {};
    const double at = aging::days_of(day);
    const auto drifted = aging::moisture_on(path, *known, at);
    return aging::moisture_alarms(drifted.value_or(known->moisture), aging::flour_temperature_on(path, at),
                                  !drifted || at <= known->at);
}

LotEvidence Estimates::evidence(const Book& book, const Lot& lot, const Retest* one_more) const {
    const Flour* flour = book.flour(lot.flour);
    const auto flour_class = flour ? flour->flour_class : FlourClass::white;
    auto retests = book.retests_of(lot.id);
    if (one_more)
        retests.push_back(one_more);
    std::vector<aging::SampleWish> wishes;
    for (const Retest* retest : retests) // where it lay by the end of that day
        wishes.push_back({aging::days_of(retest->taken_on + Days{1}), retest->place});
    const auto movements = book.movements_of(lot.id);
    auto paths = aging::follow_lot(
        lot.delivered_on, lot.received_into, movements,
        [&](PlaceId place) { return climate_of(book, lot.id, place); }, wishes);
    const aging::FlourGroup group{lot.mill, lot.flour};
    LotEvidence made;
    made.moisture = newest_moisture(lot, retests);
    made.flour = {flour_class, lot.milled_on, lot.delivered_on, std::move(paths.whole),
                  made.moisture ? std::optional(made.moisture->moisture) : std::nullopt};
    made.priors = learned_.priors(flour_class, group, lot.id);
    auto priors = learned_.changes(lot.id);
    priors.own_errors = own_errors_;
    made.results = aging::sort_results(lot, retests, paths.samples, priors);
    made.by_place = std::move(paths.by_place);
    return made;
}

Estimates::Known Estimates::make(const Book& book, const Lot& lot) const {
    const auto made = evidence(book, lot);
    const auto retests = book.retests_of(lot.id);
    Known known{book.movement_count(lot.id),
                mark_of(retests),
                aging::Estimate(made.flour, made.priors, made.results.evidence),
                {},
                {},
                made.moisture};
    known.outlook = aging::outlook(known.estimate, today_, confidence_);
    known.advice =
        aging::advise(known.outlook, moisture_alarms_on(known.estimate.flour().path, known.moisture, today_));
    known.counted = static_cast<std::size_t>(std::count_if(
        made.results.standing.begin(), made.results.standing.end(), [](auto& s) { return s.counts; }));
    if (is_recently_tested(retests, today_)) {
        const auto found = aging::surprises(made.flour, made.priors, made.results.evidence);
        known.asks_check = std::any_of(found.begin(), found.end(), [](const aging::Surprise& surprise) {
            return std::abs(surprise.standard_errors) > aging::check_from();
        });
    }
    return known;
}

/// Of a lot that came before what is kept of the place: as it was while the lot lay there.
aging::ClimatePtr Estimates::climate_of(const Book& book, LotId lot, PlaceId place) const {
    const auto old = book.old_readings.find({lot, place});
    const Place* where = book.place(place);
    if (old == book.old_readings.end() || !where)
        return climates_.at(place);
    return std::make_shared<aging::ClimateCourse>(*where, *old->second);
}

bool Estimates::follow_climates(const Book& book) {
    bool changed = false;
    for (const auto& place : book.places) {
        const auto days = found_in(book.climate_days, place.id);
        const auto readings = found_in(book.readings, place.id);
        const auto before = made_from_.find(place.id);
        if (before != made_from_.end() && before->second.place == place && before->second.days == days &&
            before->second.readings == readings)
            continue;
        changed = true;
        made_from_.insert_or_assign(place.id, Course{place, days, readings});
        climates_[place.id] =
            std::make_shared<aging::ClimateCourse>(place, days ? *days : std::vector<aging::ClimateDay>{},
                                                   readings ? *readings : std::vector<ClimateReading>{});
    }
    return changed;
}

bool Estimates::follow_learning(const Book& book) {
    const LearningId holds = book.learning ? book.learning->id : LearningId{};
    if (holds == learning_)
        return false;
    std::vector<aging::Lesson> lessons;
    if (book.learning)
        for (const auto& site : book.learning->sites)
            lessons.push_back(exchange::lesson_from_json(site.document));
    learned_ = aging::Learned(std::move(lessons));
    learning_ = holds;
    return true;
}

void Estimates::follow(const Book& book, Day today) {
    const double confidence = Choices(book.settings).number("confidence");
    const bool other_climate = follow_climates(book);
    const bool other_learning = follow_learning(book);
    auto own_errors = own_test_errors(book.settings);
    const bool other_errors = own_errors != own_errors_;
    own_errors_ = std::move(own_errors);
    const bool all_anew =
        other_climate || other_learning || other_errors || confidence != confidence_ || today != today_;
    confidence_ = confidence;
    today_ = today;
    for (const auto& lot : book.lots) {
        if (book.is_aside(lot.id))
            continue;
        const auto at = known_.find(lot.id.number());
        if (!all_anew && at != known_.end() && at->second.moves == book.movement_count(lot.id) &&
            at->second.retests == mark_of(book.retests_of(lot.id)))
            continue;
        known_.insert_or_assign(lot.id.number(), make(book, lot));
    }
}

std::optional<Moisture> Estimates::moisture_on(LotId lot, Day day) const {
    const auto& one = known(lot);
    if (!one.moisture)
        return {};
    return aging::moisture_on(one.estimate.flour().path, *one.moisture, aging::days_of(day));
}

double Estimates::moisture_doubt(LotId lot, Day day) const {
    const auto& one = known(lot);
    return one.moisture ? aging::moisture_doubt(one.estimate.flour().path, *one.moisture, aging::days_of(day))
                        : 0;
}

} // namespace mellowbin::app
