#include "print/sheet_pages.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::print {

SheetPages::SheetPages(Drawing& drawing, PageSize size)
    : drawing_(drawing), size_(size),
      margin_(std::min(12.0, std::min(size.width_mm, size.height_mm) / 16)) { // mm
    new_page();
}

void SheetPages::new_page() {
    drawing_.begin_page(size_);
    drawing_.go_to_last();
    at_ = margin_;
}

void SheetPages::want(double mm) {
    if (room() < mm && !is_fresh())
        new_page();
}

void SheetPages::flow(const Text& text, double indent) {
    for (std::size_t first = 0; first < text.lines();) {
        auto end = first + 1;
        while (end < text.lines() && text.height_mm(first, end + 1) <= room())
            ++end;
        if (text.height_mm(first, end) > room() && !is_fresh()) {
            new_page();
            continue;
        }
        drawing_.lines_of(text, first, end, left() + indent, at_);
        down(text.height_mm(first, end));
        first = end;
    }
}

void SheetPages::foot(const std::string& words) {
    const auto pages = drawing_.pages();
    for (std::size_t page = 0; page < pages; ++page) {
        drawing_.go_to(page);
        const auto number =
            typesetter().set(fmt::format("page {} of {}", page + 1, pages), {8, false, Side::left}, 0);
        const double y = size_.height_mm - margin_ - number.height_mm();
        const auto text = typesetter().set(words, {8}, width() - number.width_mm() - 2);
        drawing_.lines_of(text, 0, 1, left(), y);
        drawing_.text(number, left() + width() - number.width_mm(), y);
    }
}

} // namespace mellowbin::print
