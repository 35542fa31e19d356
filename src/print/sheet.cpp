#include "print/sheet.h"

#include "print/table.h"

#include <fmt/format.h>

namespace mellowbin::print {
namespace {

/// Each kind of block onto the pages.
struct Place {
    const Sheet& sheet;
    SheetPages& pages;
    const Block* next = nullptr; ///< behind the one that is placed

    Text set(const std::string& words, double points, bool is_bold, double less = 0) const {
        return pages.typesetter().set(words, {points, is_bold}, pages.width() - less);
    }
    void operator()(const Heading& heading) const {
        const auto text = set(heading.words, sheet.points * 1.25, true);
        constexpr double before = 3, lines = 15; // mm: never alone at the end of a page
        const auto* table = next ? std::get_if<Table>(next) : nullptr;
        const double with_it = table ? height_to_begin(*table, sheet.points, pages) + 1 : lines;
        pages.want(before + text.height_mm() + with_it);
        if (!pages.is_fresh())
            pages.down(before);
        pages.flow(text);
        pages.down(1);
    }
    void operator()(const Paragraph& paragraph) const {
        const double points = paragraph.points > 0 ? paragraph.points : sheet.points;
        pages.flow(set(paragraph.words, points, paragraph.is_bold));
        pages.down(1);
    }
    void operator()(const Loud& loud) const {
        constexpr double pad = 2, thick = 1; // mm
        const auto text = set(loud.words, sheet.points * 1.3, true, 2 * (pad + thick));
        const double height = text.height_mm() + 2 * pad + thick;
        if (height > pages.whole_room()) { // no frame goes over pages
            pages.flow(text);
            return;
        }
        pages.want(height);
        const double half = thick / 2;
        pages.drawing().frame(pages.left() + half, pages.at() + half, pages.width() - thick, height - thick,
                              thick);
        pages.drawing().text(text, pages.left() + pad + thick, pages.at() + pad + half);
        pages.down(height + 2);
    }
    void operator()(const Bullets& bullets) const {
        constexpr double indent = 4; // mm
        for (const auto& line : bullets.lines) {
            const auto text = set(line, sheet.points, false, indent);
            pages.want(text.height_mm(0, 1));
            pages.drawing().text(set("•", sheet.points, false), pages.left(), pages.at());
            pages.flow(text, indent);
        }
        pages.down(1);
    }
    void operator()(const Table& table) const { mellowbin::print::place(table, sheet.points, pages); }
};

} // namespace

Drawing drawing_of(const Sheet& sheet, PageSize paper) {
    Drawing drawing(sheet.title, sheet.made_at);
    SheetPages pages(drawing, sheet.is_across ? across(paper) : paper);
    Place place{sheet, pages};
    pages.flow(place.set(sheet.title, sheet.points * 1.6, true));
    pages.down(1);
    for (const auto& block : sheet.blocks) {
        place.next = &block == &sheet.blocks.back() ? nullptr : &block + 1;
        std::visit(place, block);
    }
    pages.foot(sheet.made.empty() ? sheet.title : fmt::format("{}, made {}", sheet.title, sheet.made));
    return drawing;
}

Result<std::string> pdf_of(const Sheet& sheet, PageSize paper) { return drawing_of(sheet, paper).pdf(); }

} // namespace mellowbin::print
