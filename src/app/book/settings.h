#pragma once

#include "core/house_units.h"
#include "core/property.h"
#include "core/result.h"
#include "db/settings_store.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace mellowbin::app {

enum class SettingKind {
    words,
    number,
    choice,
    lines, ///< of text, each its own; empty: as they are otherwise
};

/// A choice a plant can make, with the value it has until the plant makes it.
struct SettingTraits {
    std::string_view key;
    std::string_view label;     ///< as the screen and refusals name it
    std::string_view otherwise; ///< empty of a number: none is said
    std::string_view unit;
    SettingKind kind;
    double low, high;              ///< of a number
    std::string_view what;         ///< what it does, and where its first value comes from
    std::string_view options = {}; ///< of a choice, parted by "|"
};

std::span<const SettingTraits> setting_table();
const SettingTraits* setting_traits(std::string_view key);

/// The text as it may be stored, or why not.
Result<std::string> accept_setting(const SettingTraits& setting, std::string_view typed);

/// The plant's choices, over the values they have otherwise.
class Choices {
public:
    explicit Choices(std::span<const Setting> stored) : stored_(stored) {}
    [[nodiscard]] std::string words(std::string_view key) const;
    [[nodiscard]] double number(std::string_view key) const;
    [[nodiscard]] std::optional<double> number_if_any(std::string_view key) const;
    [[nodiscard]] std::vector<std::string> lines(std::string_view key) const;
    /// Of a choice between no and yes.
    [[nodiscard]] bool is_yes(std::string_view key) const { return words(key) == "yes"; }

private:
    std::span<const Setting> stored_;
};

/// What the keys begin with of the choices that say the laboratory's own error of one test; behind it stands
/// the property's key.
inline constexpr std::string_view test_error_key_begins = "test_error_";
std::string test_error_key(std::string_view property_key);
/// Those that the plant gave: coefficient of variation, or points, as the property's published error is.
std::vector<std::pair<Property, double>> own_test_errors(std::span<const Setting> stored);

/// What people at the mixer read and type in.
HouseUnits house_units(std::span<const Setting> stored);

} // namespace mellowbin::app
