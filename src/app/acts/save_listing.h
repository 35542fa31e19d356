#pragma once

#include "app/acts/act.h"

#include <functional>
#include <stop_token>
#include <string>

/// A list of the program as a file for spreadsheets.
namespace mellowbin::app {

/// Saves the list of this name (models/listings.h); changes no book. A file of the name is written over.
struct SaveListing {
    std::string name;                  ///< "movements"
    std::string file = {};             ///< ends with .csv or .xlsx; empty: a spreadsheet beside the book
    std::string from = {}, until = {}; ///< days as typed; empty: the list's own span
    std::string mill = {};             ///< its name
    std::string words = {};            ///< of past lots
    std::string at = {};               ///< of stock: an instant as typed; empty: now
    std::function<void(double share)> share_done = {};
    std::stop_token stop = {};
};

Result<Told> carry_out(State& state, const SaveListing& act);

/// Saves what became of flour in the span as an EPCIS document (models/supply_events.h); changes no book.
struct SaveSupplyEvents {
    std::string file;                  ///< ends with .jsonld or .json
    std::string from = {}, until = {}; ///< days as typed; empty: the last four weeks
};

Result<Told> carry_out(State& state, const SaveSupplyEvents& act);

} // namespace mellowbin::app
