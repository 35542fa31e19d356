#pragma once

#include "core/lot.h"

#include <optional>
#include <string>
#include <string_view>

namespace mellowbin::app {

struct Book;

/// How a lot stands where that is more than its state says.
struct LotStanding {
    std::string words; ///< within a sentence: "concession ended 27 Nov", "returned to the mill"; empty: as
                       ///< its state says
    bool is_on_hold = false; ///< released, and nothing of it goes into dough until quality judges it anew
    std::optional<Day> since = {}; ///< the first day on which it stands so, where it is over or gone
    friend bool operator==(const LotStanding&, const LotStanding&) = default;
};

/// What a rejected lot is called of which nothing is left since it went back.
inline constexpr std::string_view returned_to_the_mill = "returned to the mill";

/// By its concession; and a rejected lot of which nothing is left went back to the mill where the last of it
/// did.
LotStanding standing_of(const Book& book, const Lot& lot, Day today);

/// What the state is called: the standing where there is one, as a name: "Concession ended 27 Nov".
std::string name_of(LotState state, const LotStanding& standing);
/// The same within a sentence.
std::string in_words(LotState state, const LotStanding& standing);

} // namespace mellowbin::app
