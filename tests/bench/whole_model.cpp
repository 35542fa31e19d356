#include "whole_model.h"

#include "planning/plan_lp.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <unistd.h>
#include <utility>
#include <vector>

namespace mellowbin::planning {

namespace {

/// On top of the programme that proves the bound: whether a run uses a lot, and what hangs on that.
class Whole {
public:
    explicit Whole(const Problem& problem)
        : p_(problem), tables_(make_tables(problem)), tonnes_(bound_program(problem, tables_)),
          lp_(tonnes_.program) {
        for (std::size_t c = 0; c < lp_.columns.size(); ++c)
            if (lp_.columns[c].name.starts_with("short"))
                short_[std::stoi(lp_.columns[c].name.substr(5))] = static_cast<int>(c);
    }

    WholeModel make() {
        for (std::size_t i = 0; i < tonnes_.pairs.size(); ++i)
            add_use(static_cast<int>(i));
        for (std::size_t i = 0; i < tonnes_.pairs.size(); ++i)
            rules_of(static_cast<int>(i));
        for (int r = 0; r < p_.run_count(); ++r)
            most_lots(r);
        for (const Lock& lock : p_.locks)
            if (lock.tonnes > 0)
                change_of_locked(lock);
        for (const auto& [pair, y] : use_)
            change(pair.first, pair.second, y);
        std::string text = write_cplex_lp(lp_, "the whole problem");
        text.resize(text.rfind("End"));
        text += "Binaries\n";
        for (const auto& [pair, y] : use_)
            text += " " + lp_.columns[y].name + "\n";
        if (!batches_.empty())
            text += "Generals\n";
        for (const int n : batches_)
            text += " " + lp_.columns[n].name + "\n";
        return {text + "End\n", tonnes_.constant + fixed_changes_};
    }

private:
    void add_use(int x) {
        const Assignment& a = tonnes_.pairs[x];
        use_[{a.run, a.lot}] = lp_.add_column(0, 0, 1, fmt::format("y{}_{}", a.run, a.lot));
    }

    void rules_of(int x) {
        const Assignment& a = tonnes_.pairs[x];
        const RunTable& run = tables_.runs[a.run];
        const int y = use_.at({a.run, a.lot});
        const std::string name = fmt::format("{}_{}", a.run, a.lot);
        const int most = lp_.add_row(-unbounded, 0, "m" + name);
        lp_.add(most, x, 1);
        lp_.add(most, y, -lp_.columns[x].upper);
        if (run.tonne_share > 0) {
            const int least = lp_.add_row(0, unbounded, "l" + name);
            lp_.add(least, x, 1);
            lp_.add(least, short_.at(a.run), run.tonne_share);
            lp_.add(least, y, -run.tonne_share * (run.fill_t + run.locked_t));
        }
        if (run.batch_share > 0) {
            const double batch_t = p_.runs[a.run].batch_t;
            const int n = lp_.add_column(0, 0, std::floor(lp_.columns[x].upper / batch_t + 1e-9), "n" + name);
            const int whole = lp_.add_row(0, 0, "b" + name);
            lp_.add(whole, x, 1);
            lp_.add(whole, n, -batch_t);
            batches_.push_back(n);
        }
    }

    void most_lots(int r) {
        const int row = lp_.add_row(-unbounded, tables_.runs[r].max_free_lots, fmt::format("k{}", r));
        for (const auto& [pair, y] : use_)
            if (pair.first == r)
                lp_.add(row, y, 1);
    }

    [[nodiscard]] bool is_locked(int run, int lot) const {
        const std::vector<int>& lots = tables_.locked[run];
        return std::find(lots.begin(), lots.end(), lot) != lots.end();
    }

    /// change >= use here - use in the run before on the line.
    void change(int run, int lot, int y) {
        const int prev = p_.runs[run].prev_on_line;
        if (prev < 0 || is_locked(prev, lot) || p_.weights.lot_change == 0)
            return;
        const std::string name = fmt::format("c{}_{}", run, lot);
        const int pays = lp_.add_column(p_.weights.lot_change, 0, 1, name);
        const int row = lp_.add_row(-unbounded, 0, "d" + name);
        lp_.add(row, y, 1);
        lp_.add(row, pays, -1);
        if (const auto before = use_.find({prev, lot}); before != use_.end())
            lp_.add(row, before->second, -1);
    }

    void change_of_locked(const Lock& lock) {
        const int prev = p_.runs[lock.run].prev_on_line;
        if (prev < 0 || is_locked(prev, lock.lot))
            return;
        fixed_changes_ += p_.weights.lot_change;
        if (const auto before = use_.find({prev, lock.lot}); before != use_.end())
            lp_.columns[before->second].cost -= p_.weights.lot_change;
    }

    const Problem& p_;
    Tables tables_;
    TonnesProgram tonnes_;
    LinearProgram& lp_;
    std::map<int, int> short_;               ///< per run: its column
    std::map<std::pair<int, int>, int> use_; ///< per run and lot: its column
    std::vector<int> batches_;
    double fixed_changes_ = 0;
};

bool has_cbc() { return std::system("command -v cbc > /dev/null 2>&1") == 0; }

} // namespace

WholeModel whole_model(const Problem& problem) { return Whole(problem).make(); }

RivalResult ask_cbc(const Problem& problem, double seconds, int threads) {
    if (!has_cbc())
        return {std::nullopt, 0, "is not installed"};
    namespace fs = std::filesystem;
    const fs::path folder = fs::temp_directory_path() / fmt::format("mellowbin_cbc_{}", getpid());
    fs::create_directories(folder);
    const WholeModel model = whole_model(problem);
    std::ofstream(folder / "model.lp") << model.text;
    const auto started = std::chrono::steady_clock::now();
    const std::string command = fmt::format(
        "cd '{}' && cbc model.lp -sec {} -threads {} -solve -solution solution.txt > log.txt 2>&1",
        folder.string(), seconds, threads);
    const bool ran = std::system(command.c_str()) == 0;
    RivalResult result{std::nullopt, 0, ran ? "wrote no solution" : "failed"};
    result.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count();
    std::ifstream solution(folder / "solution.txt");
    if (std::string line; std::getline(solution, line)) {
        result.words = line;
        // "Stopped on time - objective value 1234.5"; without a plan it says so, or that it is infeasible
        constexpr std::string_view before = "objective value";
        const auto at = line.find(before);
        if (at != std::string::npos && line.find("no integer solution") == std::string::npos &&
            line.find("nfeasible") == std::string::npos)
            result.objective = std::stod(line.substr(at + before.size())) + model.constant;
    }
    fs::remove_all(folder);
    return result;
}

} // namespace mellowbin::planning
