#include "app/models/intake.h"

#include "app/book/door.h"
#include "app/book/fields.h"
#include "app/book/scanner.h"
#include "app/book/settings.h"
#include "app/book/station.h"

namespace mellowbin::app {

std::vector<std::string> basis_choices() { return {"as is", "14 % moisture", "dry matter"}; }

void make_intake(const Station& s, IntakeModel& model) {
    model.mills = names_in_use(s.book.mills);
    model.flours = names_in_use(s.book.flours);
    model.places = names_in_use(s.book.places);
    const auto context = intake_context(s.book, s.today());
    model.records = {s.book.mills, s.book.flours, s.book.places, context.units, context.warm_from};
    ++model.made;
    model.substances.clear();
    for (const Substance substance : all_substances())
        model.substances.emplace_back(name_of(substance));
    model.figures = {Property::moisture, Property::protein, Property::absorption, Property::falling_number,
                     Property::ash};
    model.bases = basis_choices();
    model.door_questions = door_questions(s.book);
    model.separator = scanner_setup(s.book.settings).separator;
    model.has_test_plan = own_testing(s.book.settings).plan != TestingPlan::none;
    model.temperature_unit = house_units(s.book.settings).temperature();
}

} // namespace mellowbin::app
