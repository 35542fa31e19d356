#pragma once

#include "core/plant.h"

#include <string>
#include <vector>

namespace mellowbin::app {

/// What one part of two plans weighs.
struct ComparedPart {
    std::string name; ///< "Flour short"
    double before = 0, after = 0;
    std::string before_words, after_words; ///< the figure people ask for: "3 200 kg", "12 mg/kg in the mean"
};

struct MovedRun {
    RunId run;
    std::string title;         ///< "Fri 27 Nov, Line 1: Pan bread (R261127-1-2)"
    std::string before, after; ///< the lots with their kg
    std::string gain;          ///< in words; empty: neither better nor worse
};

/// Two plans side by side.
struct PlanComparison {
    std::string before_name, after_name; ///< "Plan in the book", "New plan"
    std::vector<ComparedPart> parts;     ///< the whole last
    std::vector<MovedRun> moved;
    std::string verdict; ///< one line: what it gains and what moves
};

struct Book;
struct ProposedPlan;

/// What people read of two plans side by side.
PlanComparison comparison_shown(const Book& book, const ProposedPlan& plan);

} // namespace mellowbin::app
