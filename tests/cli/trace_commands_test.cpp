#include "a_bakery.h"
#include "cli/command_line.h"
#include "db/sqlite_connection.h"
#include "support/catch.h"

#include <filesystem>

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

namespace {

/// The bakery with a run of two batches of 100 kg, of lots W24-201 and W24-202, written row by row.
struct Baked : ABakery {
    Baked() {
        SqliteConnection book(terminal.book());
        const auto write = [&](std::string_view sql) { book.execute(sql); };
        write("INSERT INTO product (id, name, flour_id, market_key, food, maturity_target, most_lots, "
              "least_share, "
              "house_maximum_ppm, water_offset_points, is_offset_assumed, dough_temperature_c, "
              "fermentation_minutes, mixing_minutes, batch_flour_kg, propionate_pct_flour, bread_yield) "
              "SELECT COALESCE(MAX(id), 0) + 1, 'Tin loaf', 1, 'Canada', 'bread', 0.85, 3, 0.1, 0, 0, 1, 26, "
              "60, 8, "
              "100, 0, 1.45 FROM product");
        write(
            "INSERT INTO line (id, name, friction_factor_k, room_c, tap_water_c, coldest_water_c, "
            "most_ice_share, "
            "oxidant_scale_step_g, oxidant_scale_error_g, stock_solution_g_per_l, water_step_kg) "
            "SELECT COALESCE(MAX(id), 0) + 1, 'Trace line', 24, 22, 15, 2, 0.3, 0.1, 0.1, 0, 0.1 FROM line");
        write("INSERT INTO run (id, code, product_id, line_id, day, sequence, batches, flour_g) SELECT 901, "
              "'R-T', "
              "MAX(p.id), (SELECT MAX(id) FROM line), '2026-11-25', 1, 2, 200000 FROM product p");
        write("UPDATE lot SET state = 'released'");
        for (const char* batch : {"1", "2"}) {
            const std::string n = batch;
            write("INSERT INTO batch (id, run_id, number, at, who, checked_by, water_kg, ice_kg, dose_ppm, "
                  "poured_ml, "
                  "note) VALUES (90" +
                  n + ", 901, " + n + ", '2026-11-25T05:00:00Z', 'Joris', '', 60, 0, 0, 0, '')");
            write("INSERT INTO batch_flour SELECT 90" + n + ", 0, id, 100000 FROM lot WHERE code = 'W24-20" +
                  n + "'");
            write("INSERT INTO movement SELECT (SELECT MAX(id) + 1 FROM movement), id, 'use', "
                  "received_into_id, NULL, "
                  "100000, '2026-11-25T05:00:00Z', 'Joris', 901, NULL, '' FROM lot WHERE code = 'W24-20" +
                  n + "'");
            write("INSERT INTO batch_use SELECT 90" + n + ", MAX(id) FROM movement");
        }
    }
};

} // namespace

TEST_CASE("A lot is traced forward and a product back, as text and as JSON, and held with one option") {
    Baked at;
    CHECK_THAT(at.done({"dispatch", "K-17", "--run", "R-T", "--pieces", "100", "--piece-g", "800"}),
               Contains("Sent: 100 pieces, 80 kg of run R-T to customer K-17") &&
                   Contains("Its number is 1"));
    const auto lot = at.json({"trace-lot", "W24-201"});
    CHECK(lot["rows"].size() == 3);
    CHECK(lot["rows"][1]["certainty"] == "contains");
    CHECK(lot["rows"][2]["where"] == "customer K-17");
    CHECK(lot["rows"][2]["certainty"] == "may_contain"); // the other batch is of another lot
    CHECK(lot["balances"][0]["received_kg"] == 1000);
    CHECK(lot["balances"][0]["used_kg"] == 100);
    CHECK(lot["balances"][0]["in_stock_kg"] == 900);
    CHECK(lot["balances"][0]["unexplained_kg"] == 0);
    const auto text = at.done({"trace-product", "Tin loaf"});
    CHECK_THAT(text, Contains("Tin loaf of 2026-11-25: 2 batches") && Contains("Weir Mill") &&
                         Contains("178/2002"));
    CHECK(at.json({"trace-run", "R-T"})["rows"].size() == 5);
    CHECK(at.json({"trace-customer", "k-17"})["rows"].size() == 5);
    CHECK_THAT(at.refused({"trace-lot", "X"}), Contains("\"X\" is not in the book"));
    CHECK_THAT(at.done({"trace-lot", "W24-202", "--hold", "metal"}),
               Contains("1 lot put on hold (W24-202): metal. No hold reaches batches R-T/2; dispatches R-T"));
    CHECK(at.terminal.on_book({"trace-lot"}) == cli::bad_usage);
}

TEST_CASE("Dispatches are logged by hand and from a file, listed, refused by their lines, and taken back by "
          "number") {
    Baked at;
    at.terminal.write("van.csv", "customer,run,kg\nK-1,R-T,100\nK-2,R-T,50\n");
    CHECK_THAT(at.done({"read-dispatches", at.terminal.file("van.csv")}),
               Contains("2 dispatches logged from van.csv"));
    CHECK(at.json({"dispatches"}).size() == 2);
    CHECK(at.json({"dispatches", "--customer", "K-2"})[0]["kg"] == 50);
    CHECK(at.json({"dispatches", "--to", "2026-11-24"}).empty());
    at.terminal.write("bad.csv", "customer,run,kg\nK-3,R-T,1\nK-4,R-X,1\n");
    CHECK_THAT(at.refused({"read-dispatches", at.terminal.file("bad.csv")}), Contains("Line 3: Run"));
    CHECK_THAT(at.refused({"dispatch", "K-3", "--run", "R-T", "--kg", "141"}),
               Contains("about 290.0 kg of bread"));
    CHECK_THAT(at.done({"take-back-dispatch", "1", "--reason", "stayed"}), Contains("Did not leave"));
    CHECK_THAT(at.done({"dispatches"}), Contains("taken back"));
    at.done({"dispatch", "K-3", "--product", "Tin loaf", "--kg", "141"});
}

TEST_CASE("Rework is logged by run and batch, and a silo's zone by its name") {
    Baked at;
    CHECK_THAT(at.done({"rework", "R-T", "1", "R-T", "2", "--kg", "16"}), Contains("Its number is 1"));
    CHECK(at.json({"trace-lot", "W24-201"})["rows"].size() == 3); // now in both batches
    at.done({"take-back-rework", "1", "--reason", "other trough"});
    CHECK(at.json({"trace-lot", "W24-201"})["rows"].size() == 2);
    CHECK_THAT(at.refused({"rework", "R-T", "2", "R-T", "1", "--kg", "16"}), Contains("not mixed before"));
    CHECK_THAT(at.refused({"silo-zone", "Bay 1", "all"}), Contains("is no silo"));
}

TEST_CASE("A drill is begun, ended and shown with its report") {
    Baked at;
    CHECK_THAT(at.done({"trace-drill"}), Contains("No drill yet"));
    CHECK_THAT(at.done({"trace-drill", "--lot", "W24-201"}),
               Contains("It runs; mellowbin trace-drill --end 1 ends it"));
    CHECK_THAT(at.done({"trace-drill", "--end", "1", "--note", "by phone"}),
               Contains("Ended") && Contains("by phone") && Contains("Mass balance") && Contains("Persons"));
    const auto drill = at.json({"trace-drill", "--show", "1"});
    CHECK(drill["report"].size() == 3);
    CHECK(drill["seconds"].get<int>() >= 0);
    CHECK(at.json({"trace-drill"}).size() == 1);
    CHECK_THAT(at.refused({"trace-drill", "--end", "1"}), Contains("has ended"));
    CHECK_THAT(at.refused({"trace-drill", "--show", "7"}), Contains("7 is not in the book"));
}

TEST_CASE("A trace and the report of a drill are papers, and a drill that runs has none yet") {
    Baked at;
    const auto paper = [&](const char* what, const char* which) {
        const auto file = at.terminal.file("paper.pdf");
        std::filesystem::remove(file);
        const auto said = at.done({"print", what, which, "--to", file});
        CHECK(std::filesystem::file_size(file) > 1'000);
        return said;
    };
    CHECK_THAT(paper("trace", "W24-201"), Contains("Trace written as a paper to print"));
    at.done({"trace-drill", "--lot", "W24-201"});
    CHECK_THAT(at.refused({"print", "drill", "1", "--to", at.terminal.file("d.pdf")}),
               Contains("Drill: runs: its report is kept when it ends"));
    at.done({"trace-drill", "--end", "1"});
    CHECK_THAT(paper("drill", "1"), Contains("Drill 1 written"));
    CHECK_THAT(at.refused({"print", "drill", "one", "--to", at.terminal.file("d.pdf")}),
               Contains("is no number"));
    CHECK_THAT(at.refused({"print", "trace", "W99", "--to", at.terminal.file("d.pdf")}),
               Contains("\"W99\" is not in the book"));
}
