#include "core/plant_mapping.h"

namespace mellowbin {
namespace {

using mapping::name_field;
using mapping::number;
using mapping::retired;
using mapping::word;
using mapping::words;
using mapping::words_of;

const auto flour_class_words =
    words_of(std::array{FlourClass::white, FlourClass::high_extraction, FlourClass::wholemeal});
const auto place_words =
    words_of(std::array{PlaceKind::bay, PlaceKind::rack, PlaceKind::tote, PlaceKind::silo});
const auto air_words =
    words_of(std::array{Air::breathable_bag, Air::moved_silo, Air::sealed_liner, Air::inert});

// A fraction in core, percent in a plant file.
std::optional<double> humidity_percent(const Place& place) {
    return place.humidity ? std::optional(100 * place.humidity->value()) : std::nullopt;
}
void put_humidity_percent(Place& place, const FieldValue& value) {
    place.humidity = value.is_given ? std::optional(RelativeHumidity{value.number / 100}) : std::nullopt;
}

const std::array mill_fields{
    words<&Mill::name>(name_field("As it stands on its delivery notes.")),
    retired<&Mill::is_retired>(),
};

const std::array flour_fields{
    words<&Flour::name>(name_field("As your people call it: \"Strong white\".")),
    word<&Flour::flour_class, flour_class_from_key>({.key = "class",
                                                     .label = "Kind of flour",
                                                     .is_required = true,
                                                     .what = "It sets how fast the flour matures.",
                                                     .words = flour_class_words}),
    retired<&Flour::is_retired>(),
};

const std::array place_fields{
    words<&Place::name>(name_field("As it is signed: \"Bay 1\".")),
    word<&Place::kind, place_kind_from_key>(
        {.key = "kind", .label = "What it is", .is_required = true, .words = place_words}),
    word<&Place::air, air_from_key>({.key = "air",
                                     .label = "How air gets to the flour",
                                     .is_required = true,
                                     .what = "Flour matures by the air that reaches it.",
                                     .words = air_words}),
    number<&Place::temperature>({.key = "temperature_c",
                                 .label = "Temperature",
                                 .head = "Climate",
                                 .unit = "°C",
                                 .low = -40,
                                 .high = 60,
                                 .otherwise = "20",
                                 .what = "Holds where no logger and no step says otherwise."}),
    MappedField<Place>{{.key = "humidity_percent",
                        .label = "Humidity of the air",
                        .head = "Climate",
                        .shape = FieldShape::number,
                        .unit = "%",
                        .low = 0,
                        .high = 100,
                        .what = "Where no logger says; empty: nobody knows it."},
                       humidity_percent,
                       nullptr,
                       put_humidity_percent},
    retired<&Place::is_retired>(),
};

const std::array line_fields{
    words<&Line::name>(name_field("As your people call it: \"Line 1\".")),
    number<&Line::friction_factor>({.key = "friction_factor_c",
                                    .label = "Friction factor",
                                    .head = "Mixer",
                                    .unit = "°C",
                                    .low = -20,
                                    .high = 120,
                                    .otherwise = "0",
                                    .what = "3 x dough - (room + flour + water), from a dough you mixed."}),
    number<&Line::mixing_energy_kj_per_kg>({.key = "mixing_energy_kj_per_kg",
                                            .label = "Heat of mixing",
                                            .head = "Mixer",
                                            .unit = "kJ/kg",
                                            .low = 0,
                                            .high = 100,
                                            .what = "Net, into the dough. Known: the heat balance is used."}),
    number<&Line::room>({.key = "room_c",
                         .label = "Room",
                         .head = "Water and ice",
                         .unit = "°C",
                         .low = -5,
                         .high = 50,
                         .otherwise = "22"}),
    number<&Line::tap_water>({.key = "tap_water_c",
                              .label = "Tap water",
                              .head = "Water and ice",
                              .unit = "°C",
                              .low = 0,
                              .high = 40,
                              .otherwise = "15"}),
    number<&Line::coldest_water>({.key = "coldest_water_c",
                                  .label = "Coldest water",
                                  .head = "Water and ice",
                                  .unit = "°C",
                                  .low = 0,
                                  .high = 40,
                                  .otherwise = "2",
                                  .what = "What the chiller can do; the tap's where there is none."}),
    number<&Line::most_ice>({.key = "most_ice_share",
                             .label = "Most ice",
                             .head = "Water and ice",
                             .unit = "% of the water",
                             .low = 0,
                             .high = 1,
                             .shown = 100,
                             .otherwise = "50"}),
    number<&Line::ice_temperature>({.key = "ice_c",
                                    .label = "Ice",
                                    .head = "Water and ice",
                                    .unit = "°C",
                                    .low = -30,
                                    .high = 0,
                                    .otherwise = "0",
                                    .what = "As it is poured."}),
    number<&Line::water_step_kg>({.key = "water_step_kg",
                                  .label = "Water is weighed to",
                                  .head = "Water and ice",
                                  .unit = "kg",
                                  .low = 0.01,
                                  .high = 10,
                                  .otherwise = "0.1"}),
    number<&Line::oxidant_scale_step_g>({.key = "oxidant_scale_step_g",
                                         .label = "Small scale reads to",
                                         .head = "Oxidant",
                                         .unit = "g",
                                         .low = 0.001,
                                         .high = 100,
                                         .otherwise = "0.1"}),
    number<&Line::oxidant_scale_error_g>({.key = "oxidant_scale_error_g",
                                          .label = "Error of the small scale",
                                          .head = "Oxidant",
                                          .unit = "g",
                                          .low = 0.001,
                                          .high = 100,
                                          .otherwise = "0.1"}),
    number<&Line::stock_solution_g_per_l>({.key = "stock_solution_g_per_l",
                                           .label = "Stock solution",
                                           .head = "Oxidant",
                                           .unit = "g/L",
                                           .low = 0,
                                           .high = 300,
                                           .otherwise = "0",
                                           .what = "0: the oxidant is weighed dry."}),
    retired<&Line::is_retired>(),
};

} // namespace

std::span<const MappedField<Mill>> mapped_fields(const Mill*) { return mill_fields; }
std::span<const MappedField<Flour>> mapped_fields(const Flour*) { return flour_fields; }
std::span<const MappedField<Place>> mapped_fields(const Place*) { return place_fields; }
std::span<const MappedField<Line>> mapped_fields(const Line*) { return line_fields; }

} // namespace mellowbin
