#include "app/models/figure.h"

#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {

ShownFigure shown(const Figure& figure, const HouseUnits& house) {
    if (!figure.value)
        return {figure.words.empty() ? "–" : figure.words, figure.unit};
    const auto number = [&](double value) {
        return figure.decimals < 0 ? fmt::format("{:g}", value) : fixed(value, figure.decimals);
    };
    if (figure.unit == "kg")
        return {number(house.shown(Kilograms{*figure.value})), house.mass()};
    if (figure.unit == "°C")
        return {number(house.shown(Celsius{*figure.value})), house.temperature()};
    if (figure.unit == share_unit)
        return {fixed(100 * *figure.value, std::max(0, figure.decimals - 2)), "%"};
    return {number(*figure.value), figure.unit};
}

} // namespace mellowbin::app
