#pragma once

#include "core/quantity.h"
#include "core/result.h"

#include <optional>
#include <string>
#include <string_view>

namespace mellowbin {

/// By definition, since 1959.
inline constexpr double kilograms_per_pound = 0.45359237;

/// What people at the mixer read and type in; everything else is kg and degrees Celsius.
class HouseUnits {
public:
    /// "kg" or "lb"; "°C" or "°F". Anything else is taken for kg and °C.
    explicit HouseUnits(std::string_view mass = "kg", std::string_view temperature = "°C");

    [[nodiscard]] const std::string& mass() const { return mass_; }               ///< "kg", "lb"
    [[nodiscard]] const std::string& temperature() const { return temperature_; } ///< "°C", "°F"
    [[nodiscard]] double shown(Kilograms mass) const;
    [[nodiscard]] double shown(Celsius temperature) const;
    [[nodiscard]] double shown(CelsiusStep step) const;
    [[nodiscard]] std::string words(Kilograms mass, int decimals = 1) const;      ///< the figure alone
    [[nodiscard]] std::string words(Celsius temperature, int decimals = 1) const; ///< the figure alone
    [[nodiscard]] std::string with_unit(Kilograms mass, int decimals = 1) const;  ///< "52.1 kg"
    [[nodiscard]] std::string with_unit(Celsius temperature, int decimals = 1) const;
    [[nodiscard]] std::string with_unit(CelsiusStep step, int decimals = 1) const;

    /// What was typed, within limits given in kg and °C; nothing where it is empty. A refusal names the
    /// limits in the house's unit.
    [[nodiscard]] std::optional<Kilograms> read_mass(std::string_view field, std::string_view typed,
                                                     Kilograms low, Kilograms high, Refusals& refusals) const;
    [[nodiscard]] std::optional<Celsius> read_temperature(std::string_view field, std::string_view typed,
                                                          Celsius low, Celsius high,
                                                          Refusals& refusals) const;

private:
    std::string mass_;
    std::string temperature_;
    double per_kilogram_ = 1;
    bool is_fahrenheit_ = false;
};

} // namespace mellowbin
