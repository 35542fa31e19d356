#pragma once

#include "app/acts/read_scan.h"
#include "support/screen.h"
#include "ui/views/whole_window.h"

#include <string>
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

/// The application read the label that was scanned or typed: this is its lot.
inline void answer_label(WholeWindow& window, const std::string& code) {
    window.intake.label = {};
    window.intake.label.code = code;
    ++window.intake.labels;
    window.screen.settle();
}

/// A lot number typed into the scan field, and read.
inline void enter_lot(WholeWindow& window, const std::string& code) {
    window.screen.type("Scan or lot number", code);
    window.screen.press(ui::Key::enter);
    const auto& act = window.last<app::ReadScan>();
    if (act.scan != code || act.at != app::ReadScan::At::intake ||
        act.plain != app::ReadLabel::Plain::is_lot_number)
        throw std::runtime_error("the number that was typed is not read as one");
    answer_label(window, code);
}

} // namespace mellowbin::test
