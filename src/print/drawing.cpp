#include "print/drawing.h"

#include "core/promised.h"
#include "print/text_laid.h"

#include <cairo-pdf.h>
#include <cmath>

namespace mellowbin::print {
namespace {

struct FreeSurface {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using Surface = std::unique_ptr<cairo_surface_t, FreeSurface>;
struct FreePen {
    void operator()(cairo_t* pen) const { cairo_destroy(pen); }
};
using Pen = std::unique_ptr<cairo_t, FreePen>;

/// Draws in points.
struct Draw {
    cairo_t* pen;

    void operator()(const Drawing::Lines& lines) const {
        const auto& laid = lines.text.laid();
        const double top = laid.lines[lines.first].top;
        for (std::size_t i = lines.first; i < lines.end; ++i) {
            const auto& line = laid.lines[i];
            cairo_move_to(pen, lines.x * points_a_mm + line.left,
                          lines.y * points_a_mm + line.baseline - top);
            pango_cairo_show_layout_line(pen, line.line);
        }
    }
    void operator()(const Drawing::Boxes& boxes) const {
        for (const auto& box : boxes)
            cairo_rectangle(pen, box.x * points_a_mm, box.y * points_a_mm, box.width * points_a_mm,
                            box.height * points_a_mm);
        cairo_fill(pen);
    }
};

void draw(cairo_t* pen, const Drawing::Page& page) {
    cairo_set_source_rgb(pen, 0, 0, 0);
    for (const auto& item : page.items)
        std::visit(Draw{pen}, item);
}

cairo_status_t append_bytes(void* to, const unsigned char* bytes, unsigned count) {
    static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), count);
    return CAIRO_STATUS_SUCCESS;
}

} // namespace

bool is_own_paper(std::string_view bytes) {
    return bytes.starts_with("%PDF-") &&
           bytes.find("/Creator (" + std::string(creator)) != std::string_view::npos;
}

void Drawing::append(const Drawing& other) {
    pages_.insert(pages_.end(), other.pages_.begin(), other.pages_.end());
    typesetter_.take_over(other.typesetter_);
}

void Drawing::lines_of(const Text& text, std::size_t first, std::size_t end, double x, double y) {
    if (first < end)
        page().items.emplace_back(Lines{text, first, end, x, y});
}

void Drawing::box(double x, double y, double width, double height) {
    page().items.emplace_back(Boxes{{x, y, width, height}});
}

void Drawing::line(double x1, double y1, double x2, double y2, double thick) {
    const double half = thick / 2;
    box(std::min(x1, x2) - half, std::min(y1, y2) - half, std::abs(x2 - x1) + thick,
        std::abs(y2 - y1) + thick);
}

void Drawing::frame(double x, double y, double width, double height, double thick) {
    line(x, y, x + width, y, thick);
    line(x, y + height, x + width, y + height, thick);
    line(x, y, x, y + height, thick);
    line(x + width, y, x + width, y + height, thick);
}

void Drawing::symbol(const exchange::Symbol& symbol, double x, double y, double module_mm,
                     double bar_height) {
    const double height = symbol.rows == 1 ? bar_height : module_mm;
    Boxes boxes;
    for (std::size_t row = 0; row < symbol.rows; ++row)
        for (std::size_t column = 0; column < symbol.columns;) {
            const auto begin = column;
            while (column < symbol.columns && symbol.is_dark(column, row))
                ++column;
            if (column > begin)
                boxes.push_back({x + static_cast<double>(begin) * module_mm,
                                 y + static_cast<double>(row) * height,
                                 static_cast<double>(column - begin) * module_mm, height});
            else
                ++column;
        }
    page().items.emplace_back(std::move(boxes));
}

Result<std::string> Drawing::pdf() const {
    if (!typesetter_.faults().empty())
        return typesetter_.faults();
    std::string bytes;
    const Surface surface(cairo_pdf_surface_create_for_stream(append_bytes, &bytes, 1, 1));
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, title_.c_str());
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, std::string(creator).c_str());
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, iso(made_at_).c_str());
    const Pen pen(cairo_create(surface.get()));
    for (const auto& one : pages_) {
        cairo_pdf_surface_set_size(surface.get(), one.size.width_mm * points_a_mm,
                                   one.size.height_mm * points_a_mm);
        draw(pen.get(), one);
        cairo_show_page(pen.get());
    }
    cairo_surface_finish(surface.get());
    promised(cairo_status(pen.get()) == CAIRO_STATUS_SUCCESS &&
             cairo_surface_status(surface.get()) == CAIRO_STATUS_SUCCESS);
    return bytes;
}

Picture Drawing::picture(std::size_t page, double dots_per_inch) const {
    const auto& one = pages_[page];
    const double dots_a_mm = dots_per_inch / 25.4;
    Picture picture;
    picture.width = static_cast<std::size_t>(std::lround(one.size.width_mm * dots_a_mm));
    picture.height = static_cast<std::size_t>(std::lround(one.size.height_mm * dots_a_mm));
    const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_A8, static_cast<int>(picture.width),
                                                     static_cast<int>(picture.height)));
    const Pen pen(cairo_create(surface.get()));
    cairo_scale(pen.get(), dots_per_inch / 72, dots_per_inch / 72);
    draw(pen.get(), one);
    cairo_surface_flush(surface.get());
    promised(cairo_status(pen.get()) == CAIRO_STATUS_SUCCESS);
    const auto* ink = cairo_image_surface_get_data(surface.get());
    const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface.get()));
    picture.grey.reserve(picture.width * picture.height);
    for (std::size_t y = 0; y < picture.height; ++y)
        for (std::size_t x = 0; x < picture.width; ++x)
            picture.grey.push_back(static_cast<std::uint8_t>(255 - ink[y * stride + x]));
    return picture;
}

} // namespace mellowbin::print
