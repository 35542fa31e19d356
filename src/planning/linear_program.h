#pragma once

#include <functional>
#include <limits>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace mellowbin::planning {

inline constexpr double unbounded = std::numeric_limits<double>::infinity();

/// Minimise cost·x, each row's sum and each column within its bounds. Entries of the same place add up.
struct LinearProgram {
    struct Column {
        double cost = 0;
        double lower = 0;
        double upper = unbounded;
        std::string name; ///< letters, digits and _, at most 15; unique
    };
    struct Row {
        double lower = -unbounded;
        double upper = unbounded;
        std::string name;
    };
    struct Entry {
        int row = 0;
        int column = 0;
        double value = 0;
    };
    std::vector<Column> columns;
    std::vector<Row> rows;
    std::vector<Entry> entries;

    int add_column(double cost, double lower, double upper, std::string name) {
        columns.push_back({cost, lower, upper, std::move(name)});
        return static_cast<int>(columns.size()) - 1;
    }
    int add_row(double lower, double upper, std::string name) {
        rows.push_back({lower, upper, std::move(name)});
        return static_cast<int>(rows.size()) - 1;
    }
    void add(int row, int column, double value) {
        if (value != 0)
            entries.push_back({row, column, value});
    }
};

enum class LinearStatus { optimal, infeasible, without_bound, stopped, failed };

struct LinearResult {
    LinearStatus status = LinearStatus::failed;
    double objective = 0;          ///< meaningful when optimal
    std::vector<double> x;         ///< one per column
    std::vector<double> row_duals; ///< change of the objective per unit of a row's right-hand side
};

/// What a search may borrow of the machine: a clock and threads. This one has neither.
class Machine {
public:
    Machine() = default;
    Machine(const Machine&) = delete;
    Machine& operator=(const Machine&) = delete;
    virtual ~Machine() = default;
    /// Seconds since some instant, never falling; nullopt without a clock.
    [[nodiscard]] virtual std::optional<double> seconds() const { return std::nullopt; }
    /// Calls work(0) to work(count - 1), at once where there are threads, and returns when all have ended.
    virtual void side_by_side(int count, const std::function<void(int)>& work) {
        for (int i = 0; i < count; ++i)
            work(i);
    }
};

/// The door to a solver of linear programmes, and to the machine it runs on. solve() may be called from
/// several threads at once.
class LinearSolver : public Machine {
public:
    /// Gives up within 0.1 s of a stop request, with LinearStatus::stopped. Throws only for lack of memory.
    virtual LinearResult solve(const LinearProgram& program, std::stop_token stop) = 0;
};

/// The programme as text in the CPLEX LP format, numbers with all their digits, for a second solver to check.
std::string write_cplex_lp(const LinearProgram& program, const std::string& title);

} // namespace mellowbin::planning
