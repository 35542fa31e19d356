#pragma once

#include "core/day.h"
#include "core/result.h"
#include "exchange/symbol.h"
#include "print/page.h"
#include "print/text.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

/// What lies on the pages of one paper, black on white; lengths in mm from the page's upper left corner.
namespace mellowbin::print {

/// What every paper of this program says of itself, and no other file: such a file may be written over.
inline constexpr std::string_view creator = "mellowbin: printed paper";
/// Whether the bytes, of a whole file, are a PDF that this program made.
bool is_own_paper(std::string_view bytes);

/// A page as dots.
struct Picture {
    std::size_t width = 0, height = 0;
    std::vector<std::uint8_t> grey; ///< row by row; 255 is paper
};

/// Papers are put together as a list first: what no font can show is known before a byte is made.
class Drawing {
public:
    Drawing(std::string title, Instant made_at) : title_(std::move(title)), made_at_(made_at) {}

    Typesetter& typesetter() { return typesetter_; }
    /// The pages of another one behind these.
    void append(const Drawing& other);
    void begin_page(PageSize size) { pages_.push_back({size, {}}); }
    [[nodiscard]] std::size_t pages() const { return pages_.size(); }
    /// What is drawn now lies on this page, from 0.
    void go_to(std::size_t page) { current_ = page; }
    /// What is drawn now lies on the last page.
    void go_to_last() { current_ = pages_.size() - 1; }

    void text(const Text& text, double x, double y) { lines_of(text, 0, text.lines(), x, y); }
    /// The lines from `first` up to before `end`, the first of them at y.
    void lines_of(const Text& text, std::size_t first, std::size_t end, double x, double y);
    void box(double x, double y, double width, double height); ///< filled
    void line(double x1, double y1, double x2, double y2, double thick = 0.2);
    void frame(double x, double y, double width, double height, double thick = 0.2);
    /// Its modules alone; who places it leaves the quiet zone. Bars are `bar_height` high, squares as wide.
    void symbol(const exchange::Symbol& symbol, double x, double y, double module_mm, double bar_height);

    /// Every page as PDF with its fonts in it, the same bytes for the same paper; refused where there is a
    /// text that no font here can show.
    [[nodiscard]] Result<std::string> pdf() const;
    /// The page, from 0, as it is shown.
    [[nodiscard]] Picture picture(std::size_t page, double dots_per_inch) const;

    // What there is to draw.
    struct Lines {
        Text text;
        std::size_t first, end;
        double x, y;
    };
    struct Box {
        double x, y, width, height;
    };
    using Boxes = std::vector<Box>; ///< filled at once, so that no light shines through where they touch
    struct Page {
        PageSize size;
        std::vector<std::variant<Lines, Boxes>> items;
    };

private:
    Page& page() { return pages_[current_]; }
    std::string title_;
    Instant made_at_;
    Typesetter typesetter_;
    std::vector<Page> pages_;
    std::size_t current_ = 0;
};

} // namespace mellowbin::print
