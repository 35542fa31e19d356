#include "planning/linear_program.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::planning {

namespace {

/// A line of the format may hold at most 255 characters.
void term(std::string& text, double value, const std::string& name) {
    text += fmt::format("\n  {} {:.17g} {}", value < 0 ? '-' : '+', std::abs(value), name);
}

void write_row(std::string& text, const LinearProgram& lp, const LinearProgram::Row& row,
               const std::vector<LinearProgram::Entry>& entries, const char* relation, double bound) {
    text += fmt::format("\n {}:", row.name);
    if (entries.empty())
        term(text, 0.0, lp.columns.front().name);
    for (const LinearProgram::Entry& e : entries)
        term(text, e.value, lp.columns[e.column].name);
    text += fmt::format("\n  {} {:.17g}", relation, bound);
}

void write_bounds(std::string& text, const LinearProgram::Column& c) {
    if (std::isinf(c.lower) && std::isinf(c.upper))
        text += fmt::format(" {} free\n", c.name);
    else if (std::isinf(c.upper))
        text += fmt::format(" {} >= {:.17g}\n", c.name, c.lower);
    else if (std::isinf(c.lower))
        text += fmt::format(" -inf <= {} <= {:.17g}\n", c.name, c.upper);
    else
        text += fmt::format(" {:.17g} <= {} <= {:.17g}\n", c.lower, c.name, c.upper);
}

} // namespace

std::string write_cplex_lp(const LinearProgram& lp, const std::string& title) {
    std::vector<std::vector<LinearProgram::Entry>> by_row(lp.rows.size());
    for (const LinearProgram::Entry& e : lp.entries)
        by_row[e.row].push_back(e);

    std::string text = fmt::format("\\ {}\nMinimize\n obj:", title);
    for (const LinearProgram::Column& c : lp.columns)
        term(text, c.cost, c.name);
    text += "\nSubject To";
    for (std::size_t i = 0; i < lp.rows.size(); ++i) {
        const LinearProgram::Row& row = lp.rows[i];
        if (row.lower == row.upper) {
            write_row(text, lp, row, by_row[i], "=", row.lower);
            continue;
        }
        // The format has no ranged rows: one with two sides becomes two rows.
        LinearProgram::Row other = row;
        if (std::isfinite(row.lower))
            write_row(text, lp, row, by_row[i], ">=", row.lower);
        if (std::isfinite(row.lower))
            other.name += "_u";
        if (std::isfinite(row.upper))
            write_row(text, lp, other, by_row[i], "<=", row.upper);
    }
    text += "\nBounds\n";
    for (const LinearProgram::Column& c : lp.columns)
        write_bounds(text, c);
    return text + "End\n";
}

} // namespace mellowbin::planning
