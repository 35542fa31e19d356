#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace mellowbin {

/// One value of an enumeration with the key the book stores and the name people read. A table of them stands
/// in the order of the enumeration.
template <class Enum> struct Named {
    Enum value;
    std::string_view key;
    std::string_view name;
};

template <class Enum, std::size_t N>
constexpr const Named<Enum>& row_of(const std::array<Named<Enum>, N>& table, Enum value) {
    return table[static_cast<std::size_t>(value)];
}

template <class Enum, std::size_t N>
std::optional<Enum> from_key(const std::array<Named<Enum>, N>& table, std::string_view key) {
    for (const auto& row : table)
        if (row.key == key)
            return row.value;
    return {};
}

} // namespace mellowbin
