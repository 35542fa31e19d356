#pragma once

#include "core/retest.h"
#include "core/test_precision.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

/// What a plant's own tests say beside the certificates of the same lots, property by property.
namespace mellowbin {

/// Own tests of flour up to so long after its milling count: flour ages, and what it does later is not the
/// mill's. A choice; a lot whose milling day is not known does not count.
inline constexpr Days young_enough{21};
/// With fewer lots nothing is said of whether the two differ. A choice.
inline constexpr int least_lots_to_differ = 5;

/// One lot, tested by both.
struct TestedTwice {
    const Lot* lot = nullptr;
    std::vector<const Retest*> own; ///< withdrawn ones are passed over
};

/// Own test minus certificate: of each lot its first own test that can be compared, on 14 % moisture where
/// the property has a basis, by the same method.
struct OwnBesideCertificate {
    Property property{};
    int lots = 0;
    double mean = 0;                      ///< in the property's unit
    std::optional<double> spread;         ///< standard deviation; from two lots on
    std::optional<double> standard_error; ///< of the mean; from two lots on
    /// The mean lies further from 0 than twice its standard error; nothing: too few lots to say.
    std::optional<bool> differs;
    int without_method = 0; ///< of the lots: neither side says a method
    // Lots that both tested and that are left out.
    int too_old = 0, other_method = 0, no_basis = 0;

    friend bool operator==(const OwnBesideCertificate&, const OwnBesideCertificate&) = default;
};

/// Properties that both sides measured of one lot at least, in the order of Property. `rows` say which names
/// are of one method.
std::vector<OwnBesideCertificate> own_beside_certificates(std::span<const TestedTwice> lots,
                                                          std::span<const TestPrecision> rows);

/// "own test lower by 0.31 % on average of 12 lots, more than twice the standard error, 0.06"; and what was
/// left out.
std::string in_words(const OwnBesideCertificate& difference);

} // namespace mellowbin
