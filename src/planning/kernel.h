#pragma once

#include "planning/blending.h"

#include <array>
#include <limits>
#include <vector>

namespace mellowbin::planning {

/// The free part of what one run gets.
struct Blend {
    struct Part {
        int candidate = -1; ///< index into the run's table
        double share = 0;   ///< of the fill
    };
    std::array<Part, most_blended> parts;
    int count = 0;
    double cost = 0; ///< the run's own: linear, hinges, shortage; no prices, no lot changes
};

/// The run's own cost of a blend, from its shares.
double cost_of(const RunTable& run, const Blend& blend);

/// What a lot costs beyond the run's own figures; all per lot of the problem.
struct Market {
    const double* free_t = nullptr; ///< stock that can still be taken
    const double* price = nullptr;  ///< currency per t for taking stock from others; may be null
    const double* charge =
        nullptr; ///< currency for taking the lot at all: its lot changes; may be below zero
};

/// Which blends are worth looking for.
struct Interest {
    double cost = std::numeric_limits<double>::infinity(); ///< only those that cost less, charges included
    double missing = 1; ///< only those that leave at most this share of the fill short
};

/// Finds the best blend of one run. Exact for one and two lots on the full mass: every pair is walked along
/// its share from break point to break point of the convex cost. Three and four lots grow from the best
/// pairs, each walked along every line on which its cost can turn. Keeps room for its work between calls: one
/// kernel a thread.
class Kernel {
public:
    /// Every lot keeps its least share and its stock, the mill's oxidant stays under the cap. The empty blend
    /// (all short) is always possible. Ties go to the candidate that stands first. Where nothing is of
    /// interest the blend is one that is not.
    Blend best(const RunTable& run, const Market& market, const Interest& interest = {});

private:
    /// How many blends of one lot fewer three and four lots grow from; a search that asks for better than it
    /// has asks often and looks less wide.
    [[nodiscard]] int seeds_kept() const { return most_missing_ < 1 ? 2 : 3; }

    Blend best_batches(const Market& market);

    void gather(const RunTable& run, const Market& market, const Interest& interest);
    void try_singles();
    void try_pairs();
    void try_pair(int i, int j);
    void try_rest(int i, int j);
    void settle_rests();
    void try_short();
    [[nodiscard]] double least_rest(const Support& support) const;
    [[nodiscard]] double most_of(const Candidate& a, const Candidate& b) const;
    [[nodiscard]] bool take_all_of(int i, int j, Support& support) const;
    void grow(int count);
    void weigh_hinges(const Support& seed);
    void level(const Support& seed, int k, std::array<double, most_blended>& cost);
    [[nodiscard]] bool settled(Support& support) const;
    [[nodiscard]] double least_cost(const Support& support) const;
    void keep(const Support& support);

    const RunTable* run_ = nullptr;
    std::vector<Candidate> candidates_; ///< can hold a least share of the full run
    std::vector<Candidate> small_;      ///< can only be part of a run that stays short
    std::vector<Support> seeds_;        ///< the best of the last count, for growing
    std::vector<Support> grown_;
    std::vector<Support> wanted_; ///< with a lower bound as their cost
    std::vector<Support> rests_;  ///< pairs that take all that is left of both
    Support best_;
    double most_missing_ = 1;
    std::uint64_t base_over_ = 0;
    std::array<double, most_hinges> weight_{}; ///< of the hinges, for a lower bound
    std::vector<double> priced_; ///< per candidate: what a full share of it costs with these weights
};

} // namespace mellowbin::planning
