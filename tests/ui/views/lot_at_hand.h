#pragma once

#include "support/iso.h"
#include "ui/widgets/ui.h"

#include <string>
#include <vector>

namespace mellowbin::test {

inline const Day monday = day_from_iso("2024-11-25");

/// A small form as screens write them.
struct LotForm {
    std::string code, moisture, remarks, milled_on;
    bool seal_whole = false;
    int kind = -1;
    Refusals refusals;
    int saved = 0, rejected = 0;
    std::string blocked;

    void draw() {
        static const std::vector<std::string> kinds{"White", "Wholemeal", "Rye", "Spelt", "Semolina"};
        ui::form("Lot at hand", [&] {
            ui::text_field({.label = "Lot code", .refusals = &refusals}, code);
            ui::number_field({.label = "Moisture", .unit = "% as is", .refusals = &refusals}, moisture);
            ui::date_field({.label = "Milled on"}, milled_on, monday);
            ui::choice({.label = "Kind"}, kinds, kind);
            ui::tick("Seal whole", seal_whole);
            ui::text_field({.label = "Remarks"}, remarks);
            if (ui::button("Save lot", {.kind = ui::ButtonKind::primary, .blocked = blocked}))
                ++saved;
            if (ui::button("Reject lot", {.kind = ui::ButtonKind::stop}))
                ++rejected;
        });
    }
};

} // namespace mellowbin::test
