#include "db/belief_store.h"

#include <limits>

namespace mellowbin {
namespace {

constexpr std::size_t newest_that_stay = 8;
constexpr std::int64_t batches_between = 8000; // of older ones; about a month of a large plant

LetGoLot let_go_from(const Row& row) {
    return {row.id<LotId>(0), row.id<BatchId>(1), row.real(2), row.real(3)};
}

} // namespace

std::optional<BeliefMark> BeliefStore::newest(std::optional<BatchId> before) const {
    std::optional<BeliefMark> mark;
    connection_.query(
        "SELECT last_batch_id, state FROM belief_mark WHERE model_form = $1 AND last_batch_id < $2 "
        "ORDER BY last_batch_id DESC LIMIT 1",
        {form_, before ? before->number() : std::numeric_limits<std::int64_t>::max()}, [&](const Row& row) {
            mark = {row.id<BatchId>(0), row.words(1)};
        });
    return mark;
}

std::vector<BatchId> BeliefStore::marks() const {
    std::vector<BatchId> all;
    connection_.query("SELECT last_batch_id FROM belief_mark WHERE model_form = $1 ORDER BY last_batch_id",
                      {form_}, [&](const Row& row) { all.push_back(row.id<BatchId>(0)); });
    return all;
}

std::optional<LetGoLot> BeliefStore::let_go(LotId lot, BatchId by) const {
    std::optional<LetGoLot> found;
    connection_.query("SELECT lot_id, after_batch_id, mean, variance FROM belief_lot "
                      "WHERE model_form = $1 AND lot_id = $2 AND after_batch_id <= $3",
                      {form_, lot, by.number()}, [&](const Row& row) { found = let_go_from(row); });
    return found;
}

std::vector<LetGoLot> BeliefStore::let_go_between(BatchId after, BatchId up_to) const {
    std::vector<LetGoLot> all;
    connection_.query("SELECT lot_id, after_batch_id, mean, variance FROM belief_lot WHERE model_form = $1 "
                      "AND after_batch_id > $2 AND after_batch_id <= $3 ORDER BY after_batch_id, lot_id",
                      {form_, after.number(), up_to.number()},
                      [&](const Row& row) { all.push_back(let_go_from(row)); });
    return all;
}

void BeliefStore::keep(Transaction& transaction, const BeliefMark& mark, std::span<const LetGoLot> lots) {
    auto& book = transaction.connection();
    book.execute("INSERT INTO belief_mark (model_form, last_batch_id, state) VALUES ($1, $2, $3) "
                 "ON CONFLICT (model_form, last_batch_id) DO NOTHING",
                 {form_, mark.last_batch, mark.state});
    for (const auto& one : lots)
        book.execute("INSERT INTO belief_lot (model_form, lot_id, after_batch_id, mean, variance) "
                     "VALUES ($1, $2, $3, $4, $5) ON CONFLICT (model_form, lot_id) DO NOTHING",
                     {form_, one.lot, one.after, one.mean, one.variance});
    thin_out(book);
}

void BeliefStore::thin_out(Connection& book) {
    const auto all = marks();
    std::optional<std::int64_t> stays;
    for (std::size_t i = 0; i + newest_that_stay < all.size(); ++i) {
        const auto batch = all[i].number();
        if (!stays || batch - *stays >= batches_between)
            stays = batch;
        else
            book.execute("DELETE FROM belief_mark WHERE model_form = $1 AND last_batch_id = $2",
                         {form_, batch});
    }
}

void BeliefStore::forget_after(Transaction& transaction, BatchId batch) {
    auto& book = transaction.connection();
    book.execute("DELETE FROM belief_mark WHERE model_form = $1 AND last_batch_id > $2",
                 {form_, batch.number()});
    book.execute("DELETE FROM belief_lot WHERE model_form = $1 AND after_batch_id > $2",
                 {form_, batch.number()});
}

void BeliefStore::forget_all(Transaction& transaction) {
    transaction.connection().execute("DELETE FROM belief_mark");
    transaction.connection().execute("DELETE FROM belief_lot");
}

void BeliefStore::forget_from(Connection& connection, BatchId batch) {
    connection.execute("DELETE FROM belief_mark WHERE last_batch_id >= $1", {batch});
    connection.execute("DELETE FROM belief_lot WHERE after_batch_id >= $1", {batch});
}

} // namespace mellowbin
