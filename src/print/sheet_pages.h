#pragma once

#include "print/drawing.h"

namespace mellowbin::print {

/// Fills one page after another, from top to bottom.
class SheetPages {
public:
    SheetPages(Drawing& drawing, PageSize size);

    [[nodiscard]] Drawing& drawing() const { return drawing_; }
    Typesetter& typesetter() { return drawing_.typesetter(); }
    [[nodiscard]] double left() const { return margin_; }
    [[nodiscard]] double width() const { return size_.width_mm - 2 * margin_; }
    [[nodiscard]] double at() const { return at_; }
    /// Down to where the foot begins.
    [[nodiscard]] double room() const { return bottom() - at_; }
    [[nodiscard]] double whole_room() const { return bottom() - margin_; }
    [[nodiscard]] bool is_fresh() const { return at_ <= margin_; }

    void new_page();
    /// A new page, unless so much is free on this one or it is fresh.
    void want(double mm);
    void down(double mm) { at_ += mm; }
    /// Lines of the text from here on, over as many pages as it takes.
    void flow(const Text& text, double indent = 0);
    /// The same line beneath each page, behind it "page 2 of 3".
    void foot(const std::string& words);

private:
    [[nodiscard]] double bottom() const { return size_.height_mm - margin_ - foot_mm; }
    static constexpr double foot_mm = 6;
    Drawing& drawing_;
    PageSize size_;
    double margin_;
    double at_ = 0;
};

} // namespace mellowbin::print
