#pragma once

#include "core/certificate.h"

#include <span>
#include <string>
#include <vector>

namespace mellowbin {

class DraftReader;

/// A laboratory's figure as typed.
struct FigureDraft {
    Property property{};
    std::string value;
    std::string basis;
    std::string method;
    std::string nitrogen_factor; ///< of protein only; empty: 5.7, as for wheat flour
};

/// The property's figure among those of a draft, made if it is not there yet.
FigureDraft& figure_of(std::vector<FigureDraft>& figures, Property property);

/// Whether a figure of nothing can be one: a mill's sheet may print 0 where it found none; a test of the
/// plant's own that found nothing is left empty.
enum class ZeroFigures { are_taken, are_refused };

/// The figures that can be taken; the reader keeps the reasons against the others: no number, outside what
/// flour can have, without the basis it needs, standing twice, as is while the moisture is not known.
Certificate read_figures(std::span<const FigureDraft> figures, ZeroFigures zero_figures, DraftReader& reader);

} // namespace mellowbin
