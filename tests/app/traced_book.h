#pragma once

#include "app/models/trace.h"
#include "db/sqlite_connection.h"

#include <map>
#include <memory>
#include <random>
#include <vector>

namespace mellowbin::tests {

/// A book that nobody would keep, by a seed: lots in a bay, two silos and a tote, moved about, counted,
/// thrown away and sent back; batches of several lots, some taken back; rework of rework; dispatches, some
/// taken back. Written row by row, past every act, so that a trace is held against rows alone.
class TracedBook {
public:
    explicit TracedBook(unsigned seed);

    [[nodiscard]] Connection& book() { return *book_; }
    [[nodiscard]] const std::vector<LotId>& lots() const { return lots_; }
    [[nodiscard]] const std::vector<RunId>& runs() const { return runs_; }

private:
    int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
    bool one_in(int n) { return whole(1, n) == 1; }
    void plant();
    void comes();
    void lot_row(std::int64_t id);
    std::int64_t move(LotId lot, const char* kind, int from, int to, std::int64_t grams, std::int64_t run,
                      std::int64_t counters);
    void moves();
    void mixes();
    void takes_back_a_batch();
    void puts_back();
    void sends();
    [[nodiscard]] std::vector<std::pair<LotId, int>> stock() const;

    std::mt19937 random_;
    std::unique_ptr<SqliteConnection> book_;
    std::vector<LotId> lots_;
    std::vector<RunId> runs_;
    std::map<std::pair<LotId, int>, std::int64_t> lying_;
    struct Mixed {
        std::int64_t id = 0;
        std::vector<std::int64_t> uses;
        bool stands = true;
    };
    std::vector<Mixed> batches_;
    std::map<std::int64_t, std::tuple<LotId, int, std::int64_t, std::int64_t>>
        uses_; // lot, place, grams, run
    std::int64_t last_batch_ = 0, last_movement_ = 0, last_dispatch_ = 0, last_rework_ = 0, last_return_ = 0;
};

} // namespace mellowbin::tests
