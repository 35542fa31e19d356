#include "planning/trial.h"

#include "planning/make_plan.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::planning {

namespace {

/// The runs are so few that the search alone finds their best.
class NoSolver : public LinearSolver {
public:
    LinearResult solve(const LinearProgram& /*program*/, std::stop_token /*stop*/) override { return {}; }
};

/// One or two runs to be planned anew, the runs beside them on their lines as they are, and the lots that any
/// of them could have.
class Section {
public:
    Section(const Problem& problem, const std::vector<Use>& uses, const Evaluation& evaluation,
            std::vector<int> open)
        : p_(problem), uses_(uses), e_(evaluation), open_count_(open.size()), runs_(std::move(open)) {
        add_neighbours();
        part_.name = problem.name;
        part_.horizon_days = problem.horizon_days;
        part_.oxidant_points_per_ppm = problem.oxidant_points_per_ppm;
        part_.weights = problem.weights;
        part_.properties = problem.properties;
    }

    /// Lots that nothing forbids are there anyway.
    void build(int allowed = -1) {
        add_lots(allowed);
        for (std::size_t i = 0; i < runs_.size(); ++i)
            add_run(static_cast<int>(i));
        part_.size_table();
        for (int r = 0; r < part_.run_count(); ++r)
            for (int l = 0; l < part_.lot_count(); ++l) {
                part_.at(l, r) = p_.at(lots_[l], runs_[r]);
                part_.at(l, r).note = 0;
                if (lots_[l] == allowed && r == 0)
                    part_.at(l, r).ban = Ban::none;
            }
        as_is_ = evaluate(part_, plan_as_is());
    }

    void take_away(int lot) {
        const int l = index_of(lot);
        for (std::size_t i = 0; i < runs_.size(); ++i) // what the runs as they are hold stays there
            if (i < open_count_)
                part_.lots[l].stock_t -= used(static_cast<int>(i), lot);
        part_.lots[l].stock_t -= std::max(0.0, e_.left_t[lot]);
        part_.lots[l].stock_t = std::max(0.0, part_.lots[l].stock_t);
    }

    void unlock(const Lock& lock) {
        const int l = index_of(lock.lot);
        std::erase_if(part_.locks,
                      [&](const Lock& one) { return runs_[one.run] == lock.run && one.lot == l; });
    }

    [[nodiscard]] Tried plan_anew() const {
        NoSolver none;
        Effort effort;
        effort.improvement_steps = open_count_ > 1 ? 60 : 0;
        effort.bound = BoundProof::leave_out;
        const Outcome outcome = make_plan(part_, none, effort, nullptr, {});
        Tried tried;
        tried.run = outcome.evaluation.runs[0];
        for (const Assignment& a : outcome.plan.assignments)
            if (a.run == 0 && a.tonnes > 1e-9)
                tried.use[lots_[a.lot]] += a.tonnes;
        if (open_count_ > 1)
            tried.other = outcome.evaluation.runs[1];
        tried.dearer = outcome.evaluation.objective - as_is_.objective;
        return tried;
    }

private:
    void add_neighbours() {
        for (std::size_t i = 0; i < open_count_; ++i) {
            add_neighbour(p_.runs[runs_[i]].prev_on_line);
            for (int r = 0; r < p_.run_count(); ++r)
                if (p_.runs[r].prev_on_line == runs_[i])
                    add_neighbour(r);
        }
    }
    void add_neighbour(int run) {
        if (run >= 0 && std::find(runs_.begin(), runs_.end(), run) == runs_.end())
            runs_.push_back(run);
    }

    void add_lots(int allowed) {
        for (int l = 0; l < p_.lot_count(); ++l) {
            bool is_wanted = l == allowed;
            double stock = std::max(0.0, e_.left_t[l]);
            for (std::size_t i = 0; i < runs_.size(); ++i) {
                const double t = used(static_cast<int>(i), l);
                stock += t;
                is_wanted =
                    is_wanted || t > 0 || (i < open_count_ && p_.usable(l, runs_[i]) && is_reached(l));
            }
            if (!is_wanted)
                continue;
            lots_.push_back(l);
            part_.lots.push_back(p_.lots[l]);
            part_.lots.back().stock_t = stock;
        }
    }

    /// By the plan all that lies below the lot is drawn when the first open run draws.
    [[nodiscard]] bool is_reached(int lot) const {
        for (const auto& chain : p_.chains) {
            const auto at = std::find(chain.begin(), chain.end(), lot);
            if (at != chain.end())
                return std::all_of(chain.begin(), at,
                                   [&](int below) { return left_for(below) <= slight_rest_t; });
        }
        return true;
    }
    /// What the runs before the first open one and that one itself leave of a lot.
    [[nodiscard]] double left_for(int lot) const {
        double left = p_.lots[lot].stock_t;
        for (const int r : in_date_order(p_)) {
            if (const auto used = uses_[r].find(lot); used != uses_[r].end())
                left -= used->second;
            if (r == runs_.front())
                break;
        }
        return left;
    }

    /// Neighbours keep what they have; the open ones keep their locks.
    void add_run(int i) {
        Run run = p_.runs[runs_[i]];
        run.product = static_cast<int>(part_.products.size());
        part_.products.push_back(p_.product_of(runs_[i]));
        const auto prev = std::find(runs_.begin(), runs_.end(), run.prev_on_line);
        run.prev_on_line = prev == runs_.end() ? -1 : static_cast<int>(prev - runs_.begin());
        if (static_cast<std::size_t>(i) < open_count_) {
            for (const Lock& lock : p_.locks)
                if (lock.run == runs_[i])
                    part_.locks.push_back({i, index_of(lock.lot), lock.tonnes});
        } else {
            run.state = RunState::frozen;
            for (const auto& [l, t] : uses_[runs_[i]])
                part_.locks.push_back({i, index_of(l), t});
        }
        part_.runs.push_back(std::move(run));
    }

    [[nodiscard]] Plan plan_as_is() const {
        Plan plan;
        for (std::size_t i = 0; i < runs_.size(); ++i)
            for (const auto& [l, t] : uses_[runs_[i]])
                plan.assignments.push_back({static_cast<int>(i), index_of(l), t});
        return plan;
    }

    [[nodiscard]] int index_of(int lot) const {
        return static_cast<int>(std::lower_bound(lots_.begin(), lots_.end(), lot) - lots_.begin());
    }
    [[nodiscard]] double used(int i, int lot) const {
        const Use& use = uses_[runs_[i]];
        const auto at = use.find(lot);
        return at == use.end() ? 0 : at->second;
    }

    const Problem& p_;
    const std::vector<Use>& uses_;
    const Evaluation& e_;
    std::size_t open_count_;
    std::vector<int> runs_; ///< of the whole problem, the open ones first
    std::vector<int> lots_; ///< of the whole problem, rising
    Problem part_;
    Evaluation as_is_;
};

} // namespace

Tried Trial::without_lot(int run, int lot) const {
    Section section(p_, uses_, e_, {run});
    section.build();
    section.take_away(lot);
    return section.plan_anew();
}

std::optional<Tried> Trial::with_lot_allowed(int run, int lot) const {
    const auto& values = p_.lots[lot].values;
    if (!std::all_of(values.begin(), values.end(), [](double v) { return std::isfinite(v); }))
        return std::nullopt;
    Section section(p_, uses_, e_, {run});
    section.build(lot);
    return section.plan_anew();
}

Tried Trial::without_lock(int run, const Lock& lock) const {
    std::vector<int> open{run};
    if (lock.run != run)
        open.push_back(lock.run);
    Section section(p_, uses_, e_, std::move(open));
    section.build();
    section.unlock(lock);
    return section.plan_anew();
}

} // namespace mellowbin::planning
