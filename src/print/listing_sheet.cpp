#include "print/listing_sheet.h"

#include "print/table.h"

namespace mellowbin::print {
namespace {

constexpr double by_hand_mm = 28, row_by_hand_mm = 8;

Table table_of(const Listing& listing, const std::string& count) {
    Table table;
    for (const auto& column : listing.columns)
        table.columns.push_back(
            {head_of(column), column.holds == Listing::Holds::number ? Side::right : Side::left});
    if (!count.empty()) {
        table.columns.push_back({count, Side::left, by_hand_mm});
        table.least_row_mm = row_by_hand_mm;
    }
    for (const auto& row : listing.rows) {
        std::vector<Cell> cells;
        for (std::size_t i = 0; i < row.size(); ++i)
            cells.push_back({{in_words(listing.columns[i], row[i])}});
        if (!count.empty())
            cells.emplace_back();
        table.rows.push_back(std::move(cells));
    }
    return table;
}

/// Notes and table beneath what stands there already.
void add(const Listing& listing, const std::string& count, PageSize paper, Sheet& sheet) {
    for (const auto& note : listing.notes)
        sheet.blocks.emplace_back(Paragraph{note});
    auto table = table_of(listing, count);
    Typesetter measuring;
    constexpr double margins = 24; // mm
    sheet.is_across =
        sheet.is_across || natural_width(table, sheet.points, measuring) > paper.width_mm - margins;
    if (table.rows.empty())
        sheet.blocks.emplace_back(Paragraph{"There is none."});
    else
        sheet.blocks.emplace_back(std::move(table));
}

} // namespace

Sheet sheet_of(const Listing& listing, PageSize paper, const Made& made, const std::string& count) {
    Sheet sheet{listing.title, made.words, made.at, false, 9, {}};
    add(listing, count, paper, sheet);
    return sheet;
}

Sheet sheet_of(std::span<const Listing> listings, const std::string& title, PageSize paper,
               const Made& made) {
    Sheet sheet{title, made.words, made.at, false, 9, {}};
    for (const auto& listing : listings) {
        sheet.blocks.emplace_back(Heading{listing.title});
        add(listing, "", paper, sheet);
    }
    return sheet;
}

Result<std::string> pdf_of(const Listing& listing, PageSize paper, const Made& made) {
    return pdf_of(sheet_of(listing, paper, made), paper);
}

} // namespace mellowbin::print
