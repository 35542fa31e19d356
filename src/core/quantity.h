#pragma once

#include <cmath>
#include <compare>
#include <cstdint>

namespace mellowbin {

/// A number whose type carries its unit and basis. Every tag says whether quantities of its kind may be added
/// (a mass adds, a temperature on a scale does not); every other operation is written out below by hand,
/// because it is a statement about flour.
template <class Tag> class Quantity {
public:
    constexpr Quantity() = default;
    explicit constexpr Quantity(double value) : value_(value) {}
    [[nodiscard]] constexpr double value() const { return value_; }

    friend constexpr auto operator<=>(Quantity, Quantity) = default;

private:
    double value_ = 0;
};

template <class Tag>
concept Adds = Tag::adds;

template <Adds Tag> constexpr Quantity<Tag> operator+(Quantity<Tag> a, Quantity<Tag> b) {
    return Quantity<Tag>{a.value() + b.value()};
}
template <Adds Tag> constexpr Quantity<Tag> operator-(Quantity<Tag> a, Quantity<Tag> b) {
    return Quantity<Tag>{a.value() - b.value()};
}
template <Adds Tag> constexpr Quantity<Tag> operator*(Quantity<Tag> a, double factor) {
    return Quantity<Tag>{a.value() * factor};
}
template <Adds Tag> constexpr Quantity<Tag> operator*(double factor, Quantity<Tag> a) { return a * factor; }
template <Adds Tag> constexpr Quantity<Tag> operator/(Quantity<Tag> a, double divisor) {
    return Quantity<Tag>{a.value() / divisor};
}
/// The share one amount is of another of the same kind.
template <Adds Tag> constexpr double operator/(Quantity<Tag> a, Quantity<Tag> b) {
    return a.value() / b.value();
}
template <Adds Tag> constexpr Quantity<Tag>& operator+=(Quantity<Tag>& a, Quantity<Tag> b) {
    return a = a + b;
}

struct KilogramsTag {
    static constexpr bool adds = true;
};
struct MillilitresTag {
    static constexpr bool adds = true;
};
struct MoistureTag {
    static constexpr bool adds = false;
};
struct ProteinAsIsTag {
    static constexpr bool adds = false;
};
struct Protein14Tag {
    static constexpr bool adds = false;
};
struct Absorption14Tag {
    static constexpr bool adds = false;
};
struct AbsorptionAsIsTag {
    static constexpr bool adds = false;
};
struct AbsorptionPointsTag {
    static constexpr bool adds = true;
};
struct OxidantPpmTag {
    static constexpr bool adds = true;
};
struct CelsiusTag {
    static constexpr bool adds = false;
};
struct CelsiusStepTag {
    static constexpr bool adds = true;
};
struct MaturityTag {
    static constexpr bool adds = false;
};
struct FallingNumberTag {
    static constexpr bool adds = false;
};
struct LiquefactionTag {
    static constexpr bool adds = false;
};
struct RelativeHumidityTag {
    static constexpr bool adds = false;
};

using Kilograms = Quantity<KilogramsTag>;
using Millilitres = Quantity<MillilitresTag>;
/// Water in the flour, % of the flour as it lies there. 0 to below 100; what people type is read within the
/// bounds of traits(Property::moisture).
using Moisture = Quantity<MoistureTag>;
using ProteinAsIs = Quantity<ProteinAsIsTag>;           ///< % of flour as is
using Protein14 = Quantity<Protein14Tag>;               ///< % of flour at 14 % moisture
using Absorption14 = Quantity<Absorption14Tag>;         ///< % added water on flour at 14 % moisture
using AbsorptionAsIs = Quantity<AbsorptionAsIsTag>;     ///< % added water on flour as is
using AbsorptionPoints = Quantity<AbsorptionPointsTag>; ///< a difference between two absorptions at 14 %
using OxidantPpm = Quantity<OxidantPpmTag>;       ///< mg per kg of flour; ppm of one and the same substance
using Celsius = Quantity<CelsiusTag>;             ///< a point on the scale: no sum, no factor
using CelsiusStep = Quantity<CelsiusStepTag>;     ///< a difference of temperatures, K
using Maturity = Quantity<MaturityTag>;           ///< fraction 0..1 of the natural strengthening gone through
using FallingNumber = Quantity<FallingNumberTag>; ///< s
using Liquefaction = Quantity<LiquefactionTag>;   ///< 6000/(FN-50); blends by mass
/// Of the air, or in equilibrium with the flour (its water activity): 0 to 1.
using RelativeHumidity = Quantity<RelativeHumidityTag>;

/// Mass in the book: whole grams, so that movements add up exactly.
class Grams {
public:
    constexpr Grams() = default;
    explicit constexpr Grams(std::int64_t grams) : grams_(grams) {}
    [[nodiscard]] constexpr std::int64_t count() const { return grams_; }
    friend constexpr auto operator<=>(Grams, Grams) = default;
    friend constexpr Grams operator+(Grams a, Grams b) { return Grams{a.grams_ + b.grams_}; }
    friend constexpr Grams operator-(Grams a, Grams b) { return Grams{a.grams_ - b.grams_}; }
    friend constexpr Grams operator-(Grams a) { return Grams{-a.grams_}; }
    constexpr Grams& operator+=(Grams more) {
        grams_ += more.grams_;
        return *this;
    }

private:
    std::int64_t grams_ = 0;
};

constexpr Kilograms to_kilograms(Grams g) { return Kilograms{static_cast<double>(g.count()) / 1000.0}; }
/// The nearest whole gram.
inline Grams to_grams(Kilograms kg) { return Grams{std::llround(kg.value() * 1000.0)}; }

/// ppm is mg per kg: the milligrams this dose puts into this flour, in grams (not whole: doses are weighed
/// finer).
constexpr double dose_grams(OxidantPpm dose, Kilograms flour) {
    return dose.value() * flour.value() / 1000.0;
}

constexpr CelsiusStep operator-(Celsius a, Celsius b) { return CelsiusStep{a.value() - b.value()}; }
constexpr Celsius operator+(Celsius point, CelsiusStep step) { return Celsius{point.value() + step.value()}; }
constexpr Celsius operator-(Celsius point, CelsiusStep step) { return Celsius{point.value() - step.value()}; }

constexpr AbsorptionPoints operator-(Absorption14 a, Absorption14 b) {
    return AbsorptionPoints{a.value() - b.value()};
}
constexpr Absorption14 operator+(Absorption14 a, AbsorptionPoints more) {
    return Absorption14{a.value() + more.value()};
}

/// What brings a share of flour stated at this moisture to 14 %: X_b = X_a (100 - b)/(100 - a). Exact, from
/// the definition of moisture basis. The ratio is formed first, so that a figure already at 14 % comes back
/// as the very same number and a lot that lies on its limit is not refused for the last bit.
constexpr double to_14_percent(Moisture m) { return 86.0 / (100.0 - m.value()); }
/// The way back: dry matter in flour at this moisture beside that in flour at 14 %.
constexpr double from_14_percent(Moisture m) { return (100.0 - m.value()) / 86.0; }

constexpr Protein14 at_14_percent(ProteinAsIs protein, Moisture m) {
    return Protein14{protein.value() * to_14_percent(m)};
}

/// Water for flour as it lies there, so that flour water and added water together stay the same per kg of dry
/// flour: A_m = (100 - m)/86 (100 + A14) - 100. Exact, a mass balance.
constexpr AbsorptionAsIs as_is(Absorption14 absorption, Moisture m) {
    const double ratio = from_14_percent(m);
    return AbsorptionAsIs{absorption.value() * ratio + 100.0 * (ratio - 1.0)};
}
constexpr Absorption14 at_14_percent(AbsorptionAsIs absorption, Moisture m) {
    const double ratio = to_14_percent(m);
    return Absorption14{absorption.value() * ratio + 100.0 * (ratio - 1.0)};
}
/// The water this flour takes: kg of water, by absorption on flour as is.
constexpr Kilograms water_for(Kilograms flour_as_is, AbsorptionAsIs absorption) {
    return Kilograms{flour_as_is.value() * absorption.value() / 100.0};
}

/// LN = 6000/(FN - 50), ISO 3093. Only for FN above 50 s.
constexpr Liquefaction to_liquefaction(FallingNumber fn) {
    return Liquefaction{6000.0 / (fn.value() - 50.0)};
}
constexpr FallingNumber to_falling_number(Liquefaction ln) {
    return FallingNumber{6000.0 / ln.value() + 50.0};
}

} // namespace mellowbin
