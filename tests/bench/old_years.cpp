#include "old_years.h"

#include "core/day.h"
#include "plain_sql.h"

#include <deque>
#include <optional>
#include <random>

namespace mellowbin::bench {
namespace {

constexpr std::int64_t lot_g = 12'000'000;
constexpr std::int64_t batch_g = 200'000;
constexpr int lots_a_day = 8, runs_a_day = 4, batches_a_run = 100;

std::string at(Day day, int hour, int minute) {
    return fmt::format("{}T{:02}:{:02}:00Z", iso(day), hour, minute);
}

/// What the years before need of what the book has.
struct Around {
    std::vector<std::int64_t> mills, places, lines;
    std::int64_t product, flour;
    bool has_records; ///< the journal says which record a line is about
    explicit Around(PlainBook& book)
        : mills(book.numbers("SELECT id FROM mill ORDER BY id")),
          places(book.numbers("SELECT id FROM place ORDER BY id LIMIT 5")),
          lines(book.numbers("SELECT id FROM line ORDER BY id LIMIT 2")),
          product(book.numbers("SELECT id FROM product ORDER BY id").at(0)),
          flour(book.numbers("SELECT flour_id FROM product ORDER BY id").at(0)),
          has_records(!book.numbers("SELECT 1 FROM sqlite_schema WHERE name = 'journal_record'").empty()) {}
};

class Journal {
public:
    Journal(PlainBook& book, const Around& around)
        : next_(book.next("journal")), line_(book, "journal (id, at, who, intent, subject, words, detail)") {
        if (around.has_records)
            record_.emplace(book, "journal_record (line_id, kind, number, is_subject)");
    }
    void write(std::string_view when, std::string_view who, std::string_view intent, std::string_view kind,
               std::int64_t number, std::string_view code, std::string_view words) {
        line_(next_, when, who, intent, fmt::format("{} {}", kind, code), words, "");
        if (record_)
            (*record_)(next_, kind, number, 1);
        ++next_;
        ++written;
    }
    std::int64_t written = 0;

private:
    std::int64_t next_;
    Insert line_;
    std::optional<Insert> record_;
};

struct OldLot {
    std::int64_t id, place, left_g;
};

/// The people of those years, day after day.
class Work {
public:
    explicit Work(PlainBook& book)
        : around_(book), lot_id_(book.next("lot")), movement_id_(book.next("movement")),
          run_id_(book.next("run")), batch_id_(book.next("batch")), result_id_(book.next("batch_result")),
          journal_(book, around_),
          lot_(book, "lot (id, code, mill_id, flour_id, milled_on, delivered_on, best_before, delivery_note, "
                     "received_g, bag_g, price_per_tonne_minor, state, state_reason, state_by, state_at, "
                     "received_into_id)"),
          value_(book, "lot_value (lot_id, property, value, basis, method, nitrogen_factor)"),
          movement_(book, "movement (id, lot_id, kind, from_place_id, to_place_id, mass_g, at, who, run_id, "
                          "counters_id, note)"),
          run_(book, "run (id, code, product_id, line_id, day, sequence, batches, flour_g)"),
          batch_(book, "batch (id, run_id, number, at, who, checked_by, water_kg, ice_kg, water_c, oxidant, "
                       "dose_ppm, poured_ml, solution_id, farinograph_pct, absorption_pct, flour_c, room_c, "
                       "note, counters_id)"),
          flour_(book, "batch_flour (batch_id, position, lot_id, mass_g)"),
          use_(book, "batch_use (batch_id, movement_id)"),
          result_(book, "batch_result (id, batch_id, dough_c, ph, feel, mixing_minutes, "
                        "fermentation_minutes, note, at, who)") {}

    void day(Day day) {
        if (date::weekday{day}.iso_encoding() <= 5)
            for (int k = 0; k < lots_a_day; ++k)
                take_in(day, k);
        for (int r = 0; r < runs_a_day && !stock_.empty(); ++r)
            mix(day, r);
    }
    /// What is left on the last day is thrown away.
    void finish(Day day) {
        for (const auto& lot : stock_)
            movement_(movement_id_++, lot.id, "waste", lot.place, nullptr, lot.left_g, at(day, 20, 0),
                      "Tomas", nullptr, nullptr, "old");
        done_.lines = journal_.written;
    }
    [[nodiscard]] const OldYears& done() const { return done_; }

private:
    template <class T> static const T& in_turn(const std::vector<T>& all, std::int64_t number) {
        return all[static_cast<std::size_t>(number) % all.size()];
    }
    double any(double from, double to) { return std::uniform_real_distribution(from, to)(random_); }

    void take_in(Day day, int k) {
        const auto id = lot_id_++;
        const auto place = in_turn(around_.places, id);
        const auto code = fmt::format("H{}", id);
        const auto note = fmt::format("N{}", id);
        lot_(id, code, in_turn(around_.mills, id), around_.flour, iso(day - Days{3}), iso(day), nullptr, note,
             lot_g, 25'000, 45'000, "used_up", "", "Ines", at(day + Days{3}, 6, 0), place);
        value_(id, "moisture", 13.8, "", "ISO 712", 5.7);
        value_(id, "protein", any(12.4, 13.4), "14 % moisture", "ISO 16634", 5.7);
        value_(id, "ash", 0.5, "14 % moisture", "ISO 2171", 5.7);
        value_(id, "falling_number", 320.0, "", "ISO 3093", 5.7);
        value_(id, "absorption", any(60, 62), "14 % moisture", "ISO 5530", 5.7);
        movement_(movement_id_++, id, "receipt", nullptr, place, lot_g, at(day, 5, k), "Tomas", nullptr,
                  nullptr, note);
        journal_.write(at(day, 5, k), "Tomas", "take_in_lots", "lot", id, code,
                       fmt::format("Lot {} taken in", code));
        stock_.push_back({id, place, lot_g});
        ++done_.lots;
    }

    void mix(Day day, int r) {
        const auto run = run_id_++;
        const auto line = in_turn(around_.lines, r);
        const auto code = fmt::format("{}-{}", run, r);
        std::int64_t flour_g = 0;
        int number = 0;
        while (number < batches_a_run && !stock_.empty())
            flour_g += one_batch(day, r, run, ++number, code);
        run_(run, code, around_.product, line, iso(day), r, number, flour_g);
        ++done_.runs;
    }

    std::int64_t one_batch(Day day, int r, std::int64_t run, int number, const std::string& code) {
        auto& lot = stock_.front();
        const auto mass = std::min(batch_g, lot.left_g);
        const auto when = at(day, 6 + r * 4 + number / 40, number % 60);
        const auto id = batch_id_++;
        batch_(id, run, number, when, "Joris", "", 0.65 * static_cast<double>(mass) / 1000, 0.0, 4.0, nullptr,
               0.0, 0.0, nullptr, 61.0, 63.0, 20.0, 23.0, "", nullptr);
        flour_(id, 0, lot.id, mass);
        use_(id, movement_id_);
        movement_(movement_id_++, lot.id, "use", lot.place, nullptr, mass, when, "Joris", run, nullptr, "");
        if (number % 5 == 0)
            result_(result_id_++, id, any(25.5, 27.5), 5.6, number % 35 ? "right" : "stiff", 10.0, 45, "",
                    when, "Joris");
        journal_.write(when, "Joris", "log_batch", "run", run, code, fmt::format("Batch {} mixed", number));
        lot.left_g -= mass;
        if (lot.left_g == 0)
            stock_.pop_front();
        ++done_.batches;
        return mass;
    }

    Around around_;
    std::int64_t lot_id_, movement_id_, run_id_, batch_id_, result_id_;
    Journal journal_;
    Insert lot_, value_, movement_, run_, batch_, flour_, use_, result_;
    std::deque<OldLot> stock_;
    std::mt19937 random_{1};
    OldYears done_;
};

void write_readings(PlainBook& book, Day from, Day to) {
    Insert log(book, "climate_log (id, place_id, file, words, at, who, withdraws_id)");
    Insert reading(book, "climate_reading (log_id, at, temperature_c, humidity)");
    std::mt19937 random(2);
    std::uniform_real_distribution warm(18.0, 21.0);
    auto id = book.next("climate_log");
    for (const auto place : Around(book).places) {
        log(id, place, "old.csv", "the years before", at(to, 5, 0), "Ines", nullptr);
        const auto end = std::chrono::seconds(to.time_since_epoch()).count();
        for (auto t = std::chrono::seconds(from.time_since_epoch()).count(); t < end; t += 3600)
            reading(id, t, warm(random), 0.55);
        ++id;
    }
}

} // namespace

OldYears write_old_years(const std::filesystem::path& path, int years) {
    PlainBook book(path);
    const auto end = read_day("", book.words("SELECT MIN(delivered_on) FROM lot")).value().value() - Days{1};
    const auto start = end - Days{365 * years};
    book.run("BEGIN");
    OldYears done;
    {
        Work work(book);
        for (Day day = start; day < end; day += Days{1})
            work.day(day);
        work.finish(end);
        done = work.done();
        write_readings(book, start, end);
    }
    book.run("COMMIT");
    book.run("PRAGMA wal_checkpoint(TRUNCATE)");
    return done;
}

} // namespace mellowbin::bench
