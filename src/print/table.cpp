#include "print/table.h"

#include <algorithm>
#include <numeric>

namespace mellowbin::print {
namespace {

constexpr double pad = 1.2;    // mm, between a cell's frame and its words
constexpr double slack = 1.03; // of the line with most letters, which need not be the widest

using Widths = std::vector<double>;

/// The line of the column that has the most bytes: measuring each would take as long as laying them out.
CellLine longest_of(const Table& table, std::size_t column) {
    CellLine longest{table.has_heads ? table.columns[column].head : "", true};
    for (const auto& row : table.rows)
        for (const auto& line : row[column])
            if (line.words.size() > longest.words.size())
                longest = line;
    return longest;
}

Widths natural_widths(const Table& table, double points, Typesetter& typesetter) {
    Widths widths;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const auto line = longest_of(table, i);
        const auto& head = table.has_heads ? table.columns[i].head : std::string();
        const double words = typesetter.set(line.words, {points, line.is_bold}, 0).width_mm();
        const double heads = typesetter.set(head, {points, true}, 0).width_mm();
        widths.push_back(std::max(table.columns[i].least_mm, std::max(words, heads) * slack + 2 * pad));
    }
    return widths;
}

/// Narrow columns keep what they want, wide ones share the rest; what is left over goes to all.
Widths fitted(Widths widths, double room) {
    const double wanted = std::accumulate(widths.begin(), widths.end(), 0.0);
    if (wanted <= room) {
        for (auto& width : widths)
            width *= room / wanted;
        return widths;
    }
    auto order = widths;
    std::sort(order.begin(), order.end());
    double left = room, share = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
        share = left / static_cast<double>(order.size() - i);
        if (order[i] > share)
            break;
        left -= order[i];
    }
    for (auto& width : widths)
        width = std::min(width, share);
    return widths;
}

/// A row that is being placed: each cell's texts, and how far they are.
class Row {
public:
    struct At {
        std::vector<Text> texts;
        std::size_t text = 0, line = 0;
        [[nodiscard]] bool is_done() const { return text == texts.size(); }
    };
    Row(std::vector<Cell> const& cells, const Table& table, const Widths& widths, Style style,
        Typesetter& typesetter) {
        for (std::size_t i = 0; i < cells.size(); ++i) {
            style.side = table.columns[i].side;
            At at;
            for (const auto& line : cells[i]) {
                Style of_line = style;
                of_line.is_bold = style.is_bold || line.is_bold;
                at.texts.push_back(typesetter.set(line.words, of_line, widths[i] - 2 * pad));
            }
            cells_.push_back(std::move(at));
        }
    }
    [[nodiscard]] double height() const {
        double most = 0;
        for (const auto& cell : cells_)
            most = std::max(
                most, std::accumulate(cell.texts.begin(), cell.texts.end(), 0.0,
                                      [](double sum, const Text& text) { return sum + text.height_mm(); }));
        return most + 2 * pad;
    }
    [[nodiscard]] bool is_done() const {
        return std::all_of(cells_.begin(), cells_.end(), [](const At& cell) { return cell.is_done(); });
    }
    /// As many lines of each cell as fit; of a page with nothing on it one at least. The height used.
    double draw(Drawing& drawing, double x, double y, const Widths& widths, double room, bool must) {
        double used = 0;
        for (std::size_t i = 0; i < cells_.size(); ++i) {
            used = std::max(used, draw(cells_[i], drawing, x + pad, y + pad, room - 2 * pad, must));
            x += widths[i];
        }
        return used > 0 ? used + 2 * pad : 0;
    }

private:
    static double draw(At& cell, Drawing& drawing, double x, double y, double room, bool must) {
        double used = 0;
        while (!cell.is_done()) {
            const auto& text = cell.texts[cell.text];
            const double line = text.height_mm(cell.line, cell.line + 1);
            if (used + line > room && !(must && used == 0))
                break;
            drawing.lines_of(text, cell.line, cell.line + 1, x, y + used);
            used += line;
            if (++cell.line == text.lines()) {
                ++cell.text;
                cell.line = 0;
            }
        }
        return used;
    }
    std::vector<At> cells_;
};

/// A table that is being placed.
struct Placing {
    const Table& table;
    double points;
    SheetPages& pages;
    Widths widths;

    [[nodiscard]] Row row_of(const std::vector<Cell>& cells, bool is_bold) const {
        return {cells, table, widths, {points, is_bold}, pages.typesetter()};
    }
    [[nodiscard]] std::vector<Cell> heads() const {
        std::vector<Cell> cells;
        for (const auto& column : table.columns)
            cells.push_back({{column.head, true}});
        return cells;
    }
    void rule(double height, double thick) const {
        double x = pages.left();
        for (const double width : widths) {
            pages.drawing().frame(x, pages.at(), width, height, thick);
            x += width;
        }
        pages.down(height);
    }
    void head() const {
        if (!table.has_heads)
            return;
        auto row = row_of(heads(), true);
        const double used =
            row.draw(pages.drawing(), pages.left(), pages.at(), widths, pages.room(), pages.is_fresh());
        rule(used, 0.4);
    }
    void new_page() const {
        pages.new_page();
        head();
    }
    void place(Row row) const {
        const double height = std::max(row.height(), table.least_row_mm);
        if (height > pages.room() && !pages.is_fresh() && height < pages.whole_room() / 2)
            new_page();
        bool is_first = true;
        for (bool must = false; is_first || !row.is_done(); must = true) {
            if (!is_first)
                new_page();
            const double used =
                row.draw(pages.drawing(), pages.left(), pages.at(), widths, pages.room(), must);
            const double least = is_first && height <= pages.room() ? height : 0;
            if (used > 0 || least > 0)
                rule(std::max(used, least), 0.2);
            is_first = false;
        }
    }
};

} // namespace

double natural_width(const Table& table, double points, Typesetter& typesetter) {
    const auto widths = natural_widths(table, table.points > 0 ? table.points : points, typesetter);
    return std::accumulate(widths.begin(), widths.end(), 0.0);
}

namespace {

Placing placing_of(const Table& table, double points, SheetPages& pages) {
    const double own = table.points > 0 ? table.points : points;
    return {table, own, pages, fitted(natural_widths(table, own, pages.typesetter()), pages.width())};
}

double height_to_begin(const Placing& placing) {
    const auto& table = placing.table;
    const double head = table.has_heads ? placing.row_of(placing.heads(), true).height() : 0;
    const double first = table.rows.empty() ? 0 : placing.row_of(table.rows.front(), false).height();
    return std::min(head + std::max(first, table.least_row_mm), placing.pages.whole_room() / 2);
}

} // namespace

double height_to_begin(const Table& table, double points, SheetPages& pages) {
    return table.columns.empty() ? 0 : height_to_begin(placing_of(table, points, pages));
}

void place(const Table& table, double points, SheetPages& pages) {
    if (table.columns.empty())
        return;
    const auto placing = placing_of(table, points, pages);
    pages.want(height_to_begin(placing));
    placing.head();
    for (const auto& row : table.rows)
        placing.place(placing.row_of(row, false));
    pages.down(2);
}

} // namespace mellowbin::print
