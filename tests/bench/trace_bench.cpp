// What a trace of a lot costs in an old book, beside the bare engine asked for the same rows:
//
//     trace_bench BOOK [LOTS]
//
// The book is brought to the present form if it is older. Goals: under 100 ms for any lot, and not over 1.3
// times the bare engine's time. Lots are taken evenly from the first to the last, each traced once to warm up
// and five times to count; told are the median and the worst of the lots' medians.

#include "app/models/trace.h"
#include "db/sqlite_connection.h"
#include "plain_sql.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <exception>

namespace {

using namespace mellowbin;
using namespace mellowbin::bench;

constexpr int times = 5;

template <class Act> double median_of(Act act) {
    act();
    std::vector<double> ms;
    for (int i = 0; i < times; ++i) {
        const auto begin = std::chrono::steady_clock::now();
        act();
        ms.push_back(
            std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count());
    }
    std::ranges::sort(ms);
    return ms[ms.size() / 2];
}

/// Reads every column of every row, as the program must.
int read_all(const PlainBook& book, sqlite3_stmt* statement, std::int64_t lot) {
    sqlite3_bind_int64(statement, 1, lot);
    int rows = 0;
    while (sqlite3_step(statement) == SQLITE_ROW) {
        ++rows;
        for (int i = 0; i < sqlite3_column_count(statement); ++i)
            if (sqlite3_column_type(statement, i) == SQLITE_TEXT)
                rows += sqlite3_column_text(statement, i) == nullptr ? 1 : 0;
            else
                rows += sqlite3_column_int64(statement, i) == INT64_MIN ? 1 : 0;
    }
    book.check(sqlite3_reset(statement));
    return rows;
}

/// The rows that a trace of a lot is made of, by as few questions as there are kinds of row.
constexpr std::array<std::string_view, 6> questions{
    "SELECT b.id, b.run_id, r.code, p.id, p.name, r.day, b.number, b.at, b.who, f.lot_id, f.mass_g FROM "
    "batch b "
    "JOIN run r ON r.id = b.run_id JOIN product p ON p.id = r.product_id JOIN batch_flour f ON f.batch_id = "
    "b.id "
    "WHERE b.id IN (SELECT batch_id FROM batch_flour WHERE lot_id = $1) AND +b.counters_id IS NULL "
    "AND NOT EXISTS (SELECT 1 FROM batch c WHERE c.counters_id = b.id) ORDER BY b.id",
    "SELECT w.* FROM rework w WHERE w.from_batch_id IN (SELECT batch_id FROM batch_flour WHERE lot_id = $1)",
    "SELECT d.* FROM dispatch d WHERE d.run_id IN (SELECT b.run_id FROM batch b WHERE b.id IN "
    "(SELECT batch_id FROM batch_flour WHERE lot_id = $1))",
    "SELECT m.*, r.id FROM movement m LEFT JOIN mill_return r ON m.kind = 'waste' AND "
    "r.movement_id = COALESCE(m.counters_id, m.id) WHERE m.lot_id = $1 ORDER BY m.id",
    "SELECT l.code, m.name, f.name, l.delivered_on, l.delivery_note, l.state FROM lot l "
    "JOIN mill m ON m.id = l.mill_id JOIN flour f ON f.id = l.flour_id WHERE l.id = $1",
    "SELECT 1 FROM movement m JOIN place p ON p.id = m.to_place_id AND p.kind = 'silo' WHERE m.lot_id = $1 "
    "LIMIT 1"};

int measure(const std::string& path, std::size_t wanted) {
    SqliteConnection book(path);
    const PlainBook plain(path);
    std::vector<sqlite3_stmt*> statements;
    for (const auto question : questions)
        statements.push_back(plain.prepare(question));
    std::vector<std::int64_t> lots;
    book.query("SELECT id FROM lot ORDER BY id", {}, [&](const Row& row) { lots.push_back(row.integer(0)); });
    const std::size_t step = std::max<std::size_t>(1, lots.size() / wanted);
    std::vector<double> ours, bare;
    std::size_t batches = 0;
    for (std::size_t i = 0; i < lots.size(); i += step) {
        app::TraceQuery query;
        query.asks = TraceOf::lot;
        query.lot = LotId{lots[i]};
        ours.push_back(
            median_of([&] { batches = std::max(batches, app::find_trace(book, query).batches.size()); }));
        bare.push_back(median_of([&] {
            for (auto* const statement : statements)
                read_all(plain, statement, lots[i]);
        }));
    }
    for (auto* const statement : statements)
        sqlite3_finalize(statement);
    std::ranges::sort(ours);
    std::ranges::sort(bare);
    const double middle = ours[ours.size() / 2], beside = bare[bare.size() / 2];
    fmt::print("{} of {} lots, up to {} batches a lot\n", ours.size(), lots.size(), batches);
    fmt::print("trace        {:8.3f} ms median, {:8.3f} ms worst (goal: under 100)\n", middle, ours.back());
    fmt::print("bare engine  {:8.3f} ms median, {:8.3f} ms worst\n", beside, bare.back());
    fmt::print("beside it    {:8.2f} times (goal: 1.3 at most)\n", middle / beside);
    return ours.back() < 100 && middle <= 1.3 * beside ? 0 : 1;
}

} // namespace

int main(int argc, char** argv) {
    try {
        if (argc < 2)
            throw std::runtime_error("which book? trace_bench BOOK [LOTS]");
        return measure(argv[1], argc > 2 ? std::stoul(argv[2]) : 200);
    } catch (const std::exception& error) {
        fmt::print(stderr, "trace_bench: {}\n", error.what());
        return 2;
    }
}
