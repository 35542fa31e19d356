#pragma once

#include "core/lot.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace mellowbin {

/// The plant's own results for a lot, of flour taken on one day. It is taken back by a second line, never
/// edited.
struct Retest {
    RetestId id;
    LotId lot;
    Day taken_on;
    std::optional<PlaceId> place; ///< where the sample was taken; not said: the lot as a whole
    Certificate results;          ///< not empty
    std::string who;
    Instant logged_at;
    std::string note;
    bool is_withdrawn = false;

    friend bool operator==(const Retest&, const Retest&) = default;
};

/// A retest as typed.
struct RetestDraft {
    std::string taken_on; ///< empty: today
    std::string place;    ///< a name; empty: the lot as a whole
    std::string note;
    std::vector<FigureDraft> figures; ///< empty values are missing

    /// The figure's draft, made if it is not there yet.
    FigureDraft& figure(Property property);
};

/// What a draft is checked against.
struct RetestContext {
    Day today;
    const Lot& lot;
    std::span<const Place> places;
};

/// Reads the draft and gives every reason at once when it cannot be taken: a day before the milling or after
/// today, a place that is not known, no figure at all, a figure that is no number, is zero, negative or
/// outside what flour can have, a percentage without its basis, a property that stands twice. The retest has
/// no number, person or instant yet.
Result<Retest> accept(const RetestDraft& draft, const RetestContext& context);

} // namespace mellowbin
