#pragma once

#include "core/property.h"
#include "core/quantity.h"
#include "core/result.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// The moisture basis a percentage is stated on. A figure that has_basis without one cannot be compared.
class Basis {
public:
    constexpr Basis() = default; ///< none stated
    static constexpr Basis as_is() { return Basis{Kind::as_is, 0}; }
    static constexpr Basis dry_matter() { return Basis{Kind::at_moisture, 0}; }
    static constexpr Basis at(Moisture m) { return Basis{Kind::at_moisture, m.value()}; }

    [[nodiscard]] constexpr bool is_stated() const { return kind_ != Kind::none; }
    [[nodiscard]] constexpr bool is_as_is() const { return kind_ == Kind::as_is; }
    /// The moisture the figure is stated at, given the flour's own; nothing where it is needed and not known.
    [[nodiscard]] std::optional<Moisture> moisture(std::optional<Moisture> of_the_flour) const;

    friend constexpr bool operator==(Basis, Basis) = default;

private:
    enum class Kind { none, as_is, at_moisture };
    constexpr Basis(Kind kind, double moisture) : kind_(kind), moisture_(moisture) {}
    Kind kind_ = Kind::none;
    double moisture_ = 0;
};

/// "as is", "dry matter", "14 % moisture"; the empty text for none. The two functions are inverse.
std::string in_words(Basis basis);
/// Reads "as is", "dry matter" or "dm", "14 %", "14 % moisture", "13.5 % mb"; empty is "none stated"; else
/// refused.
Result<Basis> read_basis(std::string_view field, std::string_view text);

/// Protein is nitrogen times a factor: 5.7 for wheat flour (USDA CID A-A-20126F footnote 8), 6.25 on
/// nutrition labels.
inline constexpr double wheat_nitrogen_factor = 5.7;

/// One result of a laboratory, as it was reported.
struct CertificateValue {
    Property property{};
    double value = 0; ///< in the unit of traits(property)
    Basis basis;
    std::string method;                             ///< "ISO 712-1"; empty where the sheet does not say
    double nitrogen_factor = wheat_nitrogen_factor; ///< of protein only

    friend bool operator==(const CertificateValue&, const CertificateValue&) = default;
};

/// What the mill (or the plant's own laboratory) says of a lot: at most one result a property.
class Certificate {
public:
    void set(CertificateValue value);
    [[nodiscard]] const CertificateValue* find(Property property) const;
    [[nodiscard]] const std::vector<CertificateValue>& values() const { return values_; }
    /// The flour's moisture as it lies there, % as is.
    [[nodiscard]] std::optional<Moisture> moisture() const;

    friend bool operator==(const Certificate&, const Certificate&) = default;

private:
    std::vector<CertificateValue> values_; // in the order of Property
};

/// The result restated at 14 % moisture (and N x 5.7 for protein); unchanged where a basis means nothing.
/// Refused where no basis is stated, or it is as is and the moisture is not known. Nothing where it was not
/// measured. Percentages of flour go by (100-b)/(100-a); absorption by the balance of water on dry flour.
Result<std::optional<double>> value_at_14(const Certificate& certificate, Property property);

/// The same for a use that only asks "is there a comparable figure": a refusal counts as none.
std::optional<double> comparable_at_14(const Certificate& certificate, Property property);
/// Protein (N x 5.7) and absorption with their basis in the type, for what reckons with them.
std::optional<Protein14> protein_of(const Certificate& certificate);
std::optional<Absorption14> absorption_of(const Certificate& certificate);

/// The results of flour that has dried or drawn moisture since they were made: what is stated as is goes over
/// to 14 %, by the moisture of then; the moisture is the new one.
Certificate at_moisture(const Certificate& certificate, Moisture now);

/// The highest moisture of white flour by Codex Standard 152-1985 and by 21 CFR 137.105.
inline constexpr Moisture codex_highest_moisture{15.5};
inline constexpr Moisture us_highest_moisture{15.0};

} // namespace mellowbin
