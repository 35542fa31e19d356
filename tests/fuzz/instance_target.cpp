#include "exchange/instance.h"
#include "fuzz/target.h"
#include "planning/problem.h"

#include <cmath>

namespace mellowbin::fuzz {
namespace {

void expect_sound(const planning::Problem& problem) {
    expect(planning::check(problem).empty(), "a problem that was read can be planned");
    expect(problem.table.size() == problem.lots.size() * problem.runs.size(), "each run knows each lot");
    for (const auto& cell : problem.table) {
        expect(cell.ban != planning::Ban::none || std::isfinite(cell.maturity_points),
               "a lot that may be used has a maturity");
        expect(cell.note >= 0 && static_cast<std::size_t>(cell.note) < problem.notes.size(),
               "a ban's note is one of the problem's");
    }
    for (const auto& lot : problem.lots)
        for (const double value : lot.values)
            expect(std::isfinite(value), "a lot's figures are numbers");
    expect(planning::in_date_order(problem).size() == problem.runs.size(), "every run has its day");
}

void take(std::string_view bytes) {
    const auto problem = exchange::read_instance(bytes);
    if (problem)
        expect_sound(*problem);
    else
        expect_well_said(problem.refusals(), bytes);
}

const Registered target{"instance", take};

} // namespace
} // namespace mellowbin::fuzz
