#include "db/scan_store.h"

#include "db/numbering.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

std::vector<BagScan> scans_where(Connection& connection, std::string_view clause, Parameters parameters) {
    std::vector<BagScan> scans;
    connection.query(fmt::format("SELECT s.id, s.run_id, s.batch, s.code, s.lot_id, s.at, s.who, c.by_whom "
                                 "FROM bag_scan s LEFT JOIN bag_scan_cleared c ON c.scan_id = s.id {} "
                                 "ORDER BY s.id",
                                 clause),
                     parameters, [&](const Row& row) {
                         BagScan scan;
                         scan.id = row.id<BagScanId>(0);
                         scan.run = row.id<RunId>(1);
                         scan.batch = static_cast<int>(row.integer(2));
                         scan.code = row.words(3);
                         scan.lot = row.maybe_id<LotId>(4);
                         scan.at = row.instant(5);
                         scan.who = row.words(6);
                         scan.cleared_by = row.is_null(7) ? std::string{} : row.words(7);
                         scans.push_back(std::move(scan));
                     });
    return scans;
}

} // namespace

std::vector<BagScan> ScanStore::of(RunId run) const {
    return scans_where(connection_, "WHERE s.run_id = $1", {run});
}

std::vector<BagScan> ScanStore::of_runs_since(Day first) const {
    return scans_where(connection_, "WHERE s.run_id IN (SELECT id FROM run WHERE day >= $1)", {first});
}

BagScanId ScanStore::log(Change& change, const BagScan& scan) {
    const BagScanId id{next_number(change.connection(), "bag_scan")};
    change.connection().execute(
        "INSERT INTO bag_scan (id, run_id, batch, code, lot_id, at, who) VALUES ($1, $2, $3, $4, $5, $6, $7)",
        {id, scan.run, scan.batch, scan.code, scan.lot, change.journal_line().at, change.journal_line().who});
    change.touches(record_of(scan.run));
    return id;
}

Result<Done> ScanStore::clear(Change& change, BagScanId id, std::string_view by, std::string_view reason) {
    const auto found = scans_where(change.connection(), "WHERE s.id = $1", {id});
    if (found.empty() || found.front().lot || !found.front().cleared_by.empty())
        return change.refuse(
            {"Bag", "no wrong bag of this number waits to be cleared", "Look at the card again"});
    change.connection().execute(
        "INSERT INTO bag_scan_cleared (scan_id, by_whom, reason, at, who) VALUES ($1, $2, $3, $4, $5)",
        {id, by, reason, change.journal_line().at, change.journal_line().who});
    change.touches(record_of(found.front().run));
    return Done{};
}

} // namespace mellowbin
