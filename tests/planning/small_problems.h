#pragma once

#include "planning/problem.h"

#include <algorithm>
#include <cstdint>
#include <random>
#include <string>

namespace mellowbin::planning {

/// A flour that suits white_bread() in everything, fresh until long after any run here.
inline Lot good_flour(const std::string& id, double stock_t) {
    return {id, stock_t, 60, 40, 400, 0, {12.0, 0.55}};
}

inline Product white_bread() {
    return {"white bread",
            {Window{11.5, 12.5, 0.5}, Window{std::nullopt, 0.65, 0.1}},
            60,
            2,
            false,
            0.2,
            OxidantPolicy::allowed,
            100};
}

/// One product, two properties (protein with both limits, ash with a high only); lots and runs are added by
/// the test. Every lot is fully mature unless the test says otherwise.
struct ProblemMaker {
    Problem p;

    ProblemMaker() {
        p.name = "made by a test";
        p.horizon_days = 7;
        p.properties = {{"protein", "%", 1}, {"ash", "%", 2}};
        p.products = {white_bread()};
    }
    ProblemMaker& lot(Lot lot) {
        p.lots.push_back(std::move(lot));
        return *this;
    }
    /// On line 0, after the run added before it.
    ProblemMaker& run(const std::string& id, double day, double demand_t) {
        p.runs.push_back({id, day, 0, 0, p.run_count() - 1, demand_t, 0, 0, 1, RunState::open});
        return *this;
    }
    /// With the table filled: every lot usable, 80 points mature.
    Problem& make() {
        p.size_table();
        for (LotForRun& cell : p.table)
            cell.maturity_points = 80;
        return p;
    }
};

/// Problems with every rule at work: scarce stock, narrow windows, young lots, a cap that some lots are over,
/// bans, two lines. Not every platform's distributions agree, so these are made from the bits.
class RandomProblems {
public:
    explicit RandomProblems(std::uint64_t seed) : random_(seed) {}

    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(random_() >> 11) * 0x1.0p-53;
    }
    int whole(int below) { return static_cast<int>(random_() % static_cast<std::uint64_t>(below)); }

    Problem make(int lots, int runs, int max_lots, double plenty) {
        Problem p;
        p.name = "random";
        p.horizon_days = 6;
        p.properties = {{"protein", "%", 1}, {"absorption", "%", 1}, {"ash", "%", 2}};
        for (int i = 0; i < 3; ++i)
            p.products.push_back({"product " + std::to_string(i),
                                  {Window{11.4 + 0.4 * i, 12.4 + 0.4 * i, 0.5}, Window{57, 60, 1.5},
                                   Window{std::nullopt, 0.62, 0.1}},
                                  40.0 + 15 * i,
                                  max_lots,
                                  false,
                                  0.15 + 0.05 * i,
                                  i == 1 ? OxidantPolicy::forbidden : OxidantPolicy::allowed,
                                  i == 2 ? 25.0 : 60.0});
        const int runs_a_day = std::max(2, runs / 8);
        double demand = 0;
        for (int r = 0; r < runs; ++r) {
            p.runs.push_back({"R" + std::to_string(r + 1), static_cast<double>(r / runs_a_day), 0, r % 2,
                              r >= 2 ? r - 2 : -1, between(3, 9), whole(3), 0, 1, RunState::open});
            demand += p.runs.back().demand_t;
        }
        for (int l = 0; l < lots; ++l)
            p.lots.push_back({"L" + std::to_string(l + 1),
                              plenty * demand / lots * between(0.5, 1.5),
                              between(2, 30),
                              between(1, 20),
                              between(350, 450),
                              20.0 * whole(3),
                              {between(10.8, 13.6), between(56, 61), between(0.5, 0.7)}});
        p.size_table();
        for (int r = 0; r < runs; ++r)
            for (int l = 0; l < lots; ++l) {
                p.at(l, r).maturity_points = between(30, 90);
                if (whole(8) == 0)
                    p.ban(l, r, Ban::not_released);
                if (p.runs[r].day > p.lots[l].use_by_day)
                    p.ban(l, r, Ban::past_use_by);
            }
        return p;
    }

    /// As make(), and with a product that takes one lot a batch, urgent runs, a frozen run, locks (of less
    /// than a least share now and then), a window open to one side and a run that nothing stands before.
    /// Passes check().
    Problem make_with_every_rule(int lots, int runs, double plenty) {
        for (;;) {
            Problem p = make(lots, runs, 2 + whole(2), plenty);
            Product& whole_batches = p.products[whole(3)];
            whole_batches.one_lot_a_batch = true;
            p.products[0].windows[1].low.reset();
            for (Run& run : p.runs) {
                run.batch_t = between(1.2, 2.5);
                run.urgency = whole(3) == 0 ? between(0.2, 3) : 1;
            }
            if (whole(3) == 0) {
                p.runs[0].state = RunState::frozen;
                const int kept = whole(lots);
                p.locks.push_back({0, kept, 0.5 * p.lots[kept].stock_t});
            }
            const int r = 1 + whole(runs - 1);
            const int l = whole(lots);
            if (whole(2) == 0) // whole batches where they are asked for
                p.locks.push_back({r, l,
                                   p.product_of(r).one_lot_a_batch
                                       ? p.runs[r].batch_t
                                       : between(0.05, 0.6) * p.runs[r].demand_t});
            if (check(p).empty())
                return p;
        }
    }

private:
    std::mt19937_64 random_;
};

} // namespace mellowbin::planning
