#include "db/retest_store.h"

#include "db/certificate_rows.h"
#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

void read_results(Connection& connection, std::string_view clause, Parameters parameters,
                  std::vector<Retest>& retests) {
    BasisReader bases;
    auto owner = retests.begin();
    connection.query(fmt::format("SELECT retest_id, {} FROM retest_value WHERE retest_id IN "
                                 "(SELECT r.id FROM retest r {}) ORDER BY retest_id, property",
                                 certificate_columns, clause),
                     parameters, [&](const Row& row) {
                         while (owner != retests.end() && owner->id < row.id<RetestId>(0))
                             ++owner;
                         if (owner != retests.end() && owner->id == row.id<RetestId>(0))
                             owner->results.set(certificate_value_from(row, bases));
                     });
}

/// The retests r that the clause names, with their results: two queries, however many they are.
std::vector<Retest> retests_where(Connection& connection, std::string_view clause, Parameters parameters) {
    std::vector<Retest> retests;
    connection.query(
        fmt::format("SELECT r.id, r.lot_id, r.taken_on, r.place_id, r.at, r.who, r.note, w.id FROM retest r "
                    "LEFT JOIN retest w ON w.withdraws_id = r.id {} ORDER BY r.id",
                    clause),
        parameters, [&](const Row& row) {
            auto& retest = retests.emplace_back();
            retest.id = row.id<RetestId>(0);
            retest.lot = row.id<LotId>(1);
            retest.taken_on = row.day(2);
            retest.place = row.maybe_id<PlaceId>(3);
            retest.logged_at = row.instant(4);
            retest.who = row.words(5);
            retest.note = row.words(6);
            retest.is_withdrawn = !row.is_null(7);
        });
    read_results(connection, clause, parameters, retests);
    return retests;
}

void write_row(Change& change, RetestId id, const Retest& retest, std::optional<RetestId> withdraws) {
    change.connection().execute(
        "INSERT INTO retest (id, lot_id, taken_on, place_id, at, who, note, withdraws_id) "
        "VALUES ($1, $2, $3, $4, $5, $6, $7, $8)",
        {id, retest.lot, retest.taken_on, retest.place, change.journal_line().at, change.journal_line().who,
         retest.note, withdraws});
    change.touches(record_of(withdraws.value_or(id)));
    change.touches(record_of(retest.lot));
}

} // namespace

std::vector<Retest> RetestStore::all() const {
    return retests_where(connection_, "WHERE r.withdraws_id IS NULL", {});
}

std::vector<Retest> RetestStore::of(LotId lot) const {
    return retests_where(connection_, "WHERE r.withdraws_id IS NULL AND r.lot_id = $1", {lot});
}

std::vector<Retest> RetestStore::of_mill(MillId mill, Day from, Day until) const {
    return retests_where(connection_,
                         "WHERE r.withdraws_id IS NULL AND r.lot_id IN (SELECT l.id FROM lot l "
                         "WHERE l.mill_id = $1 AND l.delivered_on BETWEEN $2 AND $3)",
                         {mill, from, until});
}

std::optional<Retest> RetestStore::find(RetestId id) const {
    return only(retests_where(connection_, "WHERE r.withdraws_id IS NULL AND r.id = $1", {id}));
}

std::vector<LotId> RetestStore::tested_lots(int count) const {
    std::vector<LotId> lots;
    connection_.query("SELECT DISTINCT lot_id FROM retest ORDER BY lot_id DESC LIMIT $1", {count},
                      [&](const Row& row) { lots.push_back(row.id<LotId>(0)); });
    return lots;
}

Result<RetestId> RetestStore::log(Change& change, const Retest& retest) {
    if (retest.results.values().empty())
        return change.refuse({"Results", "no figure was read; one at least is expected",
                              "Enter what the laboratory measured"});
    const RetestId id{next_number(change.connection(), "retest")};
    write_row(change, id, retest, {});
    write_certificate(change.connection(), "retest", id.number(), retest.results);
    return id;
}

Result<Done> RetestStore::withdraw(Change& change, RetestId id, std::string_view note) {
    auto retest = find(id);
    if (!retest)
        return change.refuse({"Retest", "is not in the book", "Choose one from the lot's list"});
    if (retest->is_withdrawn)
        return change.refuse({"Retest", "was withdrawn before", "Look at the lot's list"});
    retest->note = note;
    write_row(change, RetestId{next_number(change.connection(), "retest")}, *retest, id);
    return Done{};
}

} // namespace mellowbin
