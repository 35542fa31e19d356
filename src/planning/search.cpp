#include "planning/search.h"

#include "planning/improve.h"
#include "planning/plan_lp.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::planning {

namespace {

constexpr int most_rounds = 24;
/// At least, for each run that may change: the linear programme between two rounds takes its time.
constexpr std::int64_t steps_a_round = 30;
constexpr std::int64_t slice = 64; ///< steps between two looks at clock and stop
constexpr double lagging = 2;      ///< times the warmth behind the best chain

class Search {
public:
    Search(const Problem& problem, const Tables& tables, LinearSolver& solver, const SearchTask& task,
           Progress& progress, const std::stop_token& stop)
        : problem_(problem), tables_(tables), solver_(solver), task_(task), progress_(progress), stop_(stop),
          least_(least_costs(problem, tables)) {
        for (int i = 0; i < std::max(1, task.effort.threads); ++i) {
            chains_.push_back(
                std::make_unique<Improver>(problem, tables, least_, task.open,
                                           task.effort.seed * 1000003 + static_cast<std::uint64_t>(i)));
            if (task.habit)
                chains_.back()->keep_to(*task.habit);
            chains_.back()->start_from(task.start);
        }
        steps_.assign(chains_.size(), 0);
        is_timed_ = task.effort.seconds > 0 && solver.seconds().has_value();
        started_ = solver.seconds().value_or(0);
        if (!is_timed_)
            rounds_ = static_cast<int>(std::clamp<std::int64_t>(
                task.effort.improvement_steps /
                    (steps_a_round * std::max<std::int64_t>(1, std::ssize(task.open))),
                1, most_rounds));
        for (const RunTable& table : tables.runs)
            all_open_ = all_open_ && (table.fill_t <= 0 || std::find(task.open.begin(), task.open.end(),
                                                                     table.run) != task.open.end());
    }

    SearchResult run() {
        if (task_.open.empty())
            return {task_.start, 0};
        for (int round = 0; round < rounds_ && !stop_.stop_requested(); ++round) {
            solver_.side_by_side(static_cast<int>(chains_.size()),
                                 [this, round](int chain) { go(static_cast<std::size_t>(chain), round); });
            meet(warmth(static_cast<double>(round + 1) / rounds_));
        }
        SearchResult result;
        const auto best = std::min_element(chains_.begin(), chains_.end(), [](const auto& a, const auto& b) {
            return a->best() < b->best();
        });
        result.plan = (*best)->best_plan();
        for (const std::int64_t steps : steps_)
            result.steps += steps;
        return result;
    }

private:
    /// Falls evenly by factors.
    [[nodiscard]] double warmth(double done) const {
        return task_.warm * std::pow(task_.cold / task_.warm, std::min(done, 1.0));
    }

    /// How much of the whole is done: by the clock, or by the chain's own steps.
    [[nodiscard]] double done(std::size_t chain) const {
        const auto now = solver_.seconds();
        if (!is_timed_ || !now)
            return static_cast<double>(steps_[chain]) /
                   static_cast<double>(std::max<std::int64_t>(1, task_.effort.improvement_steps));
        return (*now - started_) / task_.effort.seconds;
    }

    void go(std::size_t chain, int round) {
        const double until = static_cast<double>(round + 1) / rounds_;
        for (double now = done(chain); now < until && !stop_.stop_requested(); now = done(chain)) {
            chains_[chain]->walk(slice, warmth(now));
            steps_[chain] += slice;
            tell(chain);
        }
        polish(*chains_[chain]);
    }

    void tell(std::size_t chain) {
        progress_.steps += slice;
        const double found = chains_[chain]->best();
        double best = progress_.best_objective;
        while (found < best && !progress_.best_objective.compare_exchange_weak(best, found)) {
        }
    }

    /// Takes the best tonnes for the lots that each run has now, and reads off them what a tonne of each is
    /// worth.
    void polish(Improver& chain) {
        if (stop_.stop_requested())
            return;
        const TonnesProgram tonnes =
            polish_program(problem_, tables_, chain.plan_now(), all_open_ ? nullptr : &task_.open);
        const LinearResult result = solver_.solve(tonnes.program, stop_);
        if (result.status != LinearStatus::optimal)
            return;
        std::vector<double> prices(problem_.lots.size(), 0.0);
        for (std::size_t l = 0; l < prices.size(); ++l)
            if (tonnes.stock_row[l] >= 0)
                prices[l] = std::max(0.0, -result.row_duals[tonnes.stock_row[l]]);
        chain.set_prices(std::move(prices));
        const Plan polished = tonnes.plan_of(problem_, result.x);
        const Evaluation evaluation = evaluate(problem_, polished);
        if (!task_.habit && evaluation.keeps_the_rules() && evaluation.objective < chain.cost_now() - 1e-6)
            chain.go_on_from(polished);
    }

    void meet(double warmth) {
        const auto best = std::min_element(chains_.begin(), chains_.end(), [](const auto& a, const auto& b) {
            return a->cost_now() < b->cost_now();
        });
        for (auto& chain : chains_)
            if (chain->cost_now() > (*best)->cost_now() + lagging * warmth)
                chain->join(**best);
    }

    const Problem& problem_;
    const Tables& tables_;
    LinearSolver& solver_;
    const SearchTask& task_;
    Progress& progress_;
    const std::stop_token& stop_;
    std::vector<double> least_;
    int rounds_ = most_rounds;
    bool all_open_ = true; ///< every run that has something to fill may change
    std::vector<std::unique_ptr<Improver>> chains_;
    std::vector<std::int64_t> steps_; ///< per chain
    bool is_timed_ = false;
    double started_ = 0; ///< by the machine's clock
};

} // namespace

SearchResult search(const Problem& problem, const Tables& tables, LinearSolver& solver,
                    const SearchTask& task, Progress& progress, const std::stop_token& stop) {
    return Search(problem, tables, solver, task, progress, stop).run();
}

} // namespace mellowbin::planning
