#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/kept_text.h"

#include <cstdint>
#include <optional>
#include <string>

namespace mellowbin {

/// One window's right to go on with a begun delivery: it ends when another window takes that over.
struct BegunHold {
    BegunId delivery; ///< not known: none is held
    std::int64_t hold = 0;
    [[nodiscard]] bool is_held() const { return delivery.is_known(); }
    friend bool operator==(const BegunHold&, const BegunHold&) = default;
};

/// Who has a begun delivery in a window.
struct BegunHolder {
    std::string who, station;
    Instant since;
    friend bool operator==(const BegunHolder&, const BegunHolder&) = default;
};

/// From where a begun delivery is taken over.
enum class TakeFrom {
    where_it_waits,
    whoever_has_it, ///< also out of another window's hands, which then holds it no more
};

/// A delivery half logged that was put aside in the book, for whoever goes on with it.
struct BegunDelivery {
    BegunId id;
    std::string who, station; ///< that put it aside
    Instant at;
    std::string how_far;               ///< "3 lots of Harrow Mill"
    std::string text_form;             ///< of the text: another program may write another one
    KeptText text;                     ///< empty where only the list was asked for
    std::int64_t hold = 0;             ///< the newest
    std::optional<BegunHolder> holder; ///< nobody: it waits

    friend bool operator==(const BegunDelivery&, const BegunDelivery&) = default;
};

} // namespace mellowbin
