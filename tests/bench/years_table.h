#pragma once

#include <optional>
#include <string>
#include <vector>

namespace mellowbin::bench {

/// A figure of each book, in the order of their years; what could not be measured is missing.
using ByBook = std::vector<std::optional<double>>;

/// What a figure of the oldest book has to stay below.
struct Goal {
    double times_the_demo = 0; ///< so many times the youngest book's figure
    double and_more = 0;       ///< and this on top, in the figure's unit

    [[nodiscard]] double most(double demo) const { return times_the_demo * demo + and_more; }
};

/// Lines of figures as they come, each with its goal and whether it was met.
class YearsTable {
public:
    explicit YearsTable(std::vector<int> years);
    /// With the oldest book's figure as a ratio to the youngest's, and the goal where there is one.
    void line(const std::string& what, const std::string& unit, const ByBook& figures,
              std::optional<Goal> goal = {});
    /// A figure of one book alone.
    void single(const std::string& what, const std::string& unit, std::optional<double> figure, double most);
    /// Goals that were not met, or not measured.
    [[nodiscard]] int missed() const { return missed_; }

private:
    std::string verdict(std::optional<double> figure, double most, const std::string& unit);

    std::vector<int> years_;
    int missed_ = 0;
};

} // namespace mellowbin::bench
