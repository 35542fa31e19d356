#include "db/draw_store.h"

#include "db/numbering.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

std::vector<DrawPlace> draws_where(Connection& connection, std::string_view clause, Parameters parameters) {
    std::vector<DrawPlace> draws;
    connection.query(
        fmt::format("SELECT d.run_id, d.lot_id, d.place_id FROM draw_place d WHERE {} AND NOT EXISTS "
                    "(SELECT 1 FROM draw_place n WHERE n.run_id = d.run_id AND n.lot_id = d.lot_id "
                    "AND n.id > d.id) ORDER BY d.id",
                    clause),
        parameters, [&](const Row& row) {
            draws.push_back({row.id<RunId>(0), row.id<LotId>(1), row.id<PlaceId>(2)});
        });
    return draws;
}

} // namespace

std::vector<DrawPlace> DrawStore::of(RunId run) const {
    return draws_where(connection_, "d.run_id = $1", {run});
}

std::vector<DrawPlace> DrawStore::of_runs_since(Day first) const {
    return draws_where(connection_, "d.run_id IN (SELECT id FROM run WHERE day >= $1)", {first});
}

void DrawStore::say(Change& change, const DrawPlace& draw) {
    change.connection().execute(
        "INSERT INTO draw_place (id, run_id, lot_id, place_id, at, who) VALUES ($1, $2, $3, $4, $5, $6)",
        {next_number(change.connection(), "draw_place"), draw.run, draw.lot, draw.place,
         change.journal_line().at, change.journal_line().who});
    change.touches(record_of(draw.run));
}

} // namespace mellowbin
