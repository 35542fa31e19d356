#include "core/listing.h"

#include "core/decimal.h"

namespace mellowbin {
namespace {

struct InWords {
    const Listing::Column& column;

    std::string operator()(std::monostate) const { return {}; }
    std::string operator()(const std::string& text) const { return text; }
    std::string operator()(double number) const { return fixed(number, column.decimals); }
    std::string operator()(Day day) const { return iso(day); }
    std::string operator()(Instant instant) const { return iso(instant); }
};

} // namespace

std::string head_of(const Listing::Column& column) {
    return column.unit.empty() ? column.head : column.head + " " + column.unit;
}

std::string in_words(const Listing::Column& column, const Listing::Cell& cell) {
    return std::visit(InWords{column}, cell);
}

} // namespace mellowbin
