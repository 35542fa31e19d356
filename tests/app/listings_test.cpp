#include "app/acts/batches.h"
#include "app/acts/draws.h"
#include "app/acts/intake.h"
#include "app/acts/notice.h"
#include "app/acts/retests.h"
#include "app/acts/save_listing.h"
#include "app/acts/stock.h"
#include "app/book/setup.h"
#include "app/models/card.h"
#include "app/models/listings.h"
#include "app/models/overview.h"
#include "app/models/settings.h"
#include "demo_at_hand.h"
#include "exchange/csv.h"
#include "exchange/xlsx.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/fixture_file.h"
#include "support/full_disk.h"
#include "support/temporary_folder.h"

#include <map>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;
using tests::TemporaryFolder;

namespace {

namespace fs = std::filesystem;
using Row = std::map<std::string, std::string>;

std::vector<Row> rows_of(const CsvTable& table) {
    std::vector<Row> rows;
    for (const auto& fields : table.rows) {
        auto& row = rows.emplace_back();
        for (std::size_t c = 0; c < table.heads.size(); ++c)
            row[table.heads[c]] = fields.fields.at(c);
    }
    return rows;
}

/// The list as its CSV has it, row by row, by the head of the column.
std::vector<Row> saved(App& app, SaveListing act) {
    const TemporaryFolder folder;
    act.file = (folder / "list.csv").string();
    app.handle(act);
    INFO(
        app.notice().words << (app.notice().refusals.empty() ? "" : in_words(app.notice().refusals.front())));
    REQUIRE(app.notice().kind == Notice::Kind::done);
    const auto table = read_csv(testing::file_bytes(act.file));
    REQUIRE(table);
    return rows_of(*table);
}
std::vector<Row> saved(SmallPlant& plant, const std::string& name) { return saved(plant.app(), {name, ""}); }

PlaceId place(SmallPlant& plant, const std::string& name) {
    for (const auto& [id, known] : plant.app().lots().places)
        if (known == name)
            return id;
    return {};
}

/// A lot of 1000 kg, moved, tested, and mixed into one batch that was taken back.
struct ADay {
    SmallPlant plant;
    LotId lot;
    RunId run;

    ADay() {
        lot = plant.released_lot(plant.draft("=W24,\"118\""));
        act(MoveLot{lot, place(plant, "Bay 1"), place(plant, "Bay 2"), "250,5"});
        run = plant.add_run("Pan bread", "2026-11-25", "3");
        plant.plan_week();
        act(DrawFrom{run, lot, "Bay 1"});
        act(ConfirmBatch{run, {}, 0});
        act(LogRetest{
            lot, {"2026-11-24", "Bay 1", "first", {{Property::protein, "12,3", "14 % moisture", "", ""}}}});
    }
    void act(const Intent& intent) {
        plant.app().handle(intent);
        INFO(plant.refusals());
        REQUIRE(plant.was_done());
    }
};

} // namespace

TEST_CASE("Every list of the demo's book can be saved, and has rows with a name in each column") {
    const TemporaryFolder folder;
    App app({tests::demo_at_hand(), "Ines", Clock::standing_at(tests::day_of_demo)});
    for (const auto& kind : all_listings()) {
        DYNAMIC_SECTION(kind.name) {
            SaveListing act{std::string(kind.name), ""};
            if (kind.of_a_mill)
                act.mill = app.lots().rows.front().mill;
            const auto rows = saved(app, act);
            // None was used up yet, and of no bread it is said where it went.
            CHECK(rows.empty() == (kind.name == "past-lots" || kind.name == "dispatches"));
            for (const auto& row : rows)
                CHECK_FALSE(row.contains(""));
            act.file = (folder / "list.xlsx").string();
            app.handle(act);
            REQUIRE(app.notice().kind == Notice::Kind::done);
            const auto sheets = exchange::read_xlsx(testing::file_bytes(act.file));
            INFO((sheets ? "" : in_words(sheets.refusals().front())));
            REQUIRE(sheets);
            CHECK(sheets->at(0).name == kind.name);
            CHECK(sheets->at(0).rows.size() == rows.size() + 1);
            CHECK(sheets->at(1).rows.size() >= 2); // its title and what it is of
        }
    }
}

TEST_CASE("Lots are saved as they stand: names, stock, figures, and nothing where nothing is known") {
    ADay day;
    auto unknown = day.plant.draft("W24-119");
    unknown.milled_on = "";
    unknown.figures.clear();
    day.act(TakeIn{{unknown}});
    const auto rows = saved(day.plant, "lots");
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].at("Lot") == "W24-119");
    CHECK(rows[0].at("Milled").empty());
    CHECK(rows[0].at("Protein %").empty());
    CHECK(rows[0].at("State") == std::string(name_of(LotState::awaiting_judgement)));
    CHECK(rows[1].at("Lot") == "'=W24,\"118\""); // guarded
    CHECK(rows[1].at("Stock kg") == "900");
    CHECK(rows[1].at("Places") == "Bay 1, Bay 2");
    CHECK(rows[1].at("Protein %") == "12.5");
}

TEST_CASE("What lies where adds up to the lots' stock") {
    ADay day;
    double kg = 0;
    for (const auto& row : saved(day.plant, "stock"))
        kg += std::stod(row.at("Stock kg"));
    CHECK(kg == day.plant.row("=W24,\"118\"").stock_kg);
}

TEST_CASE("Movements of the span are saved one by one, with what took one back") {
    ADay day;
    auto rows = saved(day.plant, "movements");
    REQUIRE(rows.size() == 3);
    CHECK(rows[0].at("Kind") == "receipt");
    CHECK(rows[1].at("From") == "Bay 1");
    CHECK(rows[1].at("To") == "Bay 2");
    CHECK(rows[1].at("Weight kg") == "250.5");
    CHECK(rows[2].at("Kind") == "use");
    CHECK(rows[2].at("Weight kg") == "100");
    CHECK_FALSE(rows[2].at("Run").empty());
    day.act(CounterMovement{MovementId{2}, "the wrong bay"});
    rows = saved(day.plant, "movements");
    REQUIRE(rows.size() == 4);
    CHECK(rows[3].at("Takes back no.") == "2");
    const auto none = saved(day.plant.app(), {"movements", "", "2026-11-01", "2026-11-24"});
    CHECK(none.empty());
}

TEST_CASE("Runs are saved with the flour planned, batches with the flour that went in") {
    ADay day;
    const auto runs = saved(day.plant, "runs");
    REQUIRE(runs.size() == 1);
    CHECK(runs[0].at("Batches") == "3");
    CHECK(runs[0].at("Batches mixed") == "1");
    CHECK(runs[0].at("Flour needed kg") == "300");
    CHECK_THAT(runs[0].at("Lot or delivery"), Contains("118"));
    auto batches = saved(day.plant, "batches");
    REQUIRE(batches.size() == 1);
    CHECK(batches[0].at("Flour kg") == "100");
    CHECK_THAT(batches[0].at("Lots"), Contains("118") && Contains("100.000 kg"));
    CHECK(batches[0].at("Taken back") == "no");
    day.act(CounterBatch{BatchId{1}, "the wrong run"});
    CHECK(saved(day.plant, "batches").at(0).at("Taken back") == "yes");
}

TEST_CASE("A retest is saved a line a result, as it was reported") {
    ADay day;
    const auto rows = saved(day.plant, "retests");
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].at("Taken on") == "2026-11-24");
    CHECK(rows[0].at("Result") == "12.3");
    CHECK(rows[0].at("Basis") == "14 % moisture");
    CHECK(rows[0].at("Place") == "Bay 1");
    CHECK(rows[0].at("Withdrawn") == "no");
}

TEST_CASE("The journal of a span is saved from its first line to its last") {
    ADay day;
    const auto rows = saved(day.plant, "journal");
    const auto shown = day.plant.app().journal(1000);
    REQUIRE(rows.size() == shown.size());
    CHECK(rows.front().at("Line") == std::to_string(shown.back().id));
    CHECK(rows.back().at("Words") == shown.front().words);
}

TEST_CASE(
    "A lot that was used up is in the list of the past of its days, and no longer in that of the lots") {
    ADay day;
    day.act(WasteLot{day.lot, place(day.plant, "Bay 2"), "250,5", "wet"});
    day.act(WasteLot{day.lot, place(day.plant, "Bay 1"), "649,5", "wet"});
    const auto past = saved(day.plant, "past-lots");
    REQUIRE(past.size() == 1);
    CHECK(past[0].at("Received kg") == "1000");
    CHECK(saved(day.plant.app(), {"past-lots", "", "", "", "", "nothing like it"}).empty());
    CHECK(saved(day.plant.app(), {"past-lots", "", "2026-11-26", "2026-11-30"}).empty());
}

TEST_CASE("A list that cannot be saved is refused with every reason, and nothing is written") {
    SmallPlant plant;
    const TemporaryFolder folder;
    const auto refused = [&](SaveListing act) {
        plant.app().handle(act);
        CHECK(plant.was_refused());
        return plant.refusals();
    };
    const auto file = (folder / "x.csv").string();
    CHECK_THAT(refused({"flowers", file}),
               Contains("\"flowers\" is not one of the lists") && Contains("past-lots"));
    CHECK_THAT(refused({"movements", file, "soon", "later"}), Contains("From: ") && Contains("To: "));
    CHECK_THAT(refused({"movements", file, "2026-11-25", "2026-11-24"}), Contains("is before 2026-11-25"));
    CHECK_THAT(refused({"mill-record", file}), Contains("Mill: is empty"));
    CHECK_THAT(refused({"mill-record", file, "", "", "Nobody"}), Contains("\"Nobody\" is not known"));
    CHECK_THAT(refused({"lots", (folder / "x.ods").string()}), Contains(".csv or .xlsx is expected"));
    CHECK_THAT(refused({"lots", (folder / "none" / "x.csv").string()}), Contains("there is no folder"));
    fs::create_directory(folder / "folder.csv");
    CHECK_THAT(refused({"lots", (folder / "folder.csv").string()}), Contains("it is a folder"));
    fs::create_symlink(plant.book_path(), folder / "book.csv");
    CHECK_THAT(refused({"lots", (folder / "book.csv").string()}), Contains("it is the book"));
    CHECK_FALSE(fs::exists(file));
}

TEST_CASE(
    "A list that is saved without a file's name stands beside the book as a spreadsheet, to be looked at") {
    SmallPlant plant;
    plant.done(SaveListing{"lots"});
    const auto& document = plant.app().notice().document;
    CHECK(fs::path(document).filename() == "lots-2026-11-25.xlsx");
    CHECK(fs::path(document).parent_path() == fs::path(plant.book_path()).parent_path());
    CHECK(exchange::read_xlsx(testing::file_bytes(document)));
}

TEST_CASE("On a full disk the list saved before stays, and no half of the new one") {
    SmallPlant plant;
    const TemporaryFolder folder;
    const std::string ending = GENERATE(".csv", ".xlsx");
    const auto file = folder / ("lots" + ending);
    std::ofstream(file) << "as it was";
    {
        const testing::FullDisk full;
        plant.app().handle(SaveListing{"lots", file.string()});
    }
    CHECK(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("cannot be written"));
    CHECK(testing::file_bytes(file) == "as it was");
    CHECK(std::distance(fs::directory_iterator(folder.path()), {}) == 1);
    plant.app().handle(SaveListing{"lots", file.string()});
    CHECK(plant.was_done());
    CHECK(testing::file_bytes(file) != "as it was");
}
