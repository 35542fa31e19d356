#pragma once

#include "core/day.h"
#include "core/id.h"

#include <optional>
#include <string>
#include <string_view>

namespace mellowbin {

/// What is done to a silo between two fillings.
enum class CareKind { emptied, cleaned, sanitised };
std::string_view key_of(CareKind kind);
std::optional<CareKind> care_kind_from_key(std::string_view key);

/// Somebody did it, and somebody wrote it down.
struct PlaceCare {
    PlaceId place;
    CareKind kind{};
    Day day;
    std::string by;   ///< who did it
    std::string note; ///< with what, or why something was left; may be empty
    Instant at;       ///< written down
    std::string who;  ///< wrote it down
    friend bool operator==(const PlaceCare&, const PlaceCare&) = default;
};

} // namespace mellowbin
