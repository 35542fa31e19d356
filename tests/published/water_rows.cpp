#include "dough/mixing_belief.h"
#include "published/published.h"

namespace mellowbin::published {
namespace {

using namespace mellowbin::dough;

constexpr double kg_per_lb = 0.45359237;
constexpr double kj_per_btu = 1.05505585;
constexpr double kj_per_wh = 3.6;

DoughHeat dough_of(double flour, double water) {
    return {Celsius{26}, Kilograms{water}, {flour_part(Kilograms{flour}, Celsius{24})}, 0};
}

const Registered colder_ice{"ice below freezing", [](const Row& row) -> Answer {
                                const Celsius tap{row.number("tap")};
                                const double water = row.number("water");
                                return chill(Celsius{row.number("needed")}, Kilograms{water},
                                             {tap, tap, 1, Celsius{row.number("ice_t")}},
                                             dough_of(100, water))
                                    .ice.value();
                            }};

/// Read off a tonne of water at 0 C, of which so much is ice.
const Registered melting{"heat that ice takes up", [](const Row& row) -> Answer {
                             const Kilograms ice{row.number("ice_lb") * kg_per_lb};
                             const auto as_water = as_one_water(Celsius{0}, Kilograms{1000}, ice, Celsius{0});
                             return -as_water.value() * 1000 * 4.186 / kj_per_btu;
                         }};

/// How much warmer a dough is that was mixed with so much energy, by the energy that is read back from it.
const Registered rise{"rise by mixing", [](const Row& row) -> Answer {
                          auto dough = dough_of(row.number("flour"), row.number("water"));
                          const auto heat_at = [&dough](double degrees) {
                              dough.dough = Celsius{degrees};
                              return mixing_heat_of({dough, Celsius{20}, Kilograms{0}});
                          };
                          return row.number("wh_per_kg") * kj_per_wh / (heat_at(27) - heat_at(26));
                      }};

} // namespace
} // namespace mellowbin::published
