#pragma once

#include "exchange/certificate_sheet.h"
#include "support/catch.h"
#include "support/good_lot.h"
#include "support/refusal_words.h"

#include <algorithm>
#include <string>
#include <vector>

namespace mellowbin::testing {

/// A request for a certificate of which the paper may leave everything unsaid but the lot and its weight.
inline exchange::CertificateRequest request(std::vector<exchange::CertificateAnswer> answers = {}) {
    exchange::CertificateRequest request;
    request.defaults = {"Weir Mill", "Bread flour", "Bay 1", "2026-11-20"};
    request.answers = std::move(answers);
    return request;
}

/// The understanding of a text, as it is pasted or read from a file.
exchange::CertificateReading read(const std::string& text,
                                  const exchange::CertificateRequest& asked = request());

inline const LotDraft& draft_of(const exchange::CertificateReading& reading, std::size_t lot) {
    return reading.lots.at(lot).draft;
}
inline const FigureDraft* figure_in(const LotDraft& draft, Property property) {
    const auto at = std::find_if(draft.figures.begin(), draft.figures.end(),
                                 [&](const FigureDraft& figure) { return figure.property == property; });
    return at == draft.figures.end() ? nullptr : &*at;
}
/// The first value of that meaning of the lot.
inline const exchange::UnderstoodValue& value_of(const exchange::CertificateReading& reading,
                                                 const std::string& means, std::size_t lot) {
    const auto at = std::find_if(
        reading.values.begin(), reading.values.end(), [&](const exchange::UnderstoodValue& value) {
            return value.means == means && (value.lot == lot || value.lot == exchange::every_lot);
        });
    REQUIRE(at != reading.values.end());
    return *at;
}
/// The keys of what is asked, in their order.
inline std::vector<std::string> asked_in(const exchange::CertificateReading& reading) {
    std::vector<std::string> keys;
    for (const auto& question : reading.questions)
        keys.push_back(question.key);
    return keys;
}
inline std::string refusals_in(const exchange::CertificateReading& reading, std::size_t lot) {
    return all_words(reading.lots.at(lot).refusals);
}

} // namespace mellowbin::testing
