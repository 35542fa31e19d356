#pragma once

#include "app/models/own_tests.h"
#include "core/lot.h"

#include <cstdint>
#include <string>
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
    FolderList folder;                   ///< looked into last
    LotDraft label;                      ///< of the last label scanned: what it says of a lot
    std::uint64_t labels = 0;            ///< counts labels read
    std::string separator;               ///< that the plant's scanners send in a label; empty: the usual one
    LabelDoubt doubt;                    ///< of the last label scanned
    bool has_test_plan = false;          ///< whether a lot is to be tested can be asked for
    OwnTestAdvice own_test;              ///< of the lot asked about last
    std::uint64_t taken_in = 0; ///< counts accepted TakeIn intents: the view empties its form when it changes
};

struct Station;

/// Names of the bases that a figure may be stated at.
std::vector<std::string> basis_choices();
/// What may be chosen from; what was read from files stays.
void make_intake(const Station& station, IntakeModel& model);

} // namespace mellowbin::app
