#pragma once

#include "app/acts/act.h"
#include "core/begun_delivery.h"
#include "core/delivery.h"
#include "core/door.h"
#include "core/lot.h"

#include <map>
#include <string>
#include <vector>

/// A delivery comes in, or is taken back.
namespace mellowbin::app {

/// The delivery that lots are taken in of, as a whole.
struct OfDelivery {
    DeliveryDraft said = {};
    DeliveryId joins =
        {}; ///< lots of it came in before; not known: that of the same mill, note and day, or a new one
    Rest rest = Rest::none; ///< lots of it stay, to be taken in later
    BegunHold begun = {};   ///< that was taken over: it comes in with this, unless lots of it stay
};
/// By the number of their lot.
using PalletsOfLots = std::map<std::string, std::vector<PalletDraft>>;

struct TakeIn {
    std::vector<LotDraft> lots;
    std::vector<DoorCheckDraft> door =
        {}; ///< of the delivery or of one lot: each lot keeps its own, and a "no" holds it
    OfDelivery delivery = {};
    PalletsOfLots pallets = {}; ///< said beside the lots, which may have their own
};
/// Reads a certificate file of any kind; nothing is written to the book. A CSV file with our own heads gives
/// drafts on the Intake screen at once; another is read on a worker, and looked at before it is kept
/// (acts/certificates.h).
struct ReadCertificateFile {
    std::string path;
    LotDraft defaults; ///< mill, flour, place, delivered on: for what the file does not say
};
enum class FaultyLines { take_nothing, leave_out };
/// Takes in the lots of a CSV file with our own heads at once.
struct TakeInFile {
    std::string path;
    LotDraft defaults; ///< as above, and why they are taken in where something stands against them
    FaultyLines faulty_lines = FaultyLines::take_nothing;
    std::vector<DoorCheckDraft> door = {}; ///< as above
    OfDelivery delivery = {};
    PalletsOfLots pallets = {};
};
/// What a label of a delivery says of its lot; nothing is written to the book.
struct ReadLabel {
    /// A lot number that ends as a date element begins, with nothing behind it, is asked about first.
    enum class Reading {
        asked,
        whole,  ///< the lot number is as it was read
        parted, ///< a separator was lost: what looks like a date is one
    };
    /// What is of no form of GS1 is a lot number where a person says so.
    enum class Plain { asked_about, is_lot_number };
    std::string scan;
    Reading reading = Reading::asked;
    Plain plain = Plain::is_lot_number;
};
/// The folders and certificate files in a folder; empty: the one looked into last, at first where the
/// program was started.
struct LookIntoFolder {
    std::string path;
};
/// The counter-entry of TakeIn: the receipts are taken back and the lots rejected as taken in by mistake.
/// Their pallets may come again, and a delivery that was expected is expected again.
struct WithdrawLots {
    std::vector<LotId> lots;
};

Result<Told> carry_out(State& state, const TakeIn& act);
Result<Told> carry_out(State& state, const ReadCertificateFile& act);
Result<Told> carry_out(State& state, const TakeInFile& act);
Result<Told> carry_out(State& state, const ReadLabel& act);
Result<Told> carry_out(State& state, const LookIntoFolder& act);
Result<Told> carry_out(State& state, const WithdrawLots& act);

} // namespace mellowbin::app
