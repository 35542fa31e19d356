#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/listing.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

using DrillId = Id<struct TraceDrillRecord>;

/// What a trace begins with: one lot; a product of a day; a run; or all that went to a customer on a day.
enum class TraceOf { lot, product, run, customer };
std::string_view key_of(TraceOf of);
std::optional<TraceOf> trace_of_from_key(std::string_view key);

/// What a drill found, once its trace was complete.
struct DrillEnd {
    Instant at;
    std::string who;
    std::int64_t seconds = 0;      ///< from the beginning of the drill
    std::int64_t milliseconds = 0; ///< that the program took to make the trace
    std::string note;
    std::vector<Listing> report; ///< as it was then, of texts alone
};

/// A trace that is asked for by the clock, to know how long it takes.
struct Drill {
    DrillId id;
    TraceOf asks{};
    std::string of; ///< as typed: "W24-118", "Pan bread"
    std::optional<Day> day;
    Instant at; ///< it began
    std::string who;
    std::optional<DrillEnd> end; ///< none: it runs
};

/// The listing with every cell as it is read, so that it stays as it was.
Listing as_text(const Listing& listing);

} // namespace mellowbin
