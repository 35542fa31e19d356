#pragma once

#include "core/door.h"
#include "core/result.h"

#include <string>
#include <vector>

namespace mellowbin::views {

/// The checks at the door of the delivery at hand, as they are answered.
struct DoorForm {
    std::vector<DoorCheckDraft> checks;
    Refusals refusals;
    bool shows_all_notes = false; ///< not only those of a "no"

    /// These are asked: what was answered to those that stay is kept.
    void ask(const std::vector<std::string>& questions);
    /// Keeps those that are about the door; the others.
    Refusals take_refusals(const Refusals& all);
    /// Nothing is answered any more.
    void empty();
};

void draw(DoorForm& door);

} // namespace mellowbin::views
