#pragma once

#include "planning/plan_lp.h"
#include "solver/clp_solver.h"

#include <algorithm>
#include <bitset>
#include <cmath>
#include <vector>

namespace mellowbin::planning {

/// Every choice of lots for every run, each with its best tonnes by a linear programme; whole batches by
/// every number of them. A branch is left when even with all the stock for each of its runs it cannot be
/// better.
class Enumeration {
public:
    explicit Enumeration(const Problem& p) : p_(p), tables_(make_tables(p)) {}

    /// The least objective of all plans that keep the rules; `known`, the objective of one of them, if that
    /// is as good.
    double best(double known = 1e100) {
        best_ = known;
        plan_ = {};
        judged_ = 0;
        base_ = tonnes_cost({});
        options_.clear();
        for (int r = 0; r < p_.run_count(); ++r)
            list_options(r);
        std::vector<double> rest(options_.size() + 1, 0.0);
        for (std::size_t r = options_.size(); r > 0; --r)
            rest[r - 1] = rest[r] + options_[r - 1].front().gain;
        choose(0, base_, rest);
        return best_;
    }
    /// The plan best() found; empty where the known one is as good.
    [[nodiscard]] const Plan& plan() const { return plan_; }
    /// Programmes solved at the ends of branches by the last best().
    [[nodiscard]] int judged() const { return judged_; }

private:
    /// Free lots of a run, and what the plan costs more than with the run left short, alone with all stock.
    struct Option {
        std::vector<Assignment> lots;
        double gain = 0;
    };

    static constexpr double impossible = 1e50;

    double tonnes_cost(const std::vector<Assignment>& support) {
        const TonnesProgram program = polish_program(p_, tables_, {support});
        const LinearResult result = clp_.solve(program.program, {});
        return result.status == LinearStatus::optimal ? result.objective + program.constant : impossible;
    }

    void list_options(int run) {
        options_.emplace_back();
        add_option({});
        const RunTable& table = tables_.runs[run];
        if (table.fill_t > 0 && table.batch_share > 0) {
            std::vector<Assignment> batches;
            count_batches(table, 0, batches);
        } else if (table.fill_t > 0) {
            for (unsigned set = 1; set < (1U << table.count()); ++set) {
                std::vector<Assignment> lots;
                for (int c = 0; c < table.count(); ++c)
                    if (set >> c & 1U)
                        lots.push_back({run, table.lot[c], 1.0});
                if (static_cast<int>(lots.size()) <= table.max_free_lots)
                    add_option(std::move(lots));
            }
        }
        std::sort(options_.back().begin(), options_.back().end(),
                  [](const Option& a, const Option& b) { return a.gain < b.gain; });
    }

    void count_batches(const RunTable& table, int c, std::vector<Assignment>& batches) {
        if (c == table.count()) {
            double total = table.locked_t;
            for (const Assignment& a : batches)
                total += a.tonnes;
            const bool fits = total <= table.locked_t + table.fill_t + 1e-9 &&
                              static_cast<int>(batches.size()) <= table.max_free_lots;
            const bool shares = std::all_of(batches.begin(), batches.end(), [&](const Assignment& a) {
                return a.tonnes >= table.tonne_share * total - 1e-5;
            });
            if (!batches.empty() && fits && shares)
                add_option(batches);
            return;
        }
        count_batches(table, c + 1, batches);
        const double batch_t = p_.runs[table.run].batch_t;
        const double most = std::min(table.fill_t, tables_.free_t[table.lot[c]]);
        for (int n = 1; n * batch_t <= most + 1e-9; ++n) {
            batches.push_back({table.run, table.lot[c], n * batch_t});
            count_batches(table, c + 1, batches);
            batches.pop_back();
        }
    }

    void add_option(std::vector<Assignment> lots) {
        const double gain = tonnes_cost(lots) - base_;
        if (gain < impossible / 2)
            options_.back().push_back({std::move(lots), gain});
    }

    /// `cost`: no plan with what is chosen so far costs less, the runs to come left short.
    void choose(int run, double cost, const std::vector<double>& rest) {
        if (cost + rest[run] + least_changes(run) >= best_)
            return;
        if (run == p_.run_count()) {
            judge();
            return;
        }
        for (const Option& option : options_[run]) {
            const std::size_t before = support_.assignments.size();
            support_.assignments.insert(support_.assignments.end(), option.lots.begin(), option.lots.end());
            choose(run + 1, cost + option.gain, rest);
            support_.assignments.resize(before);
        }
    }

    /// Of the runs chosen so far whose run before is chosen too; locked lots left out.
    [[nodiscard]] double least_changes(int runs) const {
        std::vector<std::bitset<32>> has(p_.runs.size());
        for (const Lock& lock : p_.locks)
            has[lock.run].set(lock.lot);
        for (const Assignment& a : support_.assignments)
            has[a.run].set(a.lot);
        int changes = 0;
        for (const Assignment& a : support_.assignments) {
            const int prev = p_.runs[a.run].prev_on_line;
            if (a.run < runs && prev >= 0 && prev < runs && !has[prev][a.lot])
                ++changes;
        }
        return 0.999 * p_.weights.lot_change * changes; // a lot with a trace of a tonne may be none
    }

    void judge() {
        ++judged_;
        const TonnesProgram program = polish_program(p_, tables_, support_);
        const LinearResult result = clp_.solve(program.program, {});
        if (result.status != LinearStatus::optimal)
            return;
        const Evaluation e = evaluate(p_, program.plan_of(p_, result.x));
        if (!e.keeps_the_rules() || e.objective >= best_)
            return;
        best_ = e.objective;
        plan_ = program.plan_of(p_, result.x);
    }

    const Problem& p_;
    Tables tables_;
    solver::ClpSolver clp_;
    Plan support_;
    Plan plan_;
    std::vector<std::vector<Option>> options_; ///< per run, the best first
    double base_ = 0;                          ///< all runs left short, lot changes left out
    double best_ = 1e100;
    int judged_ = 0;
};

} // namespace mellowbin::planning
