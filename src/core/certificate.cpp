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
    if (property == Property::protein)
        return std::optional{at_14_percent(ProteinAsIs{reported->value}, *stated_at).value() *
                             (wheat_nitrogen_factor / reported->nitrogen_factor)};
    return std::optional{reported->value * to_14_percent(*stated_at)};
}

std::optional<double> comparable_at_14(const Certificate& certificate, Property property) {
    const auto value = value_at_14(certificate, property);
    return value ? *value : std::nullopt;
}

std::optional<Protein14> protein_of(const Certificate& certificate) {
    const auto value = comparable_at_14(certificate, Property::protein);
    return value ? std::optional{Protein14{*value}} : std::nullopt;
}

std::optional<Absorption14> absorption_of(const Certificate& certificate) {
    const auto value = comparable_at_14(certificate, Property::absorption);
    return value ? std::optional{Absorption14{*value}} : std::nullopt;
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

} // namespace mellowbin
