#pragma once

#include "app/acts/state.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

/// What acts on runs and supplies have in common: reading their fields, and what runs have of lots.
namespace mellowbin::app {

/// The record of this name; else a refusal under `field` that lists the names there are, and null.
template <class Record>
const Record* named(const std::vector<Record>& records, std::string_view field, const std::string& name,
                    Refusals& refusals) {
    const auto at =
        std::find_if(records.begin(), records.end(), [&](const Record& r) { return r.name == name; });
    if (at != records.end())
        return &*at;
    std::string names;
    for (const auto& r : records)
        names += (names.empty() ? "" : ", ") + r.name;
    refusals.push_back({std::string(field),
                        name.empty() ? "is empty" : fmt::format("\"{}\" is not known", name),
                        "Choose one of: " + names});
    return nullptr;
}

/// The day as typed; nothing, and a refusal, where it is empty or no day.
std::optional<Day> read_given_day(std::string_view field, const std::string& text, Refusals& refusals);
/// A whole number from 1 to `most`; nothing, and a refusal, where it is none.
std::optional<int> read_count(std::string_view field, const std::string& text, int most, Refusals& refusals);
/// Above nothing, up to what one record may hold; nothing, and a refusal, where it is not.
std::optional<Grams> read_mass(const std::string& text, Refusals& refusals);
/// "1200 kg", "0.5 kg": no more decimals than there is to say.
std::string kg_words(Grams mass);

/// All that these runs have, as RestoreAssignments puts it back.
RestoreAssignments as_they_stand(const Book& book, std::vector<RunId> runs);
/// The acts that put back what stood before. Locked assignments stand against being put back, so those of
/// the lot that the change was about are unlocked first, and locked again where they were.
Intents putting_back(RestoreAssignments before, const std::vector<Assignment>& after, LotId lot);
/// Flour of the lot that lies there and that no run has and nobody kept back.
Grams free_of(const Book& book, LotId lot);

} // namespace mellowbin::app
