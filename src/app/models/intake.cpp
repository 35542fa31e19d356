#include "app/models/intake.h"

#include "app/book/door.h"
#include "app/book/fields.h"
#include "app/book/scanner.h"
#include "app/book/settings.h"
#include "app/book/station.h"
#include "db/begun_store.h"
#include "db/delivery_store.h"

#include <fmt/format.h>

namespace mellowbin::app {

std::string label_note(std::string_view lot_number) {
    const auto why = lot_number.empty() ? std::nullopt : exchange::why_not_on_label(lot_number);
    return why ? "cannot stand in a GS1 label: " + *why : std::string();
}

namespace {

BegunRow row_of(const Station& s, const BegunDelivery& begun) {
    const auto time = [&](Instant at) { return s.setup.clock.in_words(at, s.today()); };
    BegunRow row{begun.id, begun.hold,
                 fmt::format("Begun by {}, {}: {}", begun.who, time(begun.at), begun.how_far), ""};
    if (begun.holder)
        row.holder = fmt::format("{} has it since {}{}", begun.holder->who, time(begun.holder->since),
                                 begun.holder->station.empty() ? "" : ", at " + begun.holder->station);
    return row;
}

} // namespace

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
    model.has_test_plan = own_testing(s.book.settings).plan != TestingPlan::none;
    model.temperature_unit = house_units(s.book.settings).temperature();
    model.match_days = match_days(s.book);
    model.weight_tolerance = delivery_tolerance(s.book);
}

void show_deliveries(const Station& s, IntakeModel& model) {
    model.expected.clear();
    for (const auto& one : s.book.expected)
        if (!one.has_come)
            model.expected.push_back(one);
    model.came_kg = 0;
    for (const auto& lot : DeliveryStore(*s.connection).lots_of(model.came))
        model.came_kg += to_kilograms(lot.received).value();
    model.begun.clear();
    for (const auto& begun : BegunStore(*s.connection).open())
        model.begun.push_back(row_of(s, begun));
}

} // namespace mellowbin::app
