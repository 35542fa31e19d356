#include "planning/ruin.h"

#include <algorithm>

namespace mellowbin::planning {

namespace {

/// How often each way to choose is taken, found on generated problems of 20 x 30 to 150 x 300.
enum Way { neighbours, wanted, sharers, near_in_time, carrying_on, ways };
constexpr std::array<int, ways> weight{2, 3, 2, 1, 4};

} // namespace

/// Half the time any run, else the dearest of a few: that is where there is something to gain.
int Ruins::choose_place(Dice& dice) const {
    constexpr int drawn = 6;
    int place = dice.pick(std::ssize(open_));
    if (dice.pick(2) == 0)
        return place;
    for (int i = 0; i < drawn; ++i) {
        const int other = dice.pick(std::ssize(open_));
        if (plan_.blend(open_[other]).cost > plan_.blend(open_[place]).cost)
            place = other;
    }
    return place;
}

void Ruins::add(int run) {
    if (may_[run] && std::find(chosen_.begin(), chosen_.end(), run) == chosen_.end())
        chosen_.push_back(run);
}

void Ruins::add_holder(Dice& dice, int lot) {
    const std::vector<int>& holders = plan_.holders(lot);
    if (!holders.empty())
        add(holders[dice.pick(std::ssize(holders))]);
}

int Ruins::lot_of(Dice& dice, int run) const {
    const Blend& blend = plan_.blend(run);
    return plan_.tables().runs[run].lot[blend.parts[dice.pick(blend.count)].candidate];
}

void Ruins::add_neighbours(Dice& dice, int run) {
    const int prev = plan_.problem().runs[run].prev_on_line;
    const auto& next = plan_.tables().next[run];
    const bool back = dice.pick(2) == 0;
    if (prev >= 0 && (back || next.empty()))
        add(prev);
    if (!next.empty() && (!back || dice.pick(2) == 0))
        add(next.front());
}

/// Runs that hold a lot which this one could use.
void Ruins::add_wanted(Dice& dice, int run) {
    const RunTable& table = plan_.tables().runs[run];
    if (table.count() == 0)
        return;
    const int lot = table.lot[dice.pick(table.count())];
    add_holder(dice, lot);
    if (dice.pick(2) == 0)
        add_holder(dice, lot);
}

/// Runs that share lots with this one.
void Ruins::add_sharers(Dice& dice, int run) {
    if (plan_.blend(run).count == 0)
        return;
    add_holder(dice, lot_of(dice, run));
    if (dice.pick(2) == 0)
        add_holder(dice, lot_of(dice, run));
}

void Ruins::add_near(Dice& dice, int place) {
    constexpr int reach = 6;
    const int other =
        std::clamp(place - reach + dice.pick(2 * reach + 1), 0, static_cast<int>(open_.size()) - 1);
    add(open_[other]);
}

/// A lot of this run shall go on into a neighbour on the line, which is filled first: what it needs of the
/// lot comes from others that hold it. This run itself stays as it is.
bool Ruins::add_carrying_on(Dice& dice, int run) {
    if (plan_.blend(run).count == 0)
        return false;
    const int prev = plan_.problem().runs[run].prev_on_line;
    const auto& next = plan_.tables().next[run];
    const bool forward = !next.empty() && (prev < 0 || dice.pick(2) == 0);
    const int other = forward ? next.front() : prev;
    if (other < 0 || !may_[other])
        return false;
    add(other);
    const int lot = lot_of(dice, run);
    const std::vector<int>& holders = plan_.holders(lot);
    for (int more = 1 + dice.pick(2); more > 0; --more) {
        const int holder = holders[dice.pick(std::ssize(holders))];
        if (holder != run)
            add(holder);
    }
    return true;
}

const std::vector<int>& Ruins::choose(Dice& dice) {
    constexpr int all =
        weight[neighbours] + weight[wanted] + weight[sharers] + weight[near_in_time] + weight[carrying_on];
    chosen_.clear();
    const int place = choose_place(dice);
    const int run = open_[place];
    int way = 0;
    for (int drawn = dice.pick(all); drawn >= weight[way]; ++way)
        drawn -= weight[way];
    if (way == carrying_on && add_carrying_on(dice, run) && dice.pick(3) != 0)
        return chosen_;
    if (chosen_.empty())
        add(run);
    if (way == neighbours)
        add_neighbours(dice, run);
    if (way == wanted)
        add_wanted(dice, run);
    if (way == sharers)
        add_sharers(dice, run);
    if (way == near_in_time)
        add_near(dice, place);
    for (std::ptrdiff_t i = std::ssize(chosen_) - 1; i > 0; --i)
        std::swap(chosen_[i], chosen_[dice.pick(i + 1)]);
    return chosen_;
}

} // namespace mellowbin::planning
