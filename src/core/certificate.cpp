#include "core/certificate.h"

#include "core/decimal.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin {
namespace {

/// "14 % moisture", "14%", "14 % mb" -> the number in front.
std::optional<double> leading_percent(std::string text) {
    for (const std::string_view tail : {"moisture", "mb", "%"}) {
        if (text.size() > tail.size() && text.ends_with(tail)) {
            text.resize(text.size() - tail.size());
            text.resize(text.find_last_not_of(" \t") + 1);
        }
    }
    auto read = read_decimal("", text);
    return read ? *read : std::nullopt;
}

} // namespace

std::optional<Moisture> Basis::moisture(std::optional<Moisture> of_the_flour) const {
    if (kind_ == Kind::at_moisture)
        return Moisture{moisture_};
    if (kind_ == Kind::as_is)
        return of_the_flour;
    return {};
}

std::string in_words(Basis basis) {
    if (!basis.is_stated())
        return "";
    if (basis.is_as_is())
        return "as is";
    if (basis == Basis::dry_matter())
        return "dry matter";
    return fmt::format("{} % moisture", basis.moisture({})->value());
}

Result<Basis> read_basis(std::string_view field, std::string_view text) {
    const std::string words = lower_case(trimmed(text));
    if (words.empty())
        return Basis{};
    if (words == "as is")
        return Basis::as_is();
    if (words == "dry matter" || words == "dm")
        return Basis::dry_matter();
    const auto percent = leading_percent(words);
    if (percent && *percent >= 0 && *percent <= 30)
        return Basis::at(Moisture{*percent});
    return Refusal{
        std::string(field),
        fmt::format("the basis \"{}\" was read; \"as is\", \"dry matter\" or \"14 % moisture\" is expected",
                    excerpt(trimmed(text))),
        "See on the certificate which moisture the figure is stated at"};
}

void Certificate::set(CertificateValue value) {
    const auto at = std::lower_bound(values_.begin(), values_.end(), value.property,
                                     [](const auto& v, Property p) { return v.property < p; });
    if (at != values_.end() && at->property == value.property)
        *at = std::move(value);
    else
        values_.insert(at, std::move(value));
}

const CertificateValue* Certificate::find(Property property) const {
    const auto at =
        std::find_if(values_.begin(), values_.end(), [&](const auto& v) { return v.property == property; });
    return at == values_.end() ? nullptr : &*at;
}

std::optional<Moisture> Certificate::moisture() const {
    const auto* value = find(Property::moisture);
    if (!value)
        return {};
    return Moisture{value->value};
}

Result<std::optional<double>> value_at_14(const Certificate& certificate, Property property) {
    const auto* reported = certificate.find(property);
    if (!reported)
        return std::optional<double>{};
    const auto& kind = traits(property);
    if (!kind.has_basis)
        return std::optional{reported->value};

    if (!reported->basis.is_stated()) {
        return Refusal{std::string(kind.name),
                       fmt::format("{} {} stands without a moisture basis",
                                   fixed(reported->value, kind.decimals), kind.unit),
                       "Say whether it is as is, at 14 % moisture or on dry matter"};
    }
    const auto stated_at = reported->basis.moisture(certificate.moisture());
    if (!stated_at) {
        return Refusal{std::string(kind.name), "is stated as is, and the flour's moisture is not known",
                       "Enter the moisture"};
    }
    if (property == Property::absorption)
        return std::optional{at_14_percent(AbsorptionAsIs{reported->value}, *stated_at).value()};
    double value = reported->value * (86.0 / (100.0 - stated_at->value())); // at 14 %: the same number
    if (property == Property::protein)
        value *= wheat_nitrogen_factor / reported->nitrogen_factor;
    return std::optional{value};
}

std::optional<double> comparable_at_14(const Certificate& certificate, Property property) {
    const auto value = value_at_14(certificate, property);
    return value ? *value : std::nullopt;
}

Certificate at_moisture(const Certificate& certificate, Moisture now) {
    Certificate restated;
    for (auto value : certificate.values()) {
        if (value.property == Property::moisture) {
            value.value = now.value();
        } else if (value.basis.is_as_is()) {
            if (const auto at_14 = comparable_at_14(certificate, value.property)) {
                value.value = *at_14;
                value.basis = Basis::at(Moisture{14});
                value.nitrogen_factor = wheat_nitrogen_factor;
            }
        }
        restated.set(value);
    }
    return restated;
}

double farinograph_sample_grams(FarinographBowl bowl, Moisture moisture) {
    const double at_14 = bowl == FarinographBowl::grams_300 ? 300.0 : 50.0;
    return at_14 * 86.0 / (100.0 - moisture.value());
}

Result<Absorption14> farinograph_absorption(FarinographBowl bowl, Moisture moisture, Millilitres water,
                                            double maximum_fu) {
    if (maximum_fu < 480 || maximum_fu > 520) {
        return Refusal{"Maximum", fmt::format("{:g} FU was read; from 480 to 520 FU is expected", maximum_fu),
                       "Titrate again, nearer to 500 FU"};
    }
    const bool large = bowl == FarinographBowl::grams_300;
    const double corrected = water.value() + (large ? 0.096 : 0.016) * (maximum_fu - 500);
    const double over = corrected + farinograph_sample_grams(bowl, moisture) - (large ? 300 : 50);
    return Absorption14{large ? over / 3 : over * 2};
}

bool meets_white_flour_ash_rule(double protein_at_14, double ash_at_14) {
    const double to_dry = 100.0 / 86.0;
    return ash_at_14 * to_dry <= protein_at_14 * to_dry / 20 + 0.35;
}

} // namespace mellowbin
