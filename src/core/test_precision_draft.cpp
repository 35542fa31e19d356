#include "core/draft_reader.h"
#include "core/test_precision.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <cmath>

namespace mellowbin {
namespace {

std::optional<Property> property_called(std::string_view typed) {
    if (const auto property = property_from_key(trimmed(typed)))
        return property;
    for (const auto& kind : all_properties())
        if (same_words(kind.name, trimmed(typed)))
            return kind.property;
    return {};
}

int read_replicates(std::string_view field, const std::string& typed, DraftReader& reader) {
    constexpr double most = 20;
    const auto number = reader.number(field, typed, {1, most, "determinations"});
    if (number && std::floor(*number) != *number) {
        reader.refuse(field, fmt::format("\"{}\" was read; a whole number is expected", excerpt(typed)),
                      "Enter how many determinations a result is the mean of");
        return 1;
    }
    return static_cast<int>(number.value_or(1));
}

std::optional<double> read_limit(std::string_view field, const std::string& typed, DraftReader& reader) {
    return reader.number(field, typed, {0.0001, 1000, ""});
}

std::string typed(const std::optional<double>& number) { return number ? as_typed(*number) : std::string(); }

} // namespace

Result<TestPrecision> accept(const TestPrecisionDraft& draft) {
    DraftReader reader;
    TestPrecision row;
    if (const auto property = property_called(draft.property))
        row.property = *property;
    else
        reader.refuse("Property",
                      trimmed(draft.property).empty()
                          ? std::string("is empty")
                          : fmt::format("\"{}\" is not known", excerpt(trimmed(draft.property))),
                      "Choose what the laboratory measures");
    row.methods = methods_in(draft.method);
    const auto given = precision_given_from_key(trimmed(draft.given));
    if (given && given != PrecisionGiven::does_not_repeat)
        row.given = *given;
    else if (!trimmed(draft.given).empty())
        reader.refuse("Given as",
                      fmt::format("\"{}\" was read; absolute or relative is expected", excerpt(draft.given)),
                      "Say absolute for the property's unit, relative for % of the mean");
    row.r = read_limit("r", draft.r, reader);
    row.R = read_limit("R", draft.R, reader);
    if (trimmed(draft.R).empty())
        reader.refuse("R", "is empty; the reproducibility limit is expected",
                      "Enter it as the method's standard prints it");
    if (row.r && row.R && *row.r > *row.R)
        reader.refuse("r", fmt::format("{:g} was read, which is above R, {:g}", *row.r, *row.R),
                      "Check both: one laboratory repeats itself better than two agree");
    row.low = reader.number("From", draft.low, {0, 10'000, ""});
    row.high = reader.number("To", draft.high, {0, 10'000, ""});
    if (row.low && row.high && *row.low > *row.high)
        reader.refuse("To", fmt::format("{:g} was read, which is below {:g}", *row.high, *row.low),
                      "Exchange the two, or correct one");
    row.mill_replicates = read_replicates("Determinations, mill", draft.mill_replicates, reader);
    row.own_replicates = read_replicates("Determinations, ours", draft.own_replicates, reader);
    row.source = trimmed(draft.source);
    if (row.source.empty())
        reader.refuse("Source", "is empty", "Name the standard with its clause, or the ring test");
    if (!reader.refusals.empty())
        return reader.refusals;
    return row;
}

TestPrecisionDraft draft_of(const TestPrecision& row) {
    return {std::string(traits(row.property).key),
            in_one(row.methods),
            typed(row.r),
            typed(row.R),
            row.given == PrecisionGiven::relative ? "relative" : "absolute",
            typed(row.low),
            typed(row.high),
            row.mill_replicates == 1 ? "" : std::to_string(row.mill_replicates),
            row.own_replicates == 1 ? "" : std::to_string(row.own_replicates),
            row.source};
}

} // namespace mellowbin
