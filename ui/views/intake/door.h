#pragma once

#include "core/door.h"
#include "core/result.h"
#include "ui/views/intake/delivery.h"

#include <cstdint>
#include <string>
#include <vector>

namespace mellowbin::views {

/// What a "no" at the door is about: one lot or all, how many bags, in words.
struct DoorFinding {
    std::int64_t line = 0; ///< of the delivery; 0: all its lots
    std::string bags, note;
};

/// A check at the door as it is answered: once for all lots, a "no" for those it names.
struct DoorQuestion {
    std::string question, answer;
    std::vector<DoorFinding> findings = {DoorFinding()}; ///< never none
};

/// The checks at the door of the delivery at hand.
struct DoorForm {
    std::vector<DoorQuestion> checks;
    Refusals refusals;            ///< of what is typed, each at its field
    bool shows_all_notes = false; ///< not only those of a "no"

    /// These are asked: what was answered to those that stay is kept.
    void ask(const std::vector<std::string>& questions);
    /// What a "no" says of lots that are gone goes with them: taken in, or off the list.
    void follow(const Delivery& delivery);
    /// Reads what was typed as intake does.
    void check(const Delivery& delivery);
    /// Nothing is answered any more.
    void empty();

    /// As these lots keep them: a "no" that names lots is a "yes" of the others.
    [[nodiscard]] std::vector<DoorCheckDraft> drafts_of(const Delivery& delivery,
                                                        const std::vector<std::int64_t>& numbers) const;
    /// Why the lot starts on hold, in a few words; empty: it does not.
    [[nodiscard]] std::string hold_of(const DeliveryLine& line) const;
    /// Something typed of the lot, or of all, is refused.
    [[nodiscard]] bool is_refused(const Delivery& delivery, const DeliveryLine& line) const;
};

void draw(DoorForm& door, const Delivery& delivery);

} // namespace mellowbin::views
