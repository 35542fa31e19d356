#pragma once

#include "core/certificate.h"

#include <string>
#include <vector>

namespace mellowbin {

/// What a property must keep to; both ends included, one may be open. On 14 % moisture where the property has
/// a basis.
struct Window {
    Property property{};
    std::optional<double> low;
    std::optional<double> high;
    std::string
        method; ///< compared only with results of this method; empty takes any (damaged starch needs one)

    /// Half its width, the scale a miss is measured on; of a one-sided window a tenth of its limit (an
    /// assumption).
    [[nodiscard]] double half_width() const;
    [[nodiscard]] std::string in_words() const; ///< "11.5 to 13.0 %", "at least 250 s"
    friend bool operator==(const Window&, const Window&) = default;
};

using Specification = std::vector<Window>;

enum class Verdict { inside, below, above, missing, not_comparable };

struct Judgement {
    Window window;
    Verdict verdict{};
    std::optional<double> value; ///< at 14 % moisture where the property has a basis
    std::string words;           ///< "12.4 %, inside 11.5 to 13.0 %"; says why where it cannot be compared
};

/// The certificate held against every window, in the order of the specification.
std::vector<Judgement> judge(const Certificate& certificate, const Specification& specification);

/// Refuses a window with low above high, with neither end, or of damaged starch without its method.
Result<Window> accept_window(Window window);

} // namespace mellowbin
