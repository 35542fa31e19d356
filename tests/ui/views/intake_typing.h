#pragma once

#include "support/screen.h"

#include <string_view>

namespace mellowbin::test {

/// What a lot cannot do without; its own figures are left empty.
inline void type_whole_lot(testing::Screen& screen, std::string_view code) {
    const auto choose = [&](std::string_view field, std::string_view word) {
        screen.click(field);
        screen.click(word);
    };
    screen.type("Lot number", code);
    choose("Mill", "Harrow Mill");
    choose("1/Flour/Flour", "Strong white"); // not the head of the list
    choose("Place", "Bay 1");
    screen.type("Weight", "1 000");
}

} // namespace mellowbin::test
