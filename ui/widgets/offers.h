#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

namespace mellowbin::ui {

/// One of several that were found.
struct Offer {
    std::string_view name;    ///< "W24-118"
    std::string_view details; ///< what tells it from the others
};

struct Offers {
    std::string_view title; ///< "2 are called W24-118. Which one?"
    std::span<const Offer> all;
    std::string_view note = {}; ///< under them: "There are more: type more of the number."
};

struct OfferAnswer {
    std::optional<std::size_t> chosen;
    bool put_away = false; ///< Escape, or a press beside it
};

/// Under the line on top, over the screen, until one is chosen: Up and Down go through them, Enter or a press
/// takes one.
OfferAnswer offers(const Offers& offers);

} // namespace mellowbin::ui
