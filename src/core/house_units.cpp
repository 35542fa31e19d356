#include "core/house_units.h"

#include "core/decimal.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

constexpr double degrees_per_kelvin = 1.8;

} // namespace

HouseUnits::HouseUnits(std::string_view mass, std::string_view temperature)
    : mass_(mass == "lb" ? "lb" : "kg"), temperature_(temperature == "°F" ? "°F" : "°C"),
      per_kilogram_(mass == "lb" ? 1 / kilograms_per_pound : 1), is_fahrenheit_(temperature == "°F") {}

double HouseUnits::shown(Kilograms mass) const { return mass.value() * per_kilogram_; }

double HouseUnits::shown(Celsius temperature) const {
    return is_fahrenheit_ ? temperature.value() * degrees_per_kelvin + 32 : temperature.value();
}

double HouseUnits::shown(CelsiusStep step) const {
    return is_fahrenheit_ ? step.value() * degrees_per_kelvin : step.value();
}

std::string HouseUnits::words(Kilograms mass, int decimals) const { return fixed(shown(mass), decimals); }

std::string HouseUnits::words(Celsius temperature, int decimals) const {
    return fixed(shown(temperature), decimals);
}

std::string HouseUnits::with_unit(Kilograms mass, int decimals) const {
    return words(mass, decimals) + " " + mass_;
}

std::string HouseUnits::with_unit(Celsius temperature, int decimals) const {
    return words(temperature, decimals) + " " + temperature_;
}

std::string HouseUnits::with_unit(CelsiusStep step, int decimals) const {
    return fixed(shown(step), decimals) + " " + temperature_;
}

std::optional<Kilograms> HouseUnits::read_mass(std::string_view field, std::string_view typed, Kilograms low,
                                               Kilograms high, Refusals& refusals) const {
    const auto read = read_decimal_within(field, typed, {shown(low), shown(high), mass_.c_str()});
    if (!read) {
        append(refusals, read.refusals());
        return {};
    }
    return *read ? std::optional{Kilograms{**read / per_kilogram_}} : std::nullopt;
}

std::optional<Celsius> HouseUnits::read_temperature(std::string_view field, std::string_view typed,
                                                    Celsius low, Celsius high, Refusals& refusals) const {
    const auto read = read_decimal_within(field, typed, {shown(low), shown(high), temperature_.c_str()});
    if (!read) {
        append(refusals, read.refusals());
        return {};
    }
    if (!*read)
        return {};
    return Celsius{is_fahrenheit_ ? (**read - 32) / degrees_per_kelvin : **read};
}

} // namespace mellowbin
