#pragma once

#include "core/day.h"
#include "core/decimal.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace mellowbin {

/// Reads the fields of a draft one after the other and collects every reason against it; gives back a
/// stand-in where a field is refused.
class DraftReader {
public:
    std::optional<double> number(std::string_view field, std::string_view text, Bounds bounds) {
        return keep(read_decimal_within(field, text, bounds));
    }
    double required_number(std::string_view field, std::string_view text, Bounds bounds) {
        auto read = read_required_decimal(field, text, bounds);
        if (read)
            return *read;
        append(refusals, read.refusals());
        return 0;
    }
    std::optional<Day> day(std::string_view field, std::string_view text) {
        return keep(read_day(field, text));
    }

    /// The number of the record that bears the name typed, and is not retired.
    template <class Record>
    auto known(std::string_view field, std::string_view typed, std::span<const Record> records) {
        const std::string_view name = trimmed(typed);
        const auto record =
            std::find_if(records.begin(), records.end(), [&](const Record& r) { return r.name == name; });
        const bool is_there = record != records.end();
        if (is_there && !record->is_retired)
            return record->id;
        std::string names;
        for (const auto& r : records)
            if (!r.is_retired)
                names += (names.empty() ? "" : ", ") + r.name;
        const auto read = fmt::format("\"{}\" is {}", excerpt(name), is_there ? "retired" : "not known");
        refuse(field, name.empty() ? "is empty" : read,
               names.empty() ? "The book has none yet: add it first" : "Choose one of: " + names);
        return decltype(record->id){};
    }
    void refuse(std::string_view field, std::string what, std::string remedy) {
        refusals.push_back({std::string(field), std::move(what), std::move(remedy)});
    }

    Refusals refusals;

private:
    template <class T> std::optional<T> keep(Result<std::optional<T>> read) {
        if (read)
            return *read;
        append(refusals, read.refusals());
        return {};
    }
};

} // namespace mellowbin
