// What stock costs: small moves by the hundred thousand, and what lay where in an old book.
//
//     stock_bench BOOK
//
// Moves of one lot between two bays are appended to a new book, 20,000 and then ten times as many: linear is
// a ratio of about ten. Of the old book (brought to the present form if it is older) it is told what lay
// where now and at instants over all its years; goal: under 200 ms.

#include "db/movement_store.h"
#include "db/sqlite_connection.h"
#include "db/stock_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <exception>
#include <vector>

namespace {

using namespace mellowbin;

template <class Act> double ms_of(Act act) {
    const auto begin = std::chrono::steady_clock::now();
    act();
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
}

/// One lot of 100 t in the first of two bays; the rest of the plant is as little as the book takes.
void found_plant(Connection& book) {
    for (const char* sql :
         {"INSERT INTO mill (id, name) VALUES (1, 'Mill')",
          "INSERT INTO flour (id, name, flour_class) VALUES (1, 'Flour', 'white')",
          "INSERT INTO place (id, name, kind, air, temperature_c) VALUES (1, 'A', 'bay', 'breathable_bag', "
          "20)",
          "INSERT INTO place (id, name, kind, air, temperature_c) VALUES (2, 'B', 'bay', 'breathable_bag', "
          "20)",
          "INSERT INTO lot (id, code, mill_id, flour_id, delivered_on, delivery_note, received_g, bag_g, "
          "price_per_tonne_minor, state, state_reason, state_by, state_at, received_into_id) VALUES (1, 'L', "
          "1, 1, "
          "'2026-11-20', '', 100000000, 25000, 0, 'released', '', 'Ada', '2026-11-20T05:00:00Z', 1)",
          "INSERT INTO movement (id, lot_id, kind, from_place_id, to_place_id, mass_g, at, who, run_id, "
          "counters_id, "
          "note) VALUES (1, 1, 'receipt', NULL, 1, 100000000, '2026-11-20T05:00:00Z', 'Ada', NULL, NULL, "
          "'')"})
        book.execute(sql);
}

double moves(int count) {
    SqliteConnection book(":memory:");
    found_plant(book);
    const MovementStore movements(book);
    Movement move;
    move.lot = LotId{1};
    move.kind = MovementKind::move;
    move.mass = Grams{1'000};
    move.at = date::sys_days{date::year{2026} / 11 / 25};
    move.who = "Ada";
    return ms_of([&] {
        Change change(book, {0, move.at, "Ada", "move_lot", "lot L", "moved", "", {}});
        for (int i = 0; i < count; ++i) {
            move.from = PlaceId{i % 2 == 0 ? 1 : 2};
            move.to = PlaceId{i % 2 == 0 ? 2 : 1};
            if (!MovementStore(book).append(change, move))
                throw std::runtime_error("a move was refused");
        }
        change.commit();
        StockBook stock(movements.all());
        if (stock.total(move.lot) != Grams{100'000'000})
            throw std::runtime_error("the stock does not add up");
    });
}

double median(std::vector<double> values) {
    std::ranges::sort(values);
    return values[values.size() / 2];
}

int measure(const char* path) {
    const double few = moves(20'000), many = moves(200'000);
    fmt::print("20,000 moves {:8.0f} ms, 200,000 moves {:8.0f} ms: {:.1f} times (linear: 10)\n", few, many,
               many / few);
    SqliteConnection book(path);
    Instant first{}, last{};
    std::int64_t count = 0;
    book.query("SELECT MIN(at), MAX(at), COUNT(*) FROM movement", {}, [&](const Row& row) {
        first = row.instant(0);
        last = row.instant(1);
        count = row.integer(2);
    });
    const StockStore stock(book);
    double worst = 0;
    constexpr int steps = 10;
    for (int step = 0; step <= steps; ++step) {
        const Instant at = first + (last - first) * step / steps;
        std::vector<double> ms;
        std::size_t rows = 0;
        for (int i = 0; i < 3; ++i)
            ms.push_back(ms_of([&] { rows = stock.at(at).size(); }));
        worst = std::max(worst, median(ms));
        fmt::print("{} of {} movements: {:4} places of lots, {:8.1f} ms\n", iso(at), count, rows, median(ms));
    }
    fmt::print("now: {:.2f} ms; worst of the past {:.1f} ms (goal: under 200)\n",
               median({ms_of([&] { (void)stock.now(); }), ms_of([&] { (void)stock.now(); }),
                       ms_of([&] { (void)stock.now(); })}),
               worst);
    return worst < 200 && many < 15 * few ? 0 : 1;
}

} // namespace

int main(int argc, char** argv) {
    try {
        if (argc < 2)
            throw std::runtime_error("which book? stock_bench BOOK");
        return measure(argv[1]);
    } catch (const std::exception& error) {
        fmt::print(stderr, "stock_bench: {}\n", error.what());
        return 2;
    }
}
