#pragma once

#include "app/models/certificate.h"
#include "app/models/own_tests.h"
#include "core/begun_delivery.h"
#include "core/lot.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::app {

/// What a lot is checked against while it is typed.
struct IntakeRecords {
    std::vector<Mill> mills;
    std::vector<Flour> flours;
    std::vector<Place> places;
    HouseUnits units = HouseUnits();
    Celsius warm_from{30};
    [[nodiscard]] IntakeContext context(Day today) const {
        return {today, mills, flours, places, units, warm_from};
    }
};

/// A folder of this machine, to choose a certificate file from.
struct FolderList {
    struct Entry {
        std::string name;
        bool is_folder = false;
    };
    std::string path;           ///< empty: none was looked into yet
    std::vector<Entry> entries; ///< folders first; of the files those that may be certificates
    std::string trouble;        ///< why it cannot be read
};

/// Whether a label's lot number is all of it, or a separator was lost on the way.
struct LabelDoubt {
    std::string scan;      ///< empty: there is none
    std::string as_read;   ///< "Lot FL-240917A15270531"
    std::string otherwise; ///< "Lot FL-240917A, best before 2027-05-31"
};

/// What the last label scanned says beside its lot.
struct LabelOfPallet {
    std::string sscc;         ///< of the pallet; empty: no such number was read
    std::string gtin;         ///< of the item, or of what the pallet holds
    std::string order;        ///< the plant's purchase order
    std::string from;         ///< GLN of whom it was bought from
    std::string net_words;    ///< "25.000 kg": of one item where there is a count
    std::optional<int> count; ///< of items
};

/// A scan that is of no form of GS1: a lot number, where a person says so.
struct PlainScan {
    std::string text;         ///< empty: there is none
    std::uint64_t number = 0; ///< counts them
};

/// A delivery half logged that was put aside.
struct BegunRow {
    BegunId id;
    std::int64_t hold = 0; ///< the newest
    std::string words;     ///< "Begun by Jonas, 04:12: 3 lots of Harrow Mill"
    std::string holder;    ///< "Ines has it since 04:20, at Office"; empty: it waits
};

/// One that was taken over at this station, with all that was typed of it.
struct TakenOver {
    std::uint64_t count = 0; ///< counts how often one was
    BegunHold hold;
    KeptText text;
};

struct IntakeModel {
    std::vector<std::string> mills, flours, places;
    IntakeRecords records;
    std::uint64_t made = 0;              ///< counts how often the lists were made anew
    std::vector<std::string> substances; ///< names of what a mill may have added
    std::vector<Property> figures;       ///< those the form asks for first
    std::vector<std::string> bases;      ///< words of the bases to choose from
    std::vector<std::string> door_questions;
    std::string temperature_unit;        ///< the house's: "°C"
    std::vector<LotDraft> read_drafts;   ///< of the last certificate file read, until taken over by the view
    std::vector<std::string> file_notes; ///< what the file says that was not understood
    Refusals file_refusals;              ///< of lines that were left out, each with its line
    std::uint64_t reading = 0;           ///< counts files read
    CertificateModel certificate;        ///< that is looked at before it is kept
    FolderList folder;                   ///< looked into last
    LotDraft label;                      ///< of the last label scanned: what it says of a lot
    std::uint64_t labels = 0;            ///< counts labels read
    LabelOfPallet pallet;                ///< of the same
    PlainScan plain;                     ///< scanned last, and not answered
    LabelDoubt doubt;                    ///< of the last label scanned
    bool has_test_plan = false;          ///< whether a lot is to be tested can be asked for
    OwnTestAdvice own_test;              ///< of the lot asked about last
    std::vector<ExpectedDelivery> expected; ///< to come, in the order they were ordered
    int match_days = 7;                     ///< within how many days of its own one is offered
    double weight_tolerance = 0.5;          ///< %
    std::vector<BegunRow> begun;            ///< put aside, the oldest first
    TakenOver taken_over;
    std::uint64_t put_aside =
        0;              ///< counts deliveries put aside here: the view empties its form when it changes
    DeliveryId came;    ///< what was taken in last is of this delivery
    double came_kg = 0; ///< what of that is in the book
    std::uint64_t taken_in = 0; ///< counts accepted TakeIn intents: the view empties its form when it changes
};

struct Station;

/// Why the lot number cannot stand in a GS1 label, for beside its field; empty: it can, or it is empty.
std::string label_note(std::string_view lot_number);
/// Names of the bases that a figure may be stated at.
std::vector<std::string> basis_choices();
/// What may be chosen from; what was read from files stays.
void make_intake(const Station& station, IntakeModel& model);
/// The deliveries that are to come, and those that are begun.
void show_deliveries(const Station& station, IntakeModel& model);

} // namespace mellowbin::app
