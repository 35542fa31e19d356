#include "app/models/intake.h"

#include "app/book/station.h"

namespace mellowbin::app {

std::vector<std::string> basis_choices() { return {"as is", "14 % moisture", "dry matter"}; }

void make_intake(const Station& s, IntakeModel& model) {
    const auto names = [](const auto& records) {
        std::vector<std::string> list;
        for (const auto& r : records)
            list.push_back(r.name);
        return list;
    };
    model.mills = names(s.book.mills);
    model.flours = names(s.book.flours);
    model.places = names(s.book.places);
    model.substances.clear();
    for (const Substance substance : all_substances())
        model.substances.emplace_back(name_of(substance));
    model.figures = {Property::moisture, Property::protein, Property::absorption, Property::falling_number,
                     Property::ash};
    model.bases = basis_choices();
    model.door_checks = {"Seal whole, or bags closed", "Bags dry and not torn",
                         "No insects, no foreign smell", "Flour not warm (below 30 °C)",
                         "Weight and lot number as on the note"};
}

} // namespace mellowbin::app
