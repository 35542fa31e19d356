#include "db/bake_store.h"

#include "db/numbering.h"

#include <algorithm>

namespace mellowbin {
namespace {

void write_row(Change& change, BakeId id, const Bake& bake, std::optional<BakeId> withdraws) {
    change.connection().execute("INSERT INTO bake (id, lot_id, substance, dose_ppm, measure, size, baked_on, "
                                "note, at, who, withdraws_id) "
                                "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)",
                                {id, bake.lot, key_of(bake.substance), bake.dose, key_of(bake.measure),
                                 bake.size, bake.baked_on, bake.note, change.journal_line().at,
                                 change.journal_line().who, withdraws});
    change.touches(record_of(withdraws.value_or(id)));
    change.touches(record_of(bake.lot));
}

void write_row(Change& change, KeepingId id, const KeepingRecord& record,
               std::optional<KeepingId> withdraws) {
    change.connection().execute(
        "INSERT INTO keeping_record (id, product_id, run_id, kind, baked_on, days, mould_seen, firmness_g, "
        "ph, "
        "note, at, who, withdraws_id) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)",
        {id, record.product, record.run, key_of(record.kind), record.baked_on, record.days,
         record.mould_seen ? 1 : 0, record.firmness_g, record.ph, record.note, change.journal_line().at,
         change.journal_line().who, withdraws});
    change.touches(record_of(withdraws.value_or(id)));
    change.touches(record_of(record.product));
}

/// The record to take back, or why not.
template <class Record, class SomeId>
Result<Record> to_withdraw(Change& change, const std::vector<Record>& records, SomeId id, const char* what) {
    const auto at =
        std::find_if(records.begin(), records.end(), [&](const Record& record) { return record.id == id; });
    if (at == records.end())
        return change.refuse({what, "is not in the book", "Choose one from the list"});
    if (at->is_withdrawn)
        return change.refuse({what, "was withdrawn before", "Look at the list"});
    return *at;
}

} // namespace

std::vector<Bake> BakeStore::bakes() const {
    std::vector<Bake> bakes;
    connection_.query(
        "SELECT b.id, b.lot_id, b.substance, b.dose_ppm, b.measure, b.size, b.baked_on, b.note, "
        "b.who, b.at, w.id, m.low, m.likely, m.high FROM bake b LEFT JOIN bake w ON w.withdraws_id = b.id "
        "LEFT JOIN bake_maturity m ON m.bake_id = b.id "
        "WHERE b.withdraws_id IS NULL ORDER BY b.id",
        {}, [&](const Row& row) {
            std::optional<MaturityRange> maturity;
            if (!row.is_null(11))
                maturity = {Maturity{row.real(11)}, Maturity{row.real(12)}, Maturity{row.real(13)}};
            bakes.push_back({row.id<BakeId>(0), row.id<LotId>(1), row.key(2, substance_from_key),
                             OxidantPpm{row.real(3)}, row.key(4, loaf_measure_from_key), row.real(5),
                             row.day(6), row.words(7), row.words(8), row.instant(9), !row.is_null(10),
                             maturity});
        });
    return bakes;
}

Result<BakeId> BakeStore::log(Change& change, const Bake& bake) {
    const BakeId id{next_number(change.connection(), "bake")};
    write_row(change, id, bake, {});
    if (const auto& maturity = bake.maturity)
        change.connection().execute(
            "INSERT INTO bake_maturity (bake_id, low, likely, high) VALUES ($1, $2, $3, $4)",
            {id, maturity->low.value(), maturity->likely.value(), maturity->high.value()});
    return id;
}

Result<Done> BakeStore::withdraw(Change& change, BakeId id, std::string_view note) {
    auto bake = to_withdraw(change, bakes(), id, "Loaf");
    if (!bake)
        return bake.refusals();
    bake->note = note;
    write_row(change, BakeId{next_number(change.connection(), "bake")}, *bake, id);
    return Done{};
}

std::vector<KeepingRecord> BakeStore::records() const {
    std::vector<KeepingRecord> records;
    connection_.query(
        "SELECT k.id, k.product_id, k.run_id, k.kind, k.baked_on, k.days, k.mould_seen, k.firmness_g, k.ph, "
        "k.note, k.who, k.at, w.id FROM keeping_record k LEFT JOIN keeping_record w ON w.withdraws_id = k.id "
        "WHERE k.withdraws_id IS NULL ORDER BY k.id",
        {}, [&](const Row& row) {
            records.push_back({row.id<KeepingId>(0), row.id<ProductId>(1), row.maybe_id<RunId>(2),
                               row.key(3, keeping_kind_from_key), row.day(4),
                               static_cast<int>(row.integer(5)), row.integer(6) != 0, row.real(7),
                               row.maybe_real(8), row.words(9), row.words(10), row.instant(11),
                               !row.is_null(12)});
        });
    return records;
}

Result<KeepingId> BakeStore::log(Change& change, const KeepingRecord& record) {
    const KeepingId id{next_number(change.connection(), "keeping_record")};
    write_row(change, id, record, {});
    return id;
}

Result<Done> BakeStore::withdraw(Change& change, KeepingId id, std::string_view note) {
    auto record = to_withdraw(change, records(), id, "Record");
    if (!record)
        return record.refusals();
    record->note = note;
    write_row(change, KeepingId{next_number(change.connection(), "keeping_record")}, *record, id);
    return Done{};
}

} // namespace mellowbin
