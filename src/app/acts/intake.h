#pragma once

#include "app/acts/act.h"
#include "core/door.h"
#include "core/lot.h"

#include <string>
#include <vector>

/// A delivery comes in, or is taken back.
namespace mellowbin::app {

struct TakeIn {
    std::vector<LotDraft> lots;
    std::vector<DoorCheckDraft> door =
        {}; ///< of the delivery or of one lot: each lot keeps its own, and a "no" holds it
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
};
/// What a label of a delivery says of its lot; nothing is written to the book.
struct ReadLabel {
    /// A lot number that ends as a date element begins, with nothing behind it, is asked about first.
    enum class Reading {
        asked,
        whole,  ///< the lot number is as it was read
        parted, ///< a separator was lost: what looks like a date is one
    };
    std::string scan;
    Reading reading = Reading::asked;
};
/// The folders and certificate files in a folder; empty: the one looked into last, at first where the
/// program was started.
struct LookIntoFolder {
    std::string path;
};
/// The counter-entry of TakeIn: the receipts are taken back and the lots rejected as taken in by mistake.
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
