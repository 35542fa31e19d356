#include "core/property.h"
#include "dough/keeping.h"
#include "dough/law.h"
#include "dough/limits.h"
#include "dough/oxidant.h"
#include "dough/temperature.h"
#include "dough/water.h"
#include "dough/weigh.h"
#include "published/published.h"
#include "support/iso.h"

#include <cmath>
#include <stdexcept>
#include <vector>

namespace mellowbin::published {
namespace {

using namespace mellowbin::dough;

constexpr OxidantPpm wide_room{1e6};

/// "tap" in C, or "tap_f" in F.
Celsius point(const Row& row, const std::string& key) {
    return Celsius{row.has(key) ? row.number(key) : (row.number(key + "_f") - 32) / 1.8};
}

CelsiusStep step(const Row& row, const std::string& key) {
    return CelsiusStep{row.has(key) ? row.number(key) : row.number(key + "_f") / 1.8};
}

Substance substance(const Row& row, const std::string& key) {
    if (const auto found = substance_from_key(row.text(key)))
        return *found;
    throw std::runtime_error(row.id + ": no such substance: " + row.text(key));
}

Sale sale(const Row& row) {
    const auto food = row.has("food") ? food_class_from_key(row.text("food")) : FoodClass::bread;
    if (!food)
        throw std::runtime_error(row.id + ": no such food");
    return {row.text("market"), *food, day_from_iso(row.has("day") ? row.text("day") : "2026-11-25")};
}

std::string words_of(Permission permission) {
    switch (permission) {
    case Permission::permitted:
        return "permitted";
    case Permission::needs_house_maximum:
        return "needs a house maximum";
    case Permission::unconfirmed:
        return "unconfirmed";
    case Permission::forbidden:
        return "forbidden";
    }
    return {};
}

DoughHeat heat_of(const Row& row) {
    return {row.has("dough") ? point(row, "dough") : Celsius{26},
            Kilograms{row.number("water")},
            {flour_part(Kilograms{row.number_or("flour", 100)}, Celsius{row.number_or("flour_t", 24)})},
            row.number_or("mixing", 0)};
}

MouldLine line_of(const Row& row) { return row.text("line") == "21" ? MouldLine::at_21 : MouldLine::at_27; }

const Registered by_factors{
    "water by factors", [](const Row& row) -> Answer {
        std::vector<Celsius> others{point(row, "room"), point(row, "flour")};
        if (row.has("preferment_f"))
            others.push_back(point(row, "preferment"));
        return water_by_factors(point(row, "dough"), others, step(row, "friction")).value();
    }};

const Registered friction{
    "friction factor", [](const Row& row) -> Answer {
        const std::vector<Celsius> all{point(row, "room"), point(row, "flour"), point(row, "water")};
        return friction_factor(point(row, "dough"), all).value();
    }};

const Registered by_heat{"water by heat balance", [](const Row& row) -> Answer {
                             return water_by_heat_balance(heat_of(row)).value();
                         }};

const Registered ice{"ice", [](const Row& row) -> Answer {
                         const auto tap = point(row, "tap");
                         return chill(point(row, "needed"), Kilograms{row.number("water")},
                                      {tap, tap, 1, Celsius{0}}, heat_of(row))
                             .ice.value();
                     }};

const Registered capped{"too warm for the cap on ice", [](const Row& row) -> Answer {
                            const auto tap = point(row, "tap");
                            const double cap = row.number("allowed") / row.number("water");
                            return chill(point(row, "needed"), Kilograms{row.number("water")},
                                         {tap, tap, cap, Celsius{0}}, heat_of(row))
                                .too_warm.value();
                        }};

const Registered water{
    "dough water", [](const Row& row) -> Answer {
        Certificate flour;
        flour.set({Property::moisture, row.number("moisture"), Basis::as_is(), "", 5.7});
        flour.set({Property::absorption, row.number("absorption"), Basis::at(Moisture{14}), "", 5.7});
        const std::vector<WaterLot> lots{{"the lot", &flour, Kilograms{100}}};
        return dough_water(lots, AbsorptionPoints{0}, AbsorptionPoints{0}, 0.1)->exact.value();
    }};

const Registered verdict{
    "oxidant verdict", [](const Row& row) -> Answer {
        std::vector<MillAddition> mill;
        if (row.has("mill"))
            mill.push_back({substance(row, "mill"), OxidantPpm{row.number("mill_ppm")}});
        const MillAddition dose{substance(row, "add"), OxidantPpm{row.number("add_ppm")}};
        return words_of(
            judge_dose({shipped_limits(), markets()}, sale(row), dose, mill, OxidantPpm{1000}).permission);
    }};

const Registered limit{"oxidant limit", [](const Row& row) -> Answer {
                           const auto room = room_for({shipped_limits(), markets()}, sale(row),
                                                      substance(row, "substance"), {}, OxidantPpm{0});
                           return room.by_law ? room.by_law->value() : std::nan("");
                       }};

const Registered salts{
    "cysteine as hydrochloride", [](const Row& row) -> Answer {
        const auto hydrate = row.text("hydrate") == "anhydrous" ? Hydrate::anhydrous : Hydrate::monohydrate;
        return cysteine_as_hydrochloride(OxidantPpm{row.number("cysteine")}, hydrate).value();
    }};

const Registered grams{"dose in grams", [](const Row& row) -> Answer {
                           return weigh(OxidantPpm{row.number("ppm")}, Kilograms{row.number("flour")},
                                        row.number_or("purity", 1), {0.001, 0.001}, wide_room)
                               .exact_g;
                       }};

const Registered millilitres{"stock solution in millilitres", [](const Row& row) -> Answer {
                                 return pour(OxidantPpm{row.number("ppm")}, Kilograms{row.number("flour")},
                                             row.number("solution"), wide_room)
                                     .rounded.value();
                             }};

const Registered smallest{"smallest weighable", [](const Row& row) -> Answer {
                              return smallest_weighable_g({row.number("error"), row.number("error")});
                          }};

const Registered missing{
    "ascorbic acid for missing maturity", [](const Row& row) -> Answer {
        const Maturity today{1 - std::exp(-0.30 * row.number("day"))};
        std::optional<double> glutathione;
        if (row.has("glutathione"))
            glutathione = row.number("glutathione");
        const FlourForOxidant flour{{}, {}, ascorbic_acid_for_all_aging(glutathione)};
        return oxidant_for(Substance::ascorbic_acid, today, Maturity{1}, flour)->dose.value();
    }};

const Registered sulfhydryl{
    "dose for all sulfhydryl", [](const Row& row) -> Answer {
        const std::vector<MillAddition> one{{substance(row, "substance"), OxidantPpm{1}}};
        return 1 / effect_of(Maturity{0}, one, Protein14{row.number("protein")}).sh_share;
    }};

const Registered undissociated{"undissociated propionic acid", [](const Row& row) -> Answer {
                                   return 100 * *undissociated_share(row.number("ph"));
                               }};

const Registered in_bread{
    "propionate in bread", [](const Row& row) -> Answer {
        const auto salt = row.text("salt") == "calcium" ? PropionateSalt::calcium : PropionateSalt::sodium;
        const auto content = *propionate_in_bread(salt, row.number("percent"), row.number("yield"));
        return row.text("as") == "acid" ? content.as_acid : content.as_salt;
    }};

const Registered other_ph{"dose at another pH", [](const Row& row) -> Answer {
                              return *dose_at_other_ph(1, row.number("from"), row.number("to"));
                          }};

const Registered mould{"mould-free days", [](const Row& row) -> Answer {
                           return *mould_free_days(line_of(row), row.number("erh"));
                       }};

const Registered mould_refused{"mould-free days refused", [](const Row& row) -> Answer {
                                   return std::string{
                                       mould_free_days(line_of(row), row.number("erh")) ? "days" : "refused"};
                               }};

} // namespace
} // namespace mellowbin::published
