#pragma once

#include "app/models/trace_page.h"
#include "core/drill.h"

#include <iosfwd>
#include <span>
#include <string>

/// Traces, dispatches and drills, for a person and as JSON.
namespace mellowbin::cli {

void print_trace(std::ostream& out, const app::TraceModel& trace, const std::string& summary);
std::string trace_as_json(const app::TraceModel& trace);
void print_dispatches(std::ostream& out, std::span<const app::TraceDispatch> dispatches);
std::string dispatches_as_json(std::span<const app::TraceDispatch> dispatches);
void print_drills(std::ostream& out, std::span<const Drill> drills);
std::string drills_as_json(std::span<const Drill> drills);
/// With its report where it has ended.
void print_drill(std::ostream& out, const Drill& drill);
std::string drill_as_json(const Drill& drill);

} // namespace mellowbin::cli
