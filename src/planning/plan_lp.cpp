#include "planning/plan_lp.h"

#include "planning/tables.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::planning {

namespace {

enum class LeastShare { kept, ignored };

/// Builds run by run from the same tables the kernel reads: a run's cost is linear in the lots plus hinges,
/// and a hinge is one row with one column that pays for being above zero.
class Builder {
public:
    Builder(const Problem& problem, const Tables& tables, LeastShare least_share)
        : p_(problem), tables_(tables), least_share_(least_share), taken_(problem.lots.size(), 0.0) {
        out_.constant = tables.constant;
        out_.stock_row.assign(problem.lots.size(), -1);
    }

    /// `candidates` index the run's table. All runs come before finish(), so that pairs are the first
    /// columns.
    void add_run(const RunTable& run, const std::vector<int>& candidates) {
        runs_.push_back({&run, candidates, static_cast<int>(out_.pairs.size())});
        for (const int c : candidates) {
            const double most = std::min(run.fill_t, tables_.free_t[run.lot[c]]);
            out_.program.add_column(run.linear[c] / run.fill_t, 0.0, most,
                                    fmt::format("x{}_{}", run.run, run.lot[c]));
            out_.pairs.push_back({run.run, run.lot[c], 0.0});
        }
    }

    /// An assignment that does not move; its run is not in the programme.
    void keep(const Assignment& a) {
        out_.kept.push_back(a);
        taken_[a.lot] += a.tonnes;
    }

    /// Whole batches do not move by tonnes: the run added last keeps what it has.
    void fix(const std::vector<Assignment>& used) {
        for (std::size_t i = static_cast<std::size_t>(runs_.back().first); i < out_.pairs.size(); ++i)
            for (const Assignment& a : used)
                if (a.lot == out_.pairs[i].lot)
                    out_.program.columns[i].lower = out_.program.columns[i].upper = a.tonnes;
    }

    TonnesProgram finish() {
        for (const Piece& piece : runs_)
            rows_of(piece);
        stock_rows();
        return std::move(out_);
    }

private:
    struct Piece {
        const RunTable* run;
        std::vector<int> candidates;
        int first;
    };

    void rows_of(const Piece& piece) {
        LinearProgram& lp = out_.program;
        const RunTable& run = *piece.run;
        const int n = static_cast<int>(piece.candidates.size());
        const int missing =
            lp.add_column(run.short_cost / run.fill_t, 0.0, run.fill_t, fmt::format("short{}", run.run));
        const int need = lp.add_row(run.fill_t, run.fill_t, fmt::format("need{}", run.run));
        lp.add(need, missing, 1.0);
        for (int i = 0; i < n; ++i)
            lp.add(need, piece.first + i, 1.0);
        for (int k = 0; k < run.hinges; ++k)
            hinge_row(piece, k);
        if (!run.law.empty())
            law_row(piece);
        if (least_share_ == LeastShare::kept)
            share_rows(piece);
    }

    /// base + sum of steps <= what the column pays for. Left out where no lot can turn it.
    void hinge_row(const Piece& piece, int k) {
        LinearProgram& lp = out_.program;
        const RunTable& run = *piece.run;
        const int n = static_cast<int>(piece.candidates.size());
        bool turns = run.base[k] > 0;
        for (const int c : piece.candidates)
            turns = turns || run.step(c, k) > 0;
        if (!turns)
            return;
        const double weight = run.hinge_weight[k];
        const int row = lp.add_row(-unbounded, -run.base[k] / weight, fmt::format("h{}_{}", run.run, k));
        const int pays = lp.add_column(weight, 0.0, unbounded, fmt::format("v{}_{}", run.run, k));
        lp.add(row, pays, -1.0);
        for (int i = 0; i < n; ++i)
            lp.add(row, piece.first + i, run.step(piece.candidates[i], k) / run.fill_t / weight);
    }

    void law_row(const Piece& piece) {
        LinearProgram& lp = out_.program;
        const RunTable& run = *piece.run;
        const int row = lp.add_row(-unbounded, -run.law_base, fmt::format("law{}", run.run));
        for (std::size_t i = 0; i < piece.candidates.size(); ++i)
            lp.add(row, piece.first + static_cast<int>(i), run.law[piece.candidates[i]] / run.fill_t);
    }

    void share_rows(const Piece& piece) {
        LinearProgram& lp = out_.program;
        const RunTable& run = *piece.run;
        const double share = p_.product_of(run.run).min_share;
        const int n = static_cast<int>(piece.candidates.size());
        if (share <= 0 || (n == 1 && run.locked_t <= 0))
            return;
        for (int i = 0; i < n; ++i) {
            const int row = lp.add_row(share * run.locked_t, unbounded, fmt::format("s{}_{}", run.run, i));
            for (int j = 0; j < n; ++j)
                lp.add(row, piece.first + j, (i == j ? 1.0 : 0.0) - share);
        }
    }

    void stock_rows() {
        LinearProgram& lp = out_.program;
        for (std::size_t i = 0; i < out_.pairs.size(); ++i) {
            const int lot = out_.pairs[i].lot;
            if (out_.stock_row[lot] < 0)
                out_.stock_row[lot] = lp.add_row(-unbounded, std::max(0.0, tables_.free_t[lot] - taken_[lot]),
                                                 fmt::format("stock{}", lot));
            lp.add(out_.stock_row[lot], static_cast<int>(i), 1.0);
        }
    }

    const Problem& p_;
    const Tables& tables_;
    LeastShare least_share_;
    std::vector<double> taken_; ///< per lot, by runs that do not move
    TonnesProgram out_;
    std::vector<Piece> runs_;
};

} // namespace

Plan TonnesProgram::plan_of(const Problem& problem, const std::vector<double>& x) const {
    constexpr double slight_t = 1e-6;
    Plan plan;
    for (const Lock& lock : problem.locks)
        if (lock.tonnes > 0)
            plan.assignments.push_back({lock.run, lock.lot, lock.tonnes});
    for (std::size_t i = 0; i < pairs.size(); ++i)
        if (x[i] > slight_t)
            plan.assignments.push_back({pairs[i].run, pairs[i].lot, x[i]});
    plan.assignments.insert(plan.assignments.end(), kept.begin(), kept.end());
    sort_assignments(plan);
    return plan;
}

TonnesProgram polish_program(const Problem& problem, const Tables& tables, const Plan& plan,
                             const std::vector<int>* open) {
    std::vector<std::vector<Assignment>> used(problem.runs.size());
    for (const Assignment& a : plan.assignments)
        used[a.run].push_back(a);
    Builder builder(problem, tables, LeastShare::kept);
    std::vector<int> chosen;
    for (const RunTable& run : tables.runs) {
        const bool moves = !open || std::find(open->begin(), open->end(), run.run) != open->end();
        if (!moves) {
            for (const Assignment& a : used[run.run])
                if (std::find(run.lot.begin(), run.lot.end(), a.lot) != run.lot.end())
                    builder.keep(a);
            continue;
        }
        chosen.clear();
        for (int c = 0; c < run.count(); ++c)
            if (std::any_of(used[run.run].begin(), used[run.run].end(),
                            [&](const Assignment& a) { return a.lot == run.lot[c]; }))
                chosen.push_back(c);
        if (run.fill_t <= 0)
            continue;
        builder.add_run(run, chosen);
        if (run.batch_share > 0)
            builder.fix(used[run.run]);
    }
    return builder.finish();
}

TonnesProgram bound_program(const Problem& problem, const Tables& tables) {
    Builder builder(problem, tables, LeastShare::ignored);
    std::vector<int> all;
    for (const RunTable& run : tables.runs) {
        all.clear();
        for (int c = 0; c < run.count(); ++c)
            if (tables.free_t[run.lot[c]] > 0)
                all.push_back(c);
        if (run.fill_t > 0)
            builder.add_run(run, all);
    }
    return builder.finish();
}

} // namespace mellowbin::planning
