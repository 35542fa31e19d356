#pragma once

#include "aging/storage_path.h"
#include "aging/uncertain_clock.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin::aging {

/// What the estimate is made from.
struct StoredFlour {
    FlourClass flour_class{};
    std::optional<Day> milled_on;     ///< not known: 0 to 30 days before the delivery, each as likely
    Day delivered_on;                 ///< not before milled_on
    StoragePath path;                 ///< not empty; see storage_path()
    std::optional<Moisture> moisture; ///< not known: taken as dry enough not to shorten the life
};

/// What a reader of an estimate must know.
enum class Reservation {
    milling_date_unknown,
    place_before_delivery_assumed,
    temperature_outside_studies,
    temperature_clamped,
    air_factor_assumed,
    moisture_unknown,
    damp,
    wholemeal_gets_worse,
    high_extraction_assumed,
    temperature_factor_stands_in,
    strength_gain_not_promised,
};
/// One sentence, no stop at its end.
std::string in_words(Reservation reservation);

/// How far a lot has matured and aged on any day, with the spread. Cheap to make (microseconds), immutable.
/// Days before the milling read as maturity 0; the path's last piece goes on for ever.
class Estimate {
public:
    explicit Estimate(const StoredFlour& flour) : Estimate(flour, published_priors(flour.flour_class)) {}
    Estimate(const StoredFlour& flour, const Priors& priors);

    /// That the lot is at least so mature (above 0, below 1) on the day.
    [[nodiscard]] double probability_of(Maturity at_least, Day day) const;
    /// The maturity that the lot is at or below with this probability; 0.5: the likely one.
    [[nodiscard]] Maturity maturity_at(double probability, Day day) const;
    [[nodiscard]] Maturity mean_maturity(Day day) const;
    /// First day on which the lot is at least so mature with at least this probability; none within two years
    /// of its milling, or of its delivery where that is unknown.
    [[nodiscard]] std::optional<Day> first_day_of(Maturity at_least, double probability) const;

    /// The same for the age clock (1: past its best).
    [[nodiscard]] double probability_of_age(double at_least, Day day) const;
    [[nodiscard]] double age_at(double probability, Day day) const;
    [[nodiscard]] std::optional<Day> first_day_of_age(double at_least, double probability) const;

    [[nodiscard]] std::vector<Reservation> reservations() const;

private:
    [[nodiscard]] double days_to(Day day) const;

    Day zero_;              ///< of both clocks
    unsigned reservations_; ///< one bit each
    UncertainClock maturing_;
    UncertainClock aging_;
};

} // namespace mellowbin::aging
