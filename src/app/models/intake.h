#pragma once

#include "core/lot.h"

#include <cstdint>
#include <string>
#include <vector>

namespace mellowbin::app {

struct IntakeModel {
    std::vector<std::string> mills, flours, places;
    std::vector<std::string> substances; ///< names of what a mill may have added
    std::vector<Property> figures;       ///< those the form asks for first
    std::vector<std::string> bases;      ///< words of the bases to choose from
    std::vector<std::string> door_questions;
    std::string temperature_unit;        ///< the house's: "°C"
    std::vector<LotDraft> read_drafts;   ///< of the last certificate file read, until taken over by the view
    std::vector<std::string> file_notes; ///< what the file says that was not understood
    Refusals file_refusals;              ///< of lines that were left out, each with its line
    std::uint64_t reading = 0;           ///< counts files read
    std::uint64_t taken_in = 0; ///< counts accepted TakeIn intents: the view empties its form when it changes
};

struct Station;

/// Names of the bases that a figure may be stated at.
std::vector<std::string> basis_choices();
/// What may be chosen from; what was read from files stays.
void make_intake(const Station& station, IntakeModel& model);

} // namespace mellowbin::app
