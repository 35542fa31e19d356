#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/quantity.h"
#include "core/result.h"

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// What tonnes and shares lose when they are cut to whole grams: no scale of a mixer sees it.
inline constexpr Grams few_grams{20};

enum class MovementKind { receipt, move, use, count, waste, give_back, to_mill };
std::string_view key_of(MovementKind kind);
std::optional<MovementKind> movement_kind_from_key(std::string_view key);
/// As a person says it: "back to the mill"; else its key.
std::string_view in_words(MovementKind kind);

/// One line of the append-only book of movements: grams that left one place and came to another. A receipt, a
/// return and a count that found more have no `from`; a use, waste, what goes back to the mill and a count
/// that found less have no `to`; the counter-entry of one goes the other way.
/// Nothing is edited: a mistake is countered by a second line that names the first.
struct Movement {
    MovementId id;
    LotId lot;
    MovementKind kind{};
    std::optional<PlaceId> from;
    std::optional<PlaceId> to;
    Grams mass; ///< above 0
    Instant at;
    std::string who;
    std::optional<RunId> run; ///< of a use or its return
    std::optional<MovementId> counters;
    std::string note;

    friend bool operator==(const Movement&, const Movement&) = default;
};

/// Flour that lies in one place.
struct PlacedFlour {
    PlaceId place;
    Grams mass;
    friend bool operator==(const PlacedFlour&, const PlacedFlour&) = default;
};
/// From which places so much of a lot is drawn: from those that were said, in their order; then from the
/// others, the one that holds least first, so that opened pallets are finished. Less than needed where less
/// lies there; no part is nothing.
std::vector<PlacedFlour> drawn_from(std::map<PlaceId, Grams> lying, std::span<const PlaceId> said,
                                    Grams needed);

/// The movement can be made where so much of its lot lies in the place it leaves: its places fit its kind,
/// the mass is above 0, and no place goes below nothing.
Result<Done> possible(const Movement& movement, Grams lying);

/// Flour of one lot that came to a place in one go, as far as it still lies there.
struct Layer {
    LotId lot;
    Grams mass; ///< above 0
    friend bool operator==(const Layer&, const Layer&) = default;
};

/// Where the grams of the lots lie, added up from movements; exact.
class StockBook {
public:
    StockBook() = default;
    explicit StockBook(std::span<const Movement> movements) {
        for (const auto& m : movements)
            enter(m);
    }

    /// Adds a movement that the book already holds.
    void enter(const Movement& movement);
    /// possible() by what lies there.
    [[nodiscard]] Result<Done> check(const Movement& movement) const {
        return possible(movement, movement.from ? at(movement.lot, *movement.from) : Grams{});
    }

    [[nodiscard]] Grams at(LotId lot, PlaceId place) const;
    [[nodiscard]] Grams total(LotId lot) const;
    [[nodiscard]] std::map<PlaceId, Grams> places_of(LotId lot) const; ///< places that hold some of it
    /// What lies in the place in the order in which it came, the oldest first: so a silo gives it. What
    /// leaves takes a lot's oldest layer first; a counter-entry puts back what left where it was, below, and
    /// takes back what came, above.
    [[nodiscard]] const std::vector<Layer>& layers(PlaceId place) const;

private:
    std::map<std::pair<LotId, PlaceId>, Grams> lying_;
    std::map<PlaceId, std::vector<Layer>> layers_;
};

/// The movement that takes another one back, with who and why.
Movement countering(const Movement& mistaken, std::string who, Instant at, std::string note);

/// What a count of a place says: the movement that brings the book to what was counted; nothing if they
/// agree.
std::optional<Movement> correction_by_count(LotId lot, PlaceId place, Grams booked, Grams counted);

} // namespace mellowbin
