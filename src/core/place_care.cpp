#include "core/place_care.h"

#include <array>

namespace mellowbin {
namespace {

constexpr std::array<std::string_view, 3> kinds{"emptied", "cleaned", "sanitised"};

} // namespace

std::string_view key_of(CareKind kind) { return kinds[static_cast<std::size_t>(kind)]; }

std::optional<CareKind> care_kind_from_key(std::string_view key) {
    for (std::size_t i = 0; i < kinds.size(); ++i)
        if (kinds[i] == key)
            return static_cast<CareKind>(i);
    return {};
}

} // namespace mellowbin
