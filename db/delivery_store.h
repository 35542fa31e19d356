#pragma once

#include "core/delivery.h"
#include "db/change.h"

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace mellowbin {

/// A lot of a delivery, as far as that needs it.
struct LotThatCame {
    LotId lot;
    std::string code;
    FlourId flour;
    Grams received;
    friend bool operator==(const LotThatCame&, const LotThatCame&) = default;
};

/// A pallet that came, with what it came as.
struct PalletThatCame {
    DeliveryId delivery;
    LotId lot;
    std::string lot_code, mill, note;
    Day delivered_on;
    std::optional<Grams> mass;
    friend bool operator==(const PalletThatCame&, const PalletThatCame&) = default;
};

/// "1061 4141 … came before: on 2026-11-24 with lot W24-118 of Harrow Mill, note 4711"
std::string came_before_in_words(std::string_view sscc, const PalletThatCame& known);

/// Which deliveries are asked for, the newest first, a page at a time.
struct DeliveryQuery {
    std::optional<MillId> mill;
    int from = 0; ///< passed over
    int count = 50;
};

/// Deliveries as they came, with their lots and pallets.
class DeliveryStore {
public:
    explicit DeliveryStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] std::optional<DeliveryRecord> find(DeliveryId id) const;
    /// That the lot came with; nothing of one that was withdrawn, or came before deliveries were kept.
    [[nodiscard]] std::optional<DeliveryId> of_lot(LotId lot) const;
    /// The newest of this mill that came on that day under this delivery note and has a lot that stands; none
    /// without a note.
    [[nodiscard]] std::optional<DeliveryId> of_note(MillId mill, std::string_view note, Day day) const;
    /// By their day, the newest first; those of which every lot was withdrawn are none.
    [[nodiscard]] std::vector<DeliveryRecord> newest(const DeliveryQuery& query) const;
    /// Its lots that stand, in the order they were taken in.
    [[nodiscard]] std::vector<LotThatCame> lots_of(DeliveryId id) const;
    /// Where a pallet came; one that is free again, or never came, is none.
    [[nodiscard]] std::optional<PalletThatCame> pallet(std::string_view sscc) const;
    [[nodiscard]] std::vector<Pallet> pallets_of(LotId lot) const;

    /// Adds the delivery under a new number, with its lots and pallets. Refused under "Pallet": one that came
    /// before.
    Result<DeliveryId> add(Change& change, const DeliveryRecord& record);
    /// More of it came in: its lots and pallets join those that are there; of what is said of the whole, what
    /// the record says holds from now on, and what it leaves out stays. Refused as add() does.
    Result<DeliveryId> join(Change& change, DeliveryId id, const DeliveryRecord& more);
    /// The lot was taken in by mistake: it is no lot of its delivery any more, and its pallets are free.
    /// Which delivery that was.
    std::optional<DeliveryId> withdraw(Change& change, LotId lot);

private:
    Connection& connection_;
};

} // namespace mellowbin
