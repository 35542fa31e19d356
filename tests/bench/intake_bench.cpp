// A lot taken in with its certificate, receipt and journal line, on the disk when the call returns; beside it
// the same durable transaction in bare SQLite calls with the same statements, prepared once. The two take
// turns on two books of the same folder, so that a busy disk slows both; "share_of_bare" is the rate of the
// one by the other's.

#include "db/lot_store.h"
#include "db/movement_store.h"
#include "db/plant_store.h"
#include "db/sqlite_connection.h"

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <sqlite3.h>
#include <stdexcept>
#include <unistd.h>

namespace mellowbin {
namespace {

using Clock = std::chrono::steady_clock;

/// On the disk of the working folder: the folder for temporary files may lie in memory, where nothing is
/// durable.
std::filesystem::path folder_on_disk() {
    std::string name = (std::filesystem::current_path() / ("intake-bench-" + std::string(6, 'X'))).string();
    if (::mkdtemp(name.data()) == nullptr)
        throw std::runtime_error("no folder could be made");
    return name;
}

Delivered delivery(std::string code) {
    Delivered d;
    Lot& lot = d.lot;
    lot.code = std::move(code);
    lot.mill = MillId{1};
    lot.flour = FlourId{1};
    lot.received_into = PlaceId{1};
    lot.milled_on = Day{date::year{2026} / 11 / 16};
    lot.delivered_on = Day{date::year{2026} / 11 / 24};
    lot.delivery_note = "DN 4711";
    lot.received = Grams{25'000'000};
    lot.bag = Grams{25'000};
    lot.state_by = "Ada Example";
    lot.state_at = lot.delivered_on;
    const Basis at_14 = Basis::at(Moisture{14});
    for (const auto& [property, value, basis] :
         {std::tuple{Property::moisture, 14.2, Basis{}}, std::tuple{Property::protein, 11.85, at_14},
          std::tuple{Property::ash, 0.55, at_14}, std::tuple{Property::falling_number, 320.0, Basis{}},
          std::tuple{Property::absorption, 58.4, at_14}, std::tuple{Property::stability, 9.5, Basis{}}})
        lot.certificate.set({property, value, basis, "ISO", wheat_nitrogen_factor});
    d.receipt = {{}, {}, MovementKind::receipt, {}, PlaceId{1}, lot.received, lot.state_at, "Ada Example", {},
                 {}, ""};
    return d;
}

JournalLine journal_line(const Lot& lot) {
    return {
        0, lot.state_at, "Ada Example", "take_in_lot", "lot " + lot.code, "Lot " + lot.code + " was taken in",
        ""};
}

void set_up_plant(const std::filesystem::path& path) {
    SqliteConnection book(path);
    PlantStore plant(book);
    Change change(book, {0, Instant{}, "Ada Example", "set_up", "plant", "The plant was set up", ""});
    (void)plant.save(change, Mill{{}, "Upper mill"});
    (void)plant.save(change, Flour{{}, "Bread flour", FlourClass::white, {}});
    (void)plant.save(change, Place{{}, "Bay 1", PlaceKind::bay, Air::breathable_bag, Celsius{18}, {}, {}});
    change.commit();
}

/// The transaction as one would write it in C against this schema.
class BareBook {
public:
    explicit BareBook(const std::filesystem::path& path) {
        check(sqlite3_open(path.c_str(), &book_));
        check(sqlite3_exec(book_,
                           "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;"
                           "PRAGMA recursive_triggers=ON",
                           nullptr, nullptr, nullptr));
        const char* sql[statements] = {
            "BEGIN IMMEDIATE",
            "SELECT id FROM lot WHERE mill_id = ?1 AND code = ?2",
            "SELECT COALESCE(MAX(id), 0) + 1 FROM lot",
            "INSERT INTO lot (id, code, mill_id, flour_id, milled_on, delivered_on, best_before, "
            "delivery_note, "
            "received_g, bag_g, price_per_tonne_minor, state, state_reason, state_by, state_at, "
            "received_into_id) "
            "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16)",
            "INSERT INTO lot_value (lot_id, property, value, basis, method, nitrogen_factor) "
            "VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
            "SELECT COALESCE(MAX(id), 0) + 1 FROM movement",
            "INSERT INTO movement (id, lot_id, kind, from_place_id, to_place_id, mass_g, at, who, run_id, "
            "counters_id, note) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)",
            "INSERT INTO journal (id, at, who, intent, subject, words, detail) "
            "VALUES ((SELECT COALESCE(MAX(id), 0) + 1 FROM journal), ?1, ?2, ?3, ?4, ?5, ?6)",
            "COMMIT"};
        for (int i = 0; i < statements; ++i)
            check(sqlite3_prepare_v2(book_, sql[i], -1, &prepared_[i], nullptr));
    }
    BareBook(const BareBook&) = delete;
    BareBook& operator=(const BareBook&) = delete;
    ~BareBook() {
        for (auto* statement : prepared_)
            sqlite3_finalize(statement);
        sqlite3_close(book_);
    }

    void take_in(const char* code, const char* subject, const char* words) {
        run(0);
        sqlite3_bind_int64(prepared_[1], 1, 1);
        text(1, 2, code);
        run(1);
        const auto lot = number(2);
        auto* s = prepared_[3];
        sqlite3_bind_int64(s, 1, lot);
        text(3, 2, code);
        sqlite3_bind_int64(s, 3, 1);
        sqlite3_bind_int64(s, 4, 1);
        text(3, 5, "2026-11-16");
        text(3, 6, "2026-11-24");
        sqlite3_bind_null(s, 7);
        text(3, 8, "DN 4711");
        sqlite3_bind_int64(s, 9, 25'000'000);
        sqlite3_bind_int64(s, 10, 25'000);
        sqlite3_bind_int64(s, 11, 0);
        text(3, 12, "awaiting_judgement");
        text(3, 13, "");
        text(3, 14, "Ada Example");
        text(3, 15, "2026-11-24T00:00:00Z");
        sqlite3_bind_int64(s, 16, 1);
        run(3);
        value(lot, "moisture", 14.2, "");
        value(lot, "protein", 11.85, "14 % moisture");
        value(lot, "ash", 0.55, "14 % moisture");
        value(lot, "falling_number", 320, "");
        value(lot, "absorption", 58.4, "14 % moisture");
        value(lot, "stability", 9.5, "");
        const auto movement = number(5);
        s = prepared_[6];
        sqlite3_bind_int64(s, 1, movement);
        sqlite3_bind_int64(s, 2, lot);
        text(6, 3, "receipt");
        sqlite3_bind_null(s, 4);
        sqlite3_bind_int64(s, 5, 1);
        sqlite3_bind_int64(s, 6, 25'000'000);
        text(6, 7, "2026-11-24T00:00:00Z");
        text(6, 8, "Ada Example");
        sqlite3_bind_null(s, 9);
        sqlite3_bind_null(s, 10);
        text(6, 11, "");
        run(6);
        text(7, 1, "2026-11-24T00:00:00Z");
        text(7, 2, "Ada Example");
        text(7, 3, "take_in_lot");
        text(7, 4, subject);
        text(7, 5, words);
        text(7, 6, "");
        run(7);
        run(8);
    }

private:
    static constexpr int statements = 9;
    static void check(int code) {
        if (code != SQLITE_OK && code != SQLITE_DONE && code != SQLITE_ROW)
            throw std::runtime_error(sqlite3_errstr(code));
    }
    void text(int statement, int position, const char* words) {
        check(sqlite3_bind_text(prepared_[statement], position, words, -1, SQLITE_STATIC));
    }
    void run(int statement) {
        check(sqlite3_step(prepared_[statement]));
        check(sqlite3_reset(prepared_[statement]));
    }
    std::int64_t number(int statement) {
        check(sqlite3_step(prepared_[statement]));
        const auto found = sqlite3_column_int64(prepared_[statement], 0);
        check(sqlite3_reset(prepared_[statement]));
        return found;
    }
    void value(std::int64_t lot, const char* property, double figure, const char* basis) {
        sqlite3_bind_int64(prepared_[4], 1, lot);
        text(4, 2, property);
        sqlite3_bind_double(prepared_[4], 3, figure);
        text(4, 4, basis);
        text(4, 5, "ISO");
        sqlite3_bind_double(prepared_[4], 6, 5.7);
        run(4);
    }
    sqlite3* book_ = nullptr;
    sqlite3_stmt* prepared_[statements] = {};
};

void lot_taken_in(benchmark::State& state) {
    const auto folder = folder_on_disk();
    set_up_plant(folder / "ours");
    set_up_plant(folder / "bare");
    {
        SqliteConnection ours(folder / "ours");
        LotStore lots(ours);
        BareBook bare(folder / "bare");
        Clock::duration our_time{};
        Clock::duration bare_time{};
        int number = 0;
        for ([[maybe_unused]] auto _ : state) {
            const std::string code = fmt::format("W{:06}", ++number);
            const auto begin = Clock::now();
            const auto d = delivery(code);
            Change change(ours, journal_line(d.lot));
            if (!lots.take_in(change, d))
                throw std::runtime_error("refused");
            change.commit();
            const auto middle = Clock::now();
            bare.take_in(code.c_str(), ("lot " + code).c_str(), ("Lot " + code + " was taken in").c_str());
            const auto end = Clock::now();
            our_time += middle - begin;
            bare_time += end - middle;
            state.SetIterationTime(std::chrono::duration<double>(middle - begin).count());
        }
        const auto per_lot = [&](Clock::duration time) {
            return std::chrono::duration<double, std::micro>(time).count() / number;
        };
        state.counters["lots_per_s"] = 1e6 / per_lot(our_time);
        state.counters["bare_lots_per_s"] = 1e6 / per_lot(bare_time);
        state.counters["share_of_bare"] = per_lot(bare_time) / per_lot(our_time);
    }
    std::filesystem::remove_all(folder);
}
BENCHMARK(lot_taken_in)->UseManualTime()->Unit(benchmark::kMicrosecond)->MinTime(3);

void fill(Connection& book, int lots) {
    const Day today{date::year{2026} / 11 / 24};
    LotStore store(book);
    Change change(book, {0, Instant{today}, "Ada Example", "fill", "book", "The book was filled", ""});
    for (int i = 0; i < lots; ++i) {
        auto d = delivery(fmt::format("W{:06}", i));
        for (const auto& t : all_properties()) // a full certificate
            d.lot.certificate.set({t.property, (t.lowest + t.highest) / 2,
                                   t.has_basis ? Basis::at(Moisture{14}) : Basis{}, "ISO",
                                   wheat_nitrogen_factor});
        (void)store.take_in(change, d);
    }
    change.commit();
}

/// All lots of a book with a full certificate of 18 figures each.
void lots_read(benchmark::State& state) {
    const auto folder = folder_on_disk();
    set_up_plant(folder / "book");
    {
        SqliteConnection book(folder / "book");
        fill(book, static_cast<int>(state.range(0)));
        for ([[maybe_unused]] auto _ : state)
            benchmark::DoNotOptimize(LotStore(book).all());
    }
    std::filesystem::remove_all(folder);
}
BENCHMARK(lots_read)->Arg(5000)->Unit(benchmark::kMillisecond);

void movements_read(benchmark::State& state) {
    const auto folder = folder_on_disk();
    set_up_plant(folder / "book");
    {
        SqliteConnection book(folder / "book");
        fill(book, static_cast<int>(state.range(0)));
        for ([[maybe_unused]] auto _ : state)
            benchmark::DoNotOptimize(MovementStore(book).all());
    }
    std::filesystem::remove_all(folder);
}
BENCHMARK(movements_read)->Arg(5000)->Unit(benchmark::kMillisecond);

void book_opened(benchmark::State& state) {
    const auto folder = folder_on_disk();
    set_up_plant(folder / "book");
    {
        SqliteConnection book(folder / "book");
        fill(book, static_cast<int>(state.range(0)));
    }
    for ([[maybe_unused]] auto _ : state)
        SqliteConnection book(folder / "book");
    std::filesystem::remove_all(folder);
}
BENCHMARK(book_opened)->Arg(5000)->Unit(benchmark::kMillisecond);

} // namespace
} // namespace mellowbin
