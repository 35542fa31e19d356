#include "core/mill_word.h"

#include "core/names.h"

#include <tuple>

namespace mellowbin {
namespace {

constexpr std::array<Named<MillWordKind>, 6> kinds{{
    {MillWordKind::label, "label", "Label"},
    {MillWordKind::mill, "mill", "Mill"},
    {MillWordKind::flour, "flour", "Flour"},
    {MillWordKind::place, "place", "Place"},
    {MillWordKind::dates, "dates", "Days"},
    {MillWordKind::decimals, "decimals", "Decimals"},
}};

} // namespace

std::string_view key_of(MillWordKind kind) { return row_of(kinds, kind).key; }
std::optional<MillWordKind> mill_word_kind_from_key(std::string_view key) { return from_key(kinds, key); }

bool is_same_word(const MillWord& one, const MillWord& other) {
    return std::tie(one.mill, one.kind, one.word) == std::tie(other.mill, other.kind, other.word);
}

bool means_same(const MillWord& one, const MillWord& other) {
    return is_same_word(one, other) &&
           std::tie(one.means, one.unit, one.basis, one.method, one.nitrogen_factor) ==
               std::tie(other.means, other.unit, other.basis, other.method, other.nitrogen_factor);
}

} // namespace mellowbin
