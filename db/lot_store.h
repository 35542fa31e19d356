#pragma once

#include "core/lot.h"
#include "core/stock.h"
#include "db/change.h"

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace mellowbin {

/// A lot as it came, with the movement that put it in its place.
struct Delivered {
    Lot lot;
    Movement receipt; ///< its lot is filled in when the lot gets its number
};

class LotStore {
public:
    explicit LotStore(Connection& connection) : connection_(connection) {}

    /// Every lot with its certificate, the mill's additions and the checks at the door, in the order they
    /// were taken in.
    [[nodiscard]] std::vector<Lot> all() const;
    /// Those that are not used up or were so only since then; of the rejected ones those that still lie
    /// somewhere, or were rejected since.
    [[nodiscard]] std::vector<Lot> live(Instant since) const;
    [[nodiscard]] bool is_live(LotId id, Instant since) const;
    /// The newest of a mill's flour by their delivery, whatever became of them, the newest first.
    [[nodiscard]] std::vector<LotId> newest_of(MillId mill, FlourId flour, int count) const;
    /// Those of a mill that were delivered on these days, both included, whatever became of them.
    [[nodiscard]] std::vector<Lot> of_mill(MillId mill, Day from, Day until) const;
    /// The day on which the first flour of the book was milled, or came where nobody knows.
    [[nodiscard]] std::optional<Day> first_flour() const;
    /// The lots of this number, whatever its capitals, oldest first.
    [[nodiscard]] std::vector<LotId> of_code(std::string_view code) const;
    /// Lots whose number, or whose mill's name, has these words in it, whatever its capitals: first those
    /// that are neither used up nor rejected, of these the newest first, and not more than asked for.
    [[nodiscard]] std::vector<LotId> with(std::string_view words, int most) const;
    [[nodiscard]] std::optional<Lot> find(LotId id) const;
    [[nodiscard]] std::optional<Lot> find(MillId mill, std::string_view code) const;

    /// Adds the lot under a new number. Refused under "Lot number" when the mill has used the code before.
    Result<LotId> add(Change& change, const Lot& lot);
    /// Adds the lot and its receipt.
    Result<LotId> take_in(Change& change, const Delivered& delivered);
    /// The lots of one delivery, all or none; every refusal at once.
    Result<std::vector<LotId>> take_in(Change& change, std::span<const Delivered> delivery);

    /// Takes the lot as the book holds it now from its state to another by core's rules, by the person and at
    /// the instant of the change's line; the lot as it is then.
    Result<Lot> set_state(Change& change, LotId id, LotState to, std::string reason);
    /// Puts off the last day of the lot as the book holds it now, by core's rules and the person of the
    /// change's line; the lot as it is then.
    Result<Lot> extend(Change& change, LotId id, std::string_view until, std::string_view reason, Day today);
    /// What held before holds again: nothing is asked.
    void set_extension(Change& change, LotId id, const std::optional<BestBeforeExtension>& extension);

private:
    Connection& connection_;
};

} // namespace mellowbin
