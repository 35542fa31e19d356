#pragma once

#include "print/text.h"

#include <pango/pangocairo.h>
#include <vector>

namespace mellowbin::print {

inline constexpr double points_a_mm = 72 / 25.4;

struct FreeObject {
    template <class T> void operator()(T* object) const { g_object_unref(object); }
};
template <class T> using Owned = std::unique_ptr<T, FreeObject>;

/// What stands behind a Text; heights and widths in points.
struct Text::Laid {
    struct Line {
        PangoLayoutLine* line; ///< the layout's own
        double left, top, bottom, baseline;
    };
    Owned<PangoLayout> layout;
    std::vector<Line> lines;
    double width = 0;
};

} // namespace mellowbin::print
