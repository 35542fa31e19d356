#pragma once

#include "aging/uncertain_clock.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin::aging {

/// One standard deviation between what is assumed of a place and what the flour had; an assumption itself.
CelsiusStep published_assumed_doubt();

/// What the estimate is made from.
struct StoredFlour {
    FlourClass flour_class{};
    std::optional<Day> milled_on;     ///< not known: 0 to 30 days before the delivery, each as likely
    Day delivered_on;                 ///< not before milled_on
    StoragePath path;                 ///< not empty; see follow_lot()
    std::optional<Moisture> moisture; ///< not known: taken as dry enough not to shorten the life
    CelsiusStep assumed_doubt = published_assumed_doubt(); ///< of every temperature that no logger measured
};

/// What a reader of an estimate must know.
enum class Reservation {
    milling_date_unknown,
    place_before_delivery_assumed,
    storage_not_measured,
    storage_partly_measured,
    temperature_outside_studies,
    cold_assumed,
    too_warm,
    temperature_clamped,
    air_factor_assumed,
    moisture_unknown,
    damp,
    wholemeal_gets_worse,
    high_extraction_assumed,
    temperature_factor_stands_in,
    strength_gain_not_promised,
    model_of_first_weeks,
    usual_time,
};
/// One sentence, no stop at its end.
std::string in_words(Reservation reservation);

/// How far a lot has matured and aged on any day, with the spread. Cheap to make (tens of microseconds),
/// immutable. Days before the milling read as maturity 0; the path's last stays go on for ever.
class Estimate {
public:
    explicit Estimate(const StoredFlour& flour) : Estimate(flour, published_priors(flour.flour_class)) {}
    /// Results sharpen the rate of maturing; age knows none.
    Estimate(const StoredFlour& flour, const Priors& priors, const Evidence& evidence = {});

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
    [[nodiscard]] std::optional<Day> first_day_of_age(double at_least, double probability) const;

    /// ln of the rate of maturing, 1/d at 20 C; of the flour in its own air where it lay in one kind of air.
    [[nodiscard]] MeanAndSpread log_rate() const { return maturing_.log_rate(); }
    /// What is believed of a property measured on the lot, on given days (from 1970); see property_belief().
    [[nodiscard]] PropertyBelief property(const Series& series, std::span<const double> days) const {
        return maturing_.property(series, days);
    }
    /// The same of a sample's own flour; see expected_level().
    [[nodiscard]] MeanAndSpread expected(const Series& series, const Observation& sample) const {
        return maturing_.expected(series, sample);
    }
    [[nodiscard]] RunSlope run_slope(const Observation& observation) const {
        return maturing_.run_slope(observation);
    }
    /// Share of the time from the milling (or the delivery, where that is unknown) to the day that a logger
    /// measured; 0 before that.
    [[nodiscard]] double measured_share(Day day) const;
    /// What a reader must know of the estimate as it stands on a day.
    [[nodiscard]] std::vector<Reservation> reservations(Day day) const;
    /// Days at 20 C that the flour's age is worth on a day, with every doubt in its middle.
    [[nodiscard]] double life_days(Day day) const;
    /// First day on which it is worth so many; none within the studied time.
    [[nodiscard]] std::optional<Day> first_day_of_life(double days_at_20) const;
    /// Beyond this day nothing is said.
    [[nodiscard]] Day last_day_studied() const;
    [[nodiscard]] const StoredFlour& flour() const { return flour_; }

private:
    StoredFlour flour_;
    Day zero_; ///< of both clocks
    UncertainClock maturing_;
    UncertainClock aging_;
};

/// What a property that goes its own way was at the milling, by its published change and the middle of its
/// own rate; from one value, above 0, on a day.
double value_when_fresh(const Estimate& estimate, Property property, double value, Day taken_on);

} // namespace mellowbin::aging
