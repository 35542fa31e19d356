#pragma once

#include "core/concession.h"
#include "core/figure_draft.h"
#include "core/house_units.h"
#include "core/pallet.h"
#include "core/plant.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// The life of a lot. Only a released lot may go into dough.
enum class LotState { awaiting_judgement, held, released, rejected, used_up };
std::string_view key_of(LotState state);
std::string_view name_of(LotState state);
std::optional<LotState> lot_state_from_key(std::string_view key);

/// What was answered to a check at the door.
enum class DoorAnswer { not_looked_at, yes, no };
std::string_view key_of(DoorAnswer answer);
std::string_view name_of(DoorAnswer answer);
std::optional<DoorAnswer> door_answer_from_key(std::string_view key);

/// A check at the door, as it was answered for a lot.
struct DoorCheck {
    std::string question; ///< "Bags dry"
    DoorAnswer answer{};
    std::string note;
    int bags = 0; ///< that it is about; 0: all, or none said
    friend bool operator==(const DoorCheck&, const DoorCheck&) = default;
};

/// Quality's word that a lot may be used beyond the day its supplier printed.
struct BestBeforeExtension {
    Day until; ///< the last day
    std::string reason;
    std::string by;
    friend bool operator==(const BestBeforeExtension&, const BestBeforeExtension&) = default;
};

/// Flour of one milling that came under one supplier lot number.
struct Lot {
    LotId id;
    std::string code; ///< the supplier's lot number; one mill does not use one twice
    MillId mill;
    FlourId flour;
    std::optional<Day> milled_on;
    Day delivered_on;
    std::optional<Day> best_before; ///< as the supplier printed it
    std::optional<BestBeforeExtension> extension;
    std::optional<Day> certified_on; ///< the certificate's own date
    std::string delivery_note;
    std::optional<Celsius> delivered_at; ///< temperature of the flour as it came
    Grams received;
    Grams bag;                              ///< one bag; 0 when it came loose
    std::int64_t price_per_tonne_minor = 0; ///< in the plant's currency, minor units; 0 when not known
    Certificate certificate;
    std::vector<MillAddition> mill_additions;
    LotState state = LotState::awaiting_judgement;
    std::string state_reason;
    std::string state_by; ///< who changed it last
    Instant state_at;
    PlaceId received_into;
    std::vector<DoorCheck> door;          ///< in the order they were asked
    std::optional<Concession> concession; ///< that it was released under, as quality judged it last

    friend bool operator==(const Lot&, const Lot&) = default;
};

/// The last day on which the lot may be used: as quality extended it, else as its supplier printed it.
std::optional<Day> last_day(const Lot& lot);

/// What the mill added, as typed.
struct AdditionDraft {
    std::string substance; ///< key or name
    std::string ppm;       ///< mg/kg of flour
};

/// A lot as typed at the dock or read from a file: all text, so that nothing typed is ever lost or bent.
struct LotDraft {
    std::string code;
    std::string mill;
    std::string flour;
    std::string delivery_note;
    std::string milled_on;
    std::string delivered_on;
    std::string best_before;
    std::string mass_kg;
    std::string bag_kg;
    std::string price_per_tonne;
    std::string place;
    std::vector<FigureDraft> figures;
    std::string mill_oxidant; ///< key or name of a substance; empty for none
    std::string mill_oxidant_ppm;
    std::vector<AdditionDraft> further_additions; ///< where the mill used more than one substance
    std::string certified_on;                     ///< the certificate's own date
    std::string delivered_c;   ///< temperature of the flour as it came, in the house's unit or with its own
    std::string accept_reason; ///< why it is taken in all the same, where something stands against it
    std::string
        certificate_source;        ///< that it came with: see core/certificate_source.h; empty: none was read
    std::string certificate_place; ///< of the lot in it: "line 7", "B4"
    std::vector<PalletDraft> pallets; ///< that it came on, as far as they were scanned

    /// The figure's draft, made if it is not there yet.
    FigureDraft& figure(Property property);
};

/// What a draft is checked against.
struct IntakeContext {
    Day today;
    std::span<const Mill> mills;
    std::span<const Flour> flours;
    std::span<const Place> places;
    HouseUnits units = HouseUnits();
    Celsius warm_from{30}; ///< flour so warm asks for a word: common practice, no source
};

/// Reads the draft's numbers and days, checks them, and gives every reason at once when it cannot be taken
/// in. An empty figure is missing, not zero. A milling date after the delivery, a delivery after today, a
/// percentage without its basis are refused, and so is a property or a substance that stands twice. An
/// unknown milling date is allowed: the aging estimate widens. An empty delivery date is today. What a person
/// must decide (see what_stands_against()) is refused as long as nobody says why it is taken in all the same.
Result<Lot> accept(const LotDraft& draft, const IntakeContext& context);

/// Whether quality staff may take a lot from one state to another.
bool may_become(LotState from, LotState to);

/// The lot in its new state, or why not: a hold and a rejection need a reason, and so does the release of a
/// lot that was held. A hold and a rejection end its concession.
Result<Lot> with_state(Lot lot, LotState to, std::string reason, std::string who, Instant at);

/// The lot with another last day, or every reason why not: it has no day printed, the day typed is not after
/// the one printed or is over, nobody says why.
Result<Lot> with_extension(Lot lot, std::string_view until, std::string_view reason, std::string who,
                           Day today);

} // namespace mellowbin
