#include "core/drill.h"

#include <array>

namespace mellowbin {
namespace {

constexpr std::array<std::string_view, 4> keys{"lot", "product", "run", "customer"};

} // namespace

std::string_view key_of(TraceOf of) { return keys[static_cast<std::size_t>(of)]; }

std::optional<TraceOf> trace_of_from_key(std::string_view key) {
    for (std::size_t i = 0; i < keys.size(); ++i)
        if (keys[i] == key)
            return static_cast<TraceOf>(i);
    return {};
}

Listing as_text(const Listing& listing) {
    Listing text = listing;
    for (std::size_t i = 0; i < text.columns.size(); ++i)
        text.columns[i] = {head_of(listing.columns[i]), "", Listing::Holds::text, 0};
    for (auto& row : text.rows)
        for (std::size_t i = 0; i < row.size(); ++i)
            row[i] = in_words(listing.columns[i], row[i]);
    return text;
}

} // namespace mellowbin
