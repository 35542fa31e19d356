#pragma once

#include "exchange/certificate_value.h"

#include <vector>

namespace mellowbin::exchange {

/// A value that was understood, with what of it a mapping keeps.
struct KeptValue {
    UnderstoodValue value;
    std::size_t label = 0; ///< in the label book
    Refusals refusals;
};

/// Two values for one property of a lot: the same twice is one; of different ones a person says which. Values
/// that were not chosen are taken out.
void settle_repeated(std::vector<KeptValue>& values, PaperContext& paper, CertificateMapping& learned);

/// The lots as drafts, with what is wrong with each by its cell.
std::vector<CertificateLot> lots_of(const std::vector<KeptValue>& values, const CertificateLayout& layout,
                                    const PaperContext& paper);

} // namespace mellowbin::exchange
