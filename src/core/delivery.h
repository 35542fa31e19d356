#pragma once

#include "core/house_units.h"
#include "core/lot.h"
#include "core/pallet.h"
#include "core/plant.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// What came together: the lots and pallets of one mill under one delivery note on one day.
struct DeliveryRecord {
    DeliveryId id;
    MillId mill;
    std::string note;  ///< number of the delivery note; may be empty
    std::string order; ///< number of the order it came for; may be empty
    Day delivered_on;
    std::optional<ExpectedId> expected; ///< the expected delivery that it answers
    std::optional<Grams> on_note;       ///< weight that the note says
    std::optional<Grams> weighed;       ///< on the plant's own scale or bridge
    std::string weight_reason; ///< why it was taken in although the weights differ; empty: they do not
    std::string remark;
    std::string who;
    Instant at;
    std::vector<LotId> lots;     ///< in the order they were taken in; those that were withdrawn are none
    std::vector<Pallet> pallets; ///< in the order they were logged; without those that are free again

    friend bool operator==(const DeliveryRecord&, const DeliveryRecord&) = default;
};

/// What is said of a delivery as a whole beside mill, note and day, which its lots say.
struct DeliveryDraft {
    std::string order;
    std::string expected; ///< code of the expected delivery it answers: "E-3"; empty: none
    std::string on_note;  ///< in the house's unit, or with its own
    std::string weighed;  ///< in the house's unit, or with its own
    std::string remark;
    std::string weight_reason;
    friend bool operator==(const DeliveryDraft&, const DeliveryDraft&) = default;
};
/// Nothing is said.
bool is_empty(const DeliveryDraft& draft);

// Its fields, as they are refused.
inline constexpr std::string_view on_note_field = "Weight on the note";
inline constexpr std::string_view weighed_field = "Weighed";
inline constexpr std::string_view order_field = "Order number";
inline constexpr std::string_view expected_field = "Expected delivery";
inline constexpr std::string_view weight_reason_field = "Why weights differ";

/// Whether lots of the delivery are still to be taken in.
enum class Rest { none, follows };

/// What the weights of a delivery are held against each other by.
struct DeliveryWeights {
    Grams of_lots;
    std::optional<Grams> on_note, weighed;
    std::optional<Grams> expected; ///< as it was ordered
    Grams of_expected_flour;       ///< of the lots, those of the flour that was expected
    Rest rest = Rest::none;        ///< as long as more follows nothing is said of too little
};

/// A weight beside the one it should be.
struct WeightBeside {
    std::string_view field; ///< that it is said at
    Grams is, said;
    std::string words; ///< "11 900 kg of lots, 12 000 kg on the note: 0.8 % less"
    bool is_outside = false;
};
/// The lots against the note, what was weighed against the note (against the lots where the note says none),
/// the lots against what was expected; in the house's unit. Outside is what differs by more than the
/// tolerance, in percent of what was said; just as much is inside.
std::vector<WeightBeside> compare_weights(const DeliveryWeights& weights, double tolerance_percent,
                                          const HouseUnits& units);
/// Of those the ones outside, each at its field.
Refusals what_weights_say(const DeliveryWeights& weights, double tolerance_percent, const HouseUnits& units);

/// An order's number: one line that fits on a label, else a refusal.
std::string read_order(std::string_view typed, Refusals& refusals);
/// "12 000 kg", "26 455.5 lb": in the house's unit, thousands apart, with a decimal where there is one.
std::string weight_words(Grams mass, const HouseUnits& units);
/// A weight in the house's unit, or with its own behind it: "26 455 lb". Nothing where it is empty.
std::optional<Grams> read_house_weight(std::string_view field, std::string_view typed,
                                       const HouseUnits& units, Refusals& refusals);

/// What a delivery's draft is checked against.
struct DeliveryContext {
    HouseUnits units = HouseUnits();
    double tolerance_percent = 0.5; ///< common practice, no source
    DeliveryWeights weights;        ///< but those that the draft says
};
/// The record's own words and weights, without mill, note, day and lots. Refused as long as nobody says why:
/// weights that what_weights_say() tells. Every reason at once.
Result<DeliveryRecord> accept(const DeliveryDraft& draft, const DeliveryContext& context);

/// Days in words beside another: "on the day", "2 days late", "1 day early".
std::string days_beside(Day came, Day expected);

/// Those that a delivery may be: to come, of this mill, of this flour where one is known, not more than so
/// many days from the day; the nearest day first, with equal ones the one that was ordered first.
std::vector<const ExpectedDelivery*> candidates(std::span<const ExpectedDelivery> expected, MillId mill,
                                                std::optional<FlourId> flour, Day day, int days);
/// The one that is to come with exactly this order number, of this mill where one is known; null: none, or
/// several.
const ExpectedDelivery* of_order(std::span<const ExpectedDelivery> expected, std::string_view order,
                                 std::optional<MillId> mill);

} // namespace mellowbin
