#include "core/blend.h"
#include "core/specification.h"
#include "core/test_precision.h"
#include "published/published.h"
#include "support/flour_formulas.h"

#include <stdexcept>

namespace mellowbin::published {
namespace {

/// What we refuse is an answer in words, so that a row that expects a figure fails.
template <class T> const T& given(const Result<T>& result) {
    if (!result)
        throw std::runtime_error(in_words(result.refusals().front()));
    return *result;
}

Certificate certificate_of(const Row& row, Property property) {
    Certificate certificate;
    const double factor = row.number_or("factor", wheat_nitrogen_factor);
    certificate.set({property, row.number("value"), given(read_basis("", row.text("basis"))), "", factor});
    if (row.has("moisture"))
        certificate.set({Property::moisture, row.number("moisture"), {}, "", wheat_nitrogen_factor});
    return certificate;
}

double slope_of_absorption(Absorption14 absorption) {
    return as_is(absorption, Moisture{13}).value() - as_is(absorption, Moisture{12}).value();
}

Answer flour_basis(const Row& row) {
    const auto& what = row.text("what");
    if (what == "absorption_as_is")
        return as_is(Absorption14{row.number("value")}, Moisture{row.number("moisture")}).value();
    if (what == "absorption_slope")
        return slope_of_absorption(Absorption14{row.number("value")});
    const Property property =
        row.has("property") ? property_from_key(row.text("property")).value() : Property::protein;
    const double at_14 = given(value_at_14(certificate_of(row, property), property)).value();
    return what == "dry" ? at_14 * from_14_percent(Moisture{0}) : at_14;
}

Answer farinograph(const Row& row) {
    const auto bowl = row.text("bowl") == "300" ? FarinographBowl::grams_300 : FarinographBowl::grams_50;
    const auto& what = row.text("what");
    if (what == "sample")
        return farinograph_sample_grams(bowl, Moisture{row.number("moisture")});
    if (what == "per_fu") {
        const auto at = [&](double fu) {
            return given(farinograph_absorption(bowl, Moisture{14}, Millilitres{180}, fu)).value();
        };
        return at(501) - at(500);
    }
    return given(farinograph_absorption(bowl, Moisture{row.number("moisture")}, Millilitres{row.number("ml")},
                                        row.number("fu")))
        .value();
}

Certificate with_falling_number(double seconds) {
    Certificate certificate;
    certificate.set({Property::moisture, 14, {}, "", wheat_nitrogen_factor});
    certificate.set({Property::falling_number, seconds, {}, "", wheat_nitrogen_factor});
    return certificate;
}

Answer falling_number(const Row& row) {
    const auto& what = row.text("what");
    const FallingNumber first{row.number("first")};
    if (what == "liquefaction")
        return to_liquefaction(first).value();
    const FallingNumber second{row.number("second")};
    if (what == "share")
        return given(share_for_falling_number(first, second, FallingNumber{row.number("target")}));
    const auto a = with_falling_number(first.value());
    const auto b = with_falling_number(second.value());
    const double share = row.number("share");
    const BlendPart parts[] = {{&a, Kilograms{1000 * share}}, {&b, Kilograms{1000 * (1 - share)}}};
    return blend_value(parts, Property::falling_number).value().value;
}

Answer damaged_starch(const Row& row) {
    Certificate certificate;
    certificate.set({Property::starch_damage, row.number("value"), Basis::at(Moisture{14}),
                     row.text("method"), wheat_nitrogen_factor});
    const Window window{Property::starch_damage, row.number("low"), row.number("high"), row.text("window")};
    switch (judge(certificate, {window}).front().verdict) {
    case Verdict::inside:
        return "inside";
    case Verdict::below:
        return "below";
    case Verdict::above:
        return "above";
    case Verdict::missing:
        return "missing";
    case Verdict::not_comparable:
        return "not comparable";
    }
    return "no verdict";
}

const Registered bases{"flour basis", flour_basis};
const Registered farinographs{"farinograph", farinograph};
const Registered falling_numbers{"falling number", falling_number};
const Registered squares{
    "pearson square", [](const Row& row) -> Answer {
        return given(pearson_square(row.number("first"), row.number("second"), row.number("target"))).first;
    }};
const Registered ash_rules{"white flour ash rule", [](const Row& row) -> Answer {
                               return meets_white_flour_ash_rule(row.number("protein"), row.number("ash"))
                                          ? "meets"
                                          : "exceeds";
                           }};
const Registered starch{"damaged starch verdict", damaged_starch};
const Registered two_laboratories{"critical difference", [](const Row& row) -> Answer {
                                      return critical_difference(row.number("r"), row.number("R"),
                                                                 static_cast<int>(row.number("n1")),
                                                                 static_cast<int>(row.number("n2")));
                                  }};

} // namespace
} // namespace mellowbin::published
