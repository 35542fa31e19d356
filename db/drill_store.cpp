#include "db/drill_store.h"

#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin {
namespace {

std::vector<Drill> drills_where(Connection& connection, std::string_view clause, Parameters parameters) {
    std::vector<Drill> drills;
    connection.query(fmt::format("SELECT d.id, d.asks, d.of, d.day, d.at, d.who, e.at, e.who, e.seconds, "
                                 "e.milliseconds, e.note FROM trace_drill d "
                                 "LEFT JOIN trace_drill_end e ON e.drill_id = d.id {}",
                                 clause),
                     parameters, [&](const Row& row) {
                         auto& drill = drills.emplace_back();
                         drill.id = row.id<DrillId>(0);
                         drill.asks = row.key(1, trace_of_from_key);
                         drill.of = row.words(2);
                         drill.day = row.maybe_day(3);
                         drill.at = row.instant(4);
                         drill.who = row.words(5);
                         if (!row.is_null(6))
                             drill.end = DrillEnd{row.instant(6), row.words(7),  row.integer(8),
                                                  row.integer(9), row.words(10), {}};
                     });
    return drills;
}

/// Tabs part cells, so that none stands in one.
std::string cell_of(std::string text) {
    std::replace_if(
        text.begin(), text.end(), [](char c) { return c == '\t' || c == '\n' || c == '\r'; }, ' ');
    return text;
}

std::string line_of(const std::vector<std::string>& cells) {
    std::string line;
    for (std::size_t i = 0; i < cells.size(); ++i)
        line += (i == 0 ? "" : "\t") + cell_of(cells[i]);
    return line;
}

std::vector<std::string> cells_of(std::string_view line) {
    std::vector<std::string> cells(1);
    for (const char c : line) {
        if (c == '\t')
            cells.emplace_back();
        else
            cells.back() += c;
    }
    return cells;
}

/// Line 0 has name and title and the notes, line 1 the heads, then come the rows.
void write_listing(Connection& book, DrillId id, const Listing& listing) {
    int number = 0;
    const auto write = [&](const std::vector<std::string>& cells) {
        book.execute("INSERT INTO trace_drill_line (drill_id, list, line, cells) VALUES ($1, $2, $3, $4)",
                     {id, listing.name, number++, line_of(cells)});
    };
    std::vector<std::string> head{listing.title};
    head.insert(head.end(), listing.notes.begin(), listing.notes.end());
    write(head);
    std::vector<std::string> heads;
    for (const auto& column : listing.columns)
        heads.push_back(head_of(column));
    write(heads);
    for (const auto& row : listing.rows) {
        std::vector<std::string> cells;
        for (std::size_t i = 0; i < row.size(); ++i)
            cells.push_back(in_words(listing.columns[i], row[i]));
        write(cells);
    }
}

void read_line(std::vector<Listing>& report, std::string_view list, std::int64_t number,
               std::vector<std::string> cells) {
    if (number == 0) {
        auto& listing = report.emplace_back();
        listing.name = list;
        listing.title = cells.front();
        listing.notes.assign(cells.begin() + 1, cells.end());
        return;
    }
    if (report.empty())
        return;
    auto& listing = report.back();
    if (number == 1) {
        for (auto& cell : cells)
            listing.columns.push_back({std::move(cell), "", Listing::Holds::text, 0});
        return;
    }
    auto& row = listing.rows.emplace_back();
    for (auto& cell : cells)
        row.emplace_back(std::move(cell));
    row.resize(listing.columns.size());
}

} // namespace

std::optional<Drill> DrillStore::find(DrillId id) const {
    auto drill = only(drills_where(connection_, "WHERE d.id = $1", {id}));
    if (drill && drill->end)
        connection_.query(
            "SELECT list, line, cells FROM trace_drill_line WHERE drill_id = $1 ORDER BY list, line", {id},
            [&](const Row& row) {
                read_line(drill->end->report, row.text(0), row.integer(1), cells_of(row.text(2)));
            });
    return drill;
}

std::vector<Drill> DrillStore::newest(int count) const {
    return drills_where(connection_, "ORDER BY d.id DESC LIMIT $1", {count});
}

DrillId DrillStore::begin(Change& change, const Drill& drill) {
    auto& book = change.connection();
    const DrillId id{next_number(book, "trace_drill")};
    const auto& line = change.journal_line();
    book.execute("INSERT INTO trace_drill (id, asks, of, day, at, who) VALUES ($1, $2, $3, $4, $5, $6)",
                 {id, key_of(drill.asks), drill.of, drill.day, line.at, line.who});
    return id;
}

Result<Done> DrillStore::end(Change& change, DrillId id, const DrillEnd& end) {
    const auto drill = find(id);
    if (!drill)
        return change.refuse({"Drill", "is not in the book", "Begin one"});
    if (drill->end)
        return change.refuse({"Drill", "has ended: it took " + std::to_string(drill->end->seconds) + " s",
                              "Begin another one"});
    auto& book = change.connection();
    const auto& line = change.journal_line();
    book.execute("INSERT INTO trace_drill_end (drill_id, at, who, seconds, milliseconds, note) "
                 "VALUES ($1, $2, $3, $4, $5, $6)",
                 {id, line.at, line.who, end.seconds, end.milliseconds, end.note});
    for (const auto& listing : end.report)
        write_listing(book, id, listing);
    return Done{};
}

} // namespace mellowbin
