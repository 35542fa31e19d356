#pragma once

#include "aging/advice.h"
#include "aging/learning.h"
#include "aging/outlook.h"
#include "aging/retest_worth.h"
#include "app/book/book.h"

#include <map>
#include <string>
#include <unordered_map>
#include <vector>

namespace mellowbin::app {

/// All that an estimate of a lot is made from, and what became of each of its results.
struct LotEvidence {
    aging::StoredFlour flour;
    aging::Priors priors;
    aging::SortedResults results;
    std::vector<std::pair<PlaceId, aging::StoragePath>> by_place; ///< of what lies in each place now
    std::optional<aging::KnownMoisture> moisture;                 ///< the newest that was measured
};

/// The aging estimate of every lot, kept as long as what it is made from stays the same.
class Estimates {
public:
    /// Makes the estimates that are missing or whose lot was moved or tested; all anew when the climate, the
    /// learning, the day or the confidence changed.
    void follow(const Book& book, Day today);

    [[nodiscard]] const aging::Estimate& of(LotId lot) const { return known(lot).estimate; }
    [[nodiscard]] const aging::Outlook& outlook_today(LotId lot) const { return known(lot).outlook; }
    /// What to do with the lot today. Condensation is looked for only where a lot is opened.
    [[nodiscard]] const aging::Advised& advice_today(LotId lot) const { return known(lot).advice; }
    [[nodiscard]] std::size_t results_counted(LotId lot) const { return known(lot).counted; }
    /// One of its results lies far from what the others predict. Of retests of the last two weeks.
    [[nodiscard]] bool asks_check(LotId lot) const { return known(lot).asks_check; }
    [[nodiscard]] double confidence() const { return confidence_; }
    [[nodiscard]] const aging::Learned& learned() const { return learned_; }

    /// With one more retest than the book holds, where one is given: to see what it would say.
    [[nodiscard]] LotEvidence evidence(const Book& book, const Lot& lot,
                                       const Retest* one_more = nullptr) const;
    [[nodiscard]] aging::ClimatePtr climate(PlaceId place) const { return climates_.at(place); }
    /// Moisture on a day by the drift in its places; none where the humidity on the way is not known.
    [[nodiscard]] std::optional<Moisture> moisture_on(LotId lot, Day day) const;
    /// How far off that may be, or, where there is none, the newest measured one: one standard deviation,
    /// points.
    [[nodiscard]] double moisture_doubt(LotId lot, Day day) const;
    /// The newest measured one.
    [[nodiscard]] std::optional<aging::KnownMoisture> measured_moisture(LotId lot) const {
        return known(lot).moisture;
    }

private:
    struct Known {
        std::size_t moves = 0;   ///< of the lot when it was made
        std::size_t retests = 0; ///< standing and withdrawn, each withdrawal counted
        aging::Estimate estimate;
        aging::Outlook outlook;
        aging::Advised advice;
        std::optional<aging::KnownMoisture> moisture;
        std::size_t counted = 0;
        bool asks_check = false;
    };
    [[nodiscard]] const Known& known(LotId lot) const { return known_.at(lot.number()); }
    [[nodiscard]] Known make(const Book& book, const Lot& lot) const;
    [[nodiscard]] aging::ClimatePtr climate_of(const Book& book, LotId lot, PlaceId place) const;
    bool follow_climates(const Book& book);
    bool follow_learning(const Book& book);

    std::unordered_map<std::int64_t, Known> known_;
    struct Course {
        Place place;
        ClimateDays days;
        Readings readings;
    };
    std::map<PlaceId, Course> made_from_;
    std::map<PlaceId, aging::ClimatePtr> climates_;
    LearningId learning_;
    std::vector<std::pair<Property, double>> own_errors_; ///< of the laboratory's tests
    aging::Learned learned_;
    double confidence_ = 0;
    Day today_{};
};

/// What the alarms of a lot's moisture say on a day.
std::vector<aging::StorageAlarm>
moisture_alarms_on(const aging::StoragePath& path, const std::optional<aging::KnownMoisture>& known, Day day);

} // namespace mellowbin::app
