#include "traced_book.h"

#include <fmt/format.h>

namespace mellowbin::tests {
namespace {

constexpr const char* noon = "2026-11-25T12:00:00Z";
constexpr int bay = 1, silo = 2, other_silo = 3, tote = 4;

} // namespace

TracedBook::TracedBook(unsigned seed) : random_(seed), book_(std::make_unique<SqliteConnection>(":memory:")) {
    plant();
    for (int i = 0; i < 140; ++i) {
        const int what = whole(1, 20);
        if (what <= 3 || lots_.size() < 2)
            comes();
        else if (what <= 8)
            moves();
        else if (what <= 16)
            mixes();
        else if (what == 17)
            takes_back_a_batch();
        else if (what == 18)
            sends();
        else
            puts_back();
    }
    for (const auto lot : lots_) {
        std::int64_t left = 0;
        for (const auto& [where, grams] : lying_)
            left += where.first == lot ? grams : 0;
        if (left == 0)
            book_->execute("UPDATE lot SET state = 'used_up' WHERE id = $1", {lot});
    }
}

void TracedBook::plant() {
    for (const char* sql :
         {"INSERT INTO mill VALUES (1, 'Mill')", "INSERT INTO flour VALUES (1, 'Strong white', 'white')",
          "INSERT INTO place (id, name, kind, air, temperature_c) VALUES (1, 'Bay', 'bay', 'breathable_bag', "
          "20), "
          "(2, 'Silo 1', 'silo', 'moved_silo', 20), (3, 'Silo 2', 'silo', 'moved_silo', 20), "
          "(4, 'Tote', 'tote', 'sealed_liner', 20)",
          "INSERT INTO product (id, name, flour_id, market_key, food, maturity_target, most_lots, "
          "least_share, "
          "house_maximum_ppm, water_offset_points, is_offset_assumed, dough_temperature_c, "
          "fermentation_minutes, "
          "mixing_minutes, batch_flour_kg, propionate_pct_flour, bread_yield) VALUES "
          "(1, 'Pan bread', 1, 'Canada', 'bread', 0.85, 3, 0.1, 0, 0, 1, 26, 60, 8, 100, 0, 1.45)",
          "INSERT INTO line (id, name, friction_factor_k, room_c, tap_water_c, coldest_water_c, "
          "most_ice_share, "
          "oxidant_scale_step_g, oxidant_scale_error_g, stock_solution_g_per_l, water_step_kg) VALUES "
          "(1, 'Line 1', 24, 22, 15, 2, 0.3, 0.1, 0.1, 0, 0.1)"})
        book_->execute(sql);
    for (int run = 1; run <= 6; ++run) {
        book_->execute("INSERT INTO run (id, code, product_id, line_id, day, sequence, batches, flour_g) "
                       "VALUES ($1, $2, 1, 1, $3, 1, 9, 900000)",
                       {run, fmt::format("R-{}", run), fmt::format("2026-11-2{}", run / 2)});
        runs_.emplace_back(run);
    }
    for (const int place : {silo, other_silo})
        if (!one_in(3))
            book_->execute("INSERT INTO silo_zone VALUES ($1, $1, $2, $3, '')",
                           {place, one_in(2) ? 0 : whole(1, 3000), noon});
}

void TracedBook::lot_row(std::int64_t id) {
    book_->execute(
        "INSERT INTO lot (id, code, mill_id, flour_id, delivered_on, delivery_note, received_g, bag_g, "
        "price_per_tonne_minor, state, state_reason, state_by, state_at, received_into_id) VALUES "
        "($1, $2, 1, 1, '2026-11-20', $3, 1000, 0, 0, 'released', '', '', $4, 1)",
        {id, fmt::format("W{}", id), fmt::format("N{}", id), noon});
}

void TracedBook::comes() {
    if (lots_.size() < 9 && (lots_.empty() || !one_in(4))) {
        lots_.emplace_back(static_cast<std::int64_t>(lots_.size()) + 1);
        lot_row(lots_.back().number());
    }
    const int into = one_in(3) ? bay : one_in(2) ? silo : other_silo;
    move(lots_[static_cast<std::size_t>(whole(0, static_cast<int>(lots_.size()) - 1))], "receipt", 0, into,
         whole(500, 4000), 0, 0);
}

std::int64_t TracedBook::move(LotId lot, const char* kind, int from, int to, std::int64_t grams,
                              std::int64_t run, std::int64_t counters) {
    const auto maybe = [](std::int64_t number) { return number == 0 ? Value() : Value(number); };
    book_->execute(
        "INSERT INTO movement VALUES ($1, $2, $3, $4, $5, $6, $7, 'Tomas', $8, $9, '')",
        {++last_movement_, lot, kind, maybe(from), maybe(to), grams, noon, maybe(run), maybe(counters)});
    if (from)
        lying_[{lot, from}] -= grams;
    if (to)
        lying_[{lot, to}] += grams;
    return last_movement_;
}

std::vector<std::pair<LotId, int>> TracedBook::stock() const {
    std::vector<std::pair<LotId, int>> there;
    for (const auto& [where, grams] : lying_)
        if (grams > 0)
            there.push_back(where);
    return there;
}

void TracedBook::moves() {
    const auto there = stock();
    if (there.empty())
        return;
    const auto [lot, place] = there[static_cast<std::size_t>(whole(0, static_cast<int>(there.size()) - 1))];
    const auto most = static_cast<int>(lying_[{lot, place}]);
    const int grams = one_in(2) ? most : whole(1, most);
    if (one_in(6)) {
        move(lot, "count", place, 0, whole(1, most), 0, 0);
    } else if (one_in(8)) {
        move(lot, "count", 0, place, whole(1, 300), 0, 0);
    } else if (one_in(8)) {
        const auto waste = move(lot, "waste", place, 0, grams, 0, 0);
        if (one_in(2))
            book_->execute("INSERT INTO mill_return VALUES ($1, $2, $3, 'wet', '', $4, '')",
                           {++last_return_, lot, waste, noon});
        else if (one_in(2))
            move(lot, "waste", 0, place, grams, 0, waste);
    } else {
        int to = whole(1, 4);
        while (to == place)
            to = whole(1, 4);
        move(lot, "move", place, to, grams, 0, 0);
    }
}

void TracedBook::mixes() {
    auto there = stock();
    if (there.empty())
        return;
    const int run = whole(1, 6);
    Mixed batch;
    batch.id = ++last_batch_;
    book_->execute("INSERT INTO batch (id, run_id, number, at, who, checked_by, water_kg, ice_kg, dose_ppm, "
                   "poured_ml, note) VALUES ($1, $2, $3, $4, 'Joris', '', 0.5, 0, 0, 0, '')",
                   {batch.id, run, batch.id, noon});
    for (int position = 0, lots = whole(1, 3); position < lots; ++position) {
        const auto [lot, place] =
            there[static_cast<std::size_t>(whole(0, static_cast<int>(there.size()) - 1))];
        const auto most = static_cast<int>(lying_[{lot, place}]);
        if (most == 0)
            continue;
        const int grams = one_in(3) ? most : whole(1, most);
        batch.uses.push_back(move(lot, "use", place, 0, grams, run, 0));
        uses_[batch.uses.back()] = {lot, place, grams, run};
        book_->execute("INSERT INTO batch_flour VALUES ($1, $2, $3, $4)", {batch.id, position, lot, grams});
        book_->execute("INSERT INTO batch_use VALUES ($1, $2)", {batch.id, batch.uses.back()});
    }
    if (!batch.uses.empty() && one_in(6)) { // some of it was not mixed
        const auto [lot, place, grams, of_run] = uses_[batch.uses.front()];
        move(lot, "return", 0, one_in(2) ? bay : place, 1 + grams / 4, of_run, 0);
    }
    batches_.push_back(std::move(batch));
}

void TracedBook::takes_back_a_batch() {
    if (batches_.empty())
        return;
    auto& batch = batches_.back(); // nothing came of it yet
    if (!batch.stands)
        return;
    batch.stands = false;
    book_->execute(
        "INSERT INTO batch (id, run_id, number, at, who, checked_by, water_kg, ice_kg, dose_ppm, "
        "poured_ml, note, counters_id) SELECT $1, run_id, number, at, who, '', 0, 0, 0, 0, 'not so', id "
        "FROM batch WHERE id = $2",
        {++last_batch_, batch.id});
    for (const auto use : batch.uses) {
        const auto [lot, place, grams, run] = uses_[use];
        move(lot, "use", 0, place, grams, run, use);
    }
}

void TracedBook::puts_back() {
    if (batches_.size() < 2)
        return;
    const int into = whole(1, static_cast<int>(batches_.size()) - 1);
    const int from = whole(0, into - 1);
    const auto id = ++last_rework_;
    const auto a = batches_[static_cast<std::size_t>(from)].id,
               b = batches_[static_cast<std::size_t>(into)].id;
    const char* kind = one_in(4) ? "flour" : "dough";
    const int grams = whole(1, 400);
    book_->execute("INSERT INTO rework VALUES ($1, $2, $3, $4, $5, '', $6, '', NULL)",
                   {id, a, b, kind, grams, noon});
    if (one_in(5))
        book_->execute("INSERT INTO rework VALUES ($1, $2, $3, $4, $5, '', $6, '', $7)",
                       {++last_rework_, a, b, kind, grams, noon, id});
}

void TracedBook::sends() {
    const auto id = ++last_dispatch_;
    const int run = whole(1, 6);
    const auto customer = fmt::format("K-{}", whole(1, 3));
    book_->execute("INSERT INTO dispatch VALUES ($1, 1, $2, $3, 10, 5000, $4, '', '', $5, 'Dora', NULL)",
                   {id, run, customer, fmt::format("2026-11-2{}", whole(4, 5)), noon});
    if (one_in(4))
        book_->execute(
            "INSERT INTO dispatch SELECT $1, product_id, run_id, customer, pieces, mass_g, day, note, "
            "'stayed', at, who, id FROM dispatch WHERE id = $2",
            {++last_dispatch_, id});
}

} // namespace mellowbin::tests
