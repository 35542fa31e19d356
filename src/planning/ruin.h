#pragma once

#include "planning/open_plan.h"

#include <cstdint>
#include <random>
#include <vector>

namespace mellowbin::planning {

/// Random numbers that repeat themselves on every machine.
class Dice {
public:
    explicit Dice(std::uint64_t seed) : random_(seed) {}
    /// 0 to count - 1; count above zero.
    [[nodiscard]] int pick(std::ptrdiff_t count) {
        return static_cast<int>(random_() % static_cast<std::uint64_t>(count));
    }
    /// From 0 up to but not 1.
    [[nodiscard]] double chance() { return static_cast<double>(random_() >> 11) * 0x1.0p-53; }

private:
    std::mt19937_64 random_;
};

/// Chooses the few runs that are emptied and filled again together, so that they can give each other what
/// they hold: neighbours on a line, holders of a lot, runs near in time. Also the order in which they are
/// filled.
class Ruins {
public:
    /// `open`: the runs that may be chosen, in date order; not empty.
    Ruins(const OpenPlan& open_plan, std::vector<int> open) : plan_(open_plan), open_(std::move(open)) {
        may_.assign(open_plan.problem().runs.size(), false);
        for (const int r : open_)
            may_[r] = true;
    }
    [[nodiscard]] const std::vector<int>& open() const { return open_; }
    /// One to four runs; valid until the next call.
    const std::vector<int>& choose(Dice& dice);

private:
    [[nodiscard]] int choose_place(Dice& dice) const;
    void add(int run);
    void add_holder(Dice& dice, int lot);
    void add_neighbours(Dice& dice, int run);
    void add_wanted(Dice& dice, int run);
    void add_sharers(Dice& dice, int run);
    void add_near(Dice& dice, int place);
    [[nodiscard]] bool add_carrying_on(Dice& dice, int run);
    [[nodiscard]] int lot_of(Dice& dice, int run) const;

    const OpenPlan& plan_;
    std::vector<int> open_;
    std::vector<bool> may_; ///< per run
    std::vector<int> chosen_;
};

} // namespace mellowbin::planning
