#pragma once

#include "core/day.h"
#include "core/decimal.h"
#include "core/draft_reader.h"
#include "core/quantity.h"
#include "core/result.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

/// Fields that people type, read against the book.
namespace mellowbin::app {

/// The record of this name; else, or where it is retired, a refusal under `field` that lists the names there
/// are, and null.
template <class Record>
const Record* named(const std::vector<Record>& records, std::string_view field, const std::string& name,
                    Refusals& refusals) {
    const auto at =
        std::find_if(records.begin(), records.end(), [&](const Record& r) { return r.name == name; });
    const bool is_there = at != records.end();
    if (is_there && !at->is_retired)
        return &*at;
    std::string names;
    for (const auto& r : records)
        if (!r.is_retired)
            names += (names.empty() ? "" : ", ") + r.name;
    refusals.push_back(
        {std::string(field),
         name.empty() ? "is empty" : fmt::format("\"{}\" is {}", name, is_there ? "retired" : "not known"),
         "Choose one of: " + names});
    return nullptr;
}

/// Of the records that may be chosen.
template <class Record> std::vector<std::string> names_in_use(const std::vector<Record>& records) {
    std::vector<std::string> names;
    for (const auto& record : records)
        if (!record.is_retired)
            names.push_back(record.name);
    return names;
}

/// The day as typed; nothing, and a refusal, where it is empty or no day.
std::optional<Day> read_given_day(std::string_view field, const std::string& text, Refusals& refusals);
/// A whole number from 1 to `most`; nothing, and a refusal, where it is none.
std::optional<int> read_count(std::string_view field, const std::string& text, int most, Refusals& refusals);
/// Above nothing, up to what one record may hold; nothing, and a refusal, where it is not.
std::optional<Grams> read_mass(const std::string& text, Refusals& refusals);
/// "1200 kg", "0.5 kg": no more decimals than there is to say.
std::string kg_words(Grams mass);

/// The day as typed, or today where it is empty; a day to come is refused.
Day read_past_day(DraftReader& reader, std::string_view field, const std::string& text, Day today);
/// For an act that needs to say why.
Refusal no_reason();

} // namespace mellowbin::app
