#pragma once

#include "aging/storage_path.h"

#include <vector>

namespace mellowbin::aging {

/// All that a clock's course depends on beside its rate.
struct ClockPath {
    Clock clock{};
    StoragePath path;                     ///< from the delivery on; not empty
    double zero = 0;                      ///< days: the milling; the delivery where the milling is not known
    Celsius before_delivery{20};          ///< from zero to the delivery, in the air of the first place
    std::array<Lognormal, air_kinds> air; ///< factor on the rate, by Air
    TemperatureFactor factor;             ///< the one the climates' sums were made with
    double assumed_doubt = 0;             ///< K: of temperatures that were assumed
    double most_head_start = 0; ///< days before zero, uniform from 0 to this; 0: the milling is known
};

/// ln of a run in the middle of every doubt, and its slopes.
struct RunSlope {
    static constexpr std::size_t doubts = 4; ///< the air's factor, assumed temperatures, the days before the
                                             ///< delivery, the steepness in the cold
    double log_run = 0;
    double by_log_q10 = 0;
    std::array<double, doubts> by_doubt{}; ///< per standard deviation of each
};

/// The ways in which what is doubtful about a course may have been: the Q10, the steepness in the cold (of
/// flour that lay there), the air's factor, assumed temperatures, the unknown days before the delivery. Each
/// is a scenario with its weight; within a scenario the clock reads exp(u) x run, ln rate u being normal with
/// the scenario's own spread. What doubles as doubt about the rate (one kind of air all along, no measured
/// temperature at all) is part of that spread, exactly, and costs no scenarios.
class Scenarios {
public:
    Scenarios(const ClockPath& path, double rate_spread);

    struct Scenario {
        double weight;
        double spread; ///< of u
        double shared; ///< the part of it that is doubt about the course, not about the rate
    };
    [[nodiscard]] const std::vector<Scenario>& all() const { return scenarios_; }
    [[nodiscard]] std::size_t count() const { return scenarios_.size(); }

    /// ln of the run in each scenario, days at 20 C, at a moment (days); -infinity before the flour was.
    void log_runs(double days, std::vector<double>& logs) const;
    /// The same for flour of the lot that went another way since the delivery.
    void log_runs(const StoragePath& path, double days, std::vector<double>& logs) const;
    /// ln of the run with every doubt in its middle, and what each would change.
    [[nodiscard]] RunSlope run_slope(const StoragePath* path, double days) const;

private:
    struct Draw {
        std::size_t node, cold_node;
        double temperature;                ///< factor on what ran at an assumed temperature
        double cold_temperature;           ///< the same in the cold
        double head;                       ///< days before zero
        std::array<double, air_kinds> air; ///< factor, by Air
    };
    /// A stay, with its course's run at its start and over all of it.
    struct Kept {
        Stay stay;
        ClockRun at_start;
        ClockRun whole;
    };
    using AirRuns = std::array<ClockRun, air_kinds>; ///< by Air

    [[nodiscard]] std::vector<Kept> keep(const StoragePath& path) const;
    [[nodiscard]] AirRuns runs(const std::vector<Kept>& stays, double days) const;
    void combine(const AirRuns& runs, double days, std::vector<double>& logs) const;
    void draw(const ClockPath& path, double rate_spread);
    /// How fast the clock ran before the delivery, at nodes of its factors.
    [[nodiscard]] double head_speed(std::size_t node, std::size_t cold_node) const;
    /// The speed at the join, at a node of the Q10.
    [[nodiscard]] double join_speed(std::size_t node) const;

    Clock clock_;
    double zero_;
    double delivered_;
    double most_head_start_;
    double assumed_doubt_;
    std::array<double, air_kinds> air_medians_{}, log_air_gsd_{};
    bool has_cold_ = false; ///< the clock has a steepness of its own there
    Celsius before_delivery_;
    Air head_air_{};
    Q10Nodes nodes_;
    double log_cold_gsd_ = 0;
    Q10Nodes cold_nodes_;
    std::vector<Kept> stays_;
    std::vector<Scenario> scenarios_;
    std::vector<Draw> draws_;
};

} // namespace mellowbin::aging
