#pragma once

#include "core/result.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::planning {

/// One figure of a flour that blends by mass on one basis: protein at 14 %, absorption at 14 %, liquefaction
/// number, ash. The unit and the decimals are for the words of a reason only.
struct Property {
    std::string name;
    std::string unit;
    int decimals = 1;
};

/// The limits of one property of a product's blend; either side may be open. `scale` is what one step outside
/// is counted in: half the width where both sides are given, else what the caller thinks such a step is.
/// Above zero.
struct Window {
    std::optional<double> low;
    std::optional<double> high;
    double scale = 1;

    friend bool operator==(const Window&, const Window&) = default;
};

enum class OxidantPolicy { allowed, forbidden };

/// A product as sold in one market: what the flour of its runs must be.
struct Product {
    std::string name;
    std::vector<Window> windows; ///< one for each Problem::properties, in that order
    double maturity_target_points = 0;
    int max_lots = 2;
    bool one_lot_a_batch = false; ///< each lot in whole batches (Run::batch_t), inside the windows by itself
    double min_share = 0;         ///< of the run's flour, 0..1; a locked lot is exempt
    OxidantPolicy oxidant = OxidantPolicy::forbidden; ///< whether the bakery may add any
    double oxidant_cap_ppm = 0;                       ///< mill and bakery together, mg per kg flour

    friend bool operator==(const Product&, const Product&) = default;
};

/// Flour that can be planned with. Days count from the start of the horizon and may be negative.
struct Lot {
    std::string id;
    double stock_t = 0; ///< free for the runs of this problem, frozen runs and locks included
    double use_by_day = 0;
    double best_before_day = 0;
    double cost_per_t = 0;
    double mill_oxidant_ppm = 0;
    std::vector<double> values; ///< one for each Problem::properties; NaN only where no run may use the lot

    friend bool operator==(const Lot&, const Lot&) = default;
};

/// A frozen run keeps exactly its locked assignments; nothing is added, and its rules are not judged again.
enum class RunState { open, frozen };

struct Run {
    std::string id;
    double day = 0;
    int shift = 0; ///< order within a day
    int line = 0;
    int prev_on_line =
        -1; ///< index of the run before on the same line; -1: none, so no lot change is counted
    double demand_t = 0;
    int product = 0;    ///< index
    double batch_t = 0; ///< flour of one batch; above zero where the product takes one lot a batch
    double urgency = 1; ///< what a tonne short counts here against Weights::short_per_t; above zero
    RunState state = RunState::open;
};

/// A fixed assignment: the plan keeps exactly these tonnes of this lot for this run.
struct Lock {
    int run = 0;
    int lot = 0;
    double tonnes = 0;
};

/// Why a lot may not go into a run; `none` means that it may.
enum class Ban : std::uint8_t {
    none,
    not_arrived,
    not_released, ///< in quarantine, or released only later
    not_ready,    ///< not mature enough on the day of the run
    past_use_by,
    held,
    rejected,
    used_up,
    wrong_flour,
    market_forbids_oxidant, ///< the mill's own oxidant is not permitted where the product is sold
    not_measured,           ///< a property that the product has a window for is not known
    other
};

/// A lot seen from one run. `note` indexes Problem::notes.
struct LotForRun {
    Ban ban = Ban::none;
    double maturity_points = 0; ///< on the day of the run, the mill's oxidant included
    std::int32_t note = 0;
};

/// What each kind of trouble weighs, in currency, so that plans can be compared. All at least zero.
struct Weights {
    double short_per_t = 5000;
    double window_per_t_half_width = 400;
    double maturity_per_t_10_points = 300;
    double past_best_per_t = 100;
    double waste_per_t = 250; ///< of flour that expires inside the horizon
    double oxidant_per_t_100_ppm = 60;
    double lot_change = 25; ///< a lot that the run before on the line did not have
    double age_quadratic =
        0.0005; ///< per t and day² left until use-by; the square is what makes first expire first
    double cost_scale = 0.03; ///< share of a lot's price above the cheapest usable one

    friend bool operator==(const Weights&, const Weights&) = default;
};

/// Everything a plan depends on, in plain numbers: tonnes, days from the start of the horizon, points of
/// maturity.
struct Problem {
    std::string name;
    double horizon_days = 0; ///< a lot whose use-by day is before this is wasted as far as it is left
    double oxidant_points_per_ppm = 0.5;
    Weights weights;
    std::vector<Property> properties;
    std::vector<Product> products;
    std::vector<Lot> lots;
    std::vector<Run> runs;
    std::vector<Lock> locks;
    /// Lots that lie one on another, the lowest first, as a silo gives them: a run draws of one only when all
    /// of those below it is drawn, by runs before it in date order or by itself. No lot stands in two of
    /// them.
    std::vector<std::vector<int>> chains;
    std::vector<LotForRun> table; ///< runs x lots, see at(); made by size_table()
    std::vector<std::string> notes = {""};

    /// Makes the table, every lot usable in every run. After lots and runs are filled, before at() or ban().
    void size_table() { table.assign(runs.size() * lots.size(), LotForRun{}); }
    [[nodiscard]] const LotForRun& at(int lot, int run) const { return table[cell(lot, run)]; }
    [[nodiscard]] LotForRun& at(int lot, int run) { return table[cell(lot, run)]; }
    [[nodiscard]] bool usable(int lot, int run) const { return at(lot, run).ban == Ban::none; }
    [[nodiscard]] const Product& product_of(int run) const { return products[runs[run].product]; }
    [[nodiscard]] int lot_count() const { return static_cast<int>(lots.size()); }
    [[nodiscard]] int run_count() const { return static_cast<int>(runs.size()); }

    /// Forbids a lot for a run. `words` end the sentence "L3 cannot: ..."; empty takes the words of the ban.
    void ban(int lot, int run, Ban why, const std::string& words = {});

private:
    [[nodiscard]] std::size_t cell(int lot, int run) const {
        return static_cast<std::size_t>(run) * lots.size() + static_cast<std::size_t>(lot);
    }
};

/// What may be left of a lot that counts as drawn: what tonnes lose when they are cut to whole grams.
inline constexpr double slight_rest_t = 2e-5;

/// The most properties a problem may have.
inline constexpr int most_properties = 16;

/// Runs in the order they are milled into dough: by day, then shift, line and place in the list.
std::vector<int> in_date_order(const Problem& problem);

/// Every reason why the problem cannot be planned as it stands: sizes that do not fit, a window with low
/// above high, negative stock or demand, a loop in prev_on_line, a lock on a lot that may not be used, locks
/// beyond stock or need. Empty when all is well. No lots or no runs is well.
Refusals check(const Problem& problem);

} // namespace mellowbin::planning
