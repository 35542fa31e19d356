#include "db/dough_made.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

constexpr std::string_view no_counter = "NOT EXISTS (SELECT 1 FROM batch c WHERE c.counters_id = b.id)";
constexpr std::string_view rework_stands =
    "w.counters_id IS NULL AND NOT EXISTS (SELECT 1 FROM rework c WHERE c.counters_id = w.id)";

/// Of batches b that the clause names.
DoughMade made_by(Connection& connection, std::string_view clause, std::int64_t number) {
    DoughMade made;
    const auto which = fmt::format("{} AND b.counters_id IS NULL AND {}", clause, no_counter);
    connection.query(
        fmt::format(
            "SELECT COUNT(*), COALESCE(SUM(f.flour_g), 0), "
            "COALESCE(SUM(f.flour_g * (1 + COALESCE((SELECT SUM(i.pct_flour) FROM product_ingredient i "
            "WHERE i.product_id = p.id), 0) / 100) + 1000 * (b.water_kg + b.ice_kg)), 0), "
            "MAX(p.bread_yield) FROM batch b JOIN run r ON r.id = b.run_id "
            "JOIN product p ON p.id = r.product_id "
            "JOIN (SELECT batch_id, SUM(mass_g) AS flour_g FROM batch_flour WHERE batch_id IN "
            "(SELECT b.id FROM batch b WHERE {}) GROUP BY batch_id) f ON f.batch_id = b.id WHERE {}",
            clause, which),
        {number}, [&](const Row& row) {
            made.batches = static_cast<int>(row.integer(0));
            made.flour = Grams{row.integer(1)};
            made.dough = to_grams(Kilograms{row.real(2) / 1000});
            made.bread_yield = row.real(3);
        });
    const auto sum_of_rework = [&](std::string_view end) {
        Grams sum;
        connection.query(
            fmt::format("SELECT COALESCE(SUM(w.mass_g), 0) FROM rework w WHERE w.{} IN "
                        "(SELECT b.id FROM batch b WHERE {}) AND {} AND NOT EXISTS "
                        "(SELECT 1 FROM batch n WHERE n.counters_id IN (w.from_batch_id, w.into_batch_id))",
                        end, which, rework_stands),
            {number}, [&](const Row& row) { sum = Grams{row.integer(0)}; });
        return sum;
    };
    made.dough += sum_of_rework("into_batch_id");
    made.put_back = sum_of_rework("from_batch_id");
    return made;
}

} // namespace

DoughMade dough_made(Connection& connection, RunId run) {
    return made_by(connection, "b.run_id = $1", run.number());
}

DoughMade dough_made(Connection& connection, BatchId batch) {
    return made_by(connection, "b.id = $1", batch.number());
}

} // namespace mellowbin
