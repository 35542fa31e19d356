#pragma once

#include "core/limit.h"
#include "core/result.h"

#include <string>

namespace mellowbin {

/// What of a limit a plant corrects, as typed. What it speaks of (market, substance, food or bread) stays.
struct LimitDraft {
    std::string figure; ///< mg/kg; empty: the law gives none
    std::string status; ///< key or name of it
    std::string source; ///< statute and section
    std::string source_date;
    friend bool operator==(const LimitDraft&, const LimitDraft&) = default;
};

/// As a form starts.
LimitDraft draft_of(const LimitRow& row);
LimitDraft draft_of(const PropionateRow& row);

/// The row with what was typed, or every reason why not: a figure goes with a permission up to it and with
/// nothing else, and there is a source. A row that is not as it was is confirmed by nobody yet.
Result<LimitRow> changed(LimitRow row, const LimitDraft& draft);
Result<PropionateRow> changed(PropionateRow row, const LimitDraft& draft);

} // namespace mellowbin
