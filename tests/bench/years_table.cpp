#include "years_table.h"

#include <fmt/format.h>

#include <cstdio>

namespace mellowbin::bench {
namespace {

std::string figure_words(std::optional<double> figure) {
    if (!figure)
        return "-";
    return fmt::format("{:.{}f}", *figure, *figure < 10 ? 2 : *figure < 1000 ? 1 : 0);
}

} // namespace

YearsTable::YearsTable(std::vector<int> years) : years_(std::move(years)) {
    fmt::print("\n{:<36}{:>5}", "", "");
    for (const int one : years_)
        fmt::print("{:>11}", one == 0 ? "demo" : fmt::format("{} years", one));
    fmt::print("{:>8}  goal\n", "ratio");
}

void YearsTable::line(const std::string& what, const std::string& unit, const ByBook& figures,
                      std::optional<Goal> goal) {
    fmt::print("{:<36}{:>5}", what, unit);
    for (const auto& figure : figures)
        fmt::print("{:>11}", figure_words(figure));
    const auto demo = figures.front(), oldest = figures.back();
    fmt::print("{:>8}  ", demo && oldest && figures.size() > 1 ? fmt::format("{:.2f}", *oldest / *demo) : "");
    if (goal)
        fmt::print("{}", verdict(demo ? oldest : std::nullopt, goal->most(demo.value_or(0)), unit));
    fmt::print("\n");
    std::fflush(stdout);
}

void YearsTable::single(const std::string& what, const std::string& unit, std::optional<double> figure,
                        double most) {
    fmt::print("{:<36}{:>5}{:>11}  {}\n", what, unit, figure_words(figure), verdict(figure, most, unit));
    std::fflush(stdout);
}

std::string YearsTable::verdict(std::optional<double> figure, double most, const std::string& unit) {
    const bool is_met = figure && *figure <= most;
    missed_ += is_met ? 0 : 1;
    return fmt::format("at most {} {}: {}", figure_words(most), unit,
                       !figure  ? "not measured"
                       : is_met ? "met"
                                : "NOT MET");
}

} // namespace mellowbin::bench
