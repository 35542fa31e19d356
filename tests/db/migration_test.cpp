#include "book_support.h"
#include "db/bake_store.h"
#include "db/batch_store.h"
#include "db/begun_store.h"
#include "db/certificate_source_store.h"
#include "db/climate_store.h"
#include "db/complaint_store.h"
#include "db/concession_store.h"
#include "db/delivery_store.h"
#include "db/dispatch_store.h"
#include "db/draw_store.h"
#include "db/drill_store.h"
#include "db/journal_store.h"
#include "db/learning_store.h"
#include "db/limit_store.h"
#include "db/migration.h"
#include "db/mill_return_store.h"
#include "db/mill_word_store.h"
#include "db/movement_store.h"
#include "db/retest_store.h"
#include "db/rework_store.h"
#include "db/settings_store.h"
#include "db/silo_store.h"
#include "db/stock_store.h"
#include "db/supply_store.h"
#include "db/taught_store.h"
#include "db/test_precision_store.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <fmt/format.h>

namespace mellowbin {
namespace {

namespace fs = std::filesystem;

/// The book of a fixture, as the version that shipped with that form left it.
fs::path book_of_form(int number, const TemporaryFolder& folder) {
    SQLite::Database book((folder / "book").string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    book.exec(bytes_of(fmt::format(MELLOWBIN_FIXTURES "/books/v{:04}.sql", number)));
    return folder / "book";
}

int newest_form() { return built_in_migrations().back().number; }

/// A book of the present form.
fs::path present_book(const TemporaryFolder& folder) { return book_of_form(newest_form(), folder); }

std::vector<std::string> schema_of(const fs::path& path) {
    SQLite::Database book(path.string(), SQLite::OPEN_READWRITE);
    SQLite::Statement query(book, "SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY type, name");
    std::vector<std::string> schema;
    while (query.executeStep())
        schema.push_back(query.getColumn(0).getString());
    return schema;
}

/// Every row of the table, none where there is no such table, its columns joined as the engine writes them.
std::vector<std::string> rows_of(const fs::path& path, const std::string& table) {
    SQLite::Database book(path.string(), SQLite::OPEN_READWRITE);
    std::vector<std::string> rows;
    if (!book.tableExists(table))
        return rows;
    SQLite::Statement query(book, "SELECT * FROM " + table);
    while (query.executeStep()) {
        auto& words = rows.emplace_back();
        for (int column = 0; column < query.getColumnCount(); ++column)
            words += fmt::format("{}={}|", query.getColumnName(column), query.getColumn(column).getString());
    }
    return rows;
}

std::vector<Migration> with_next(std::string_view sql) {
    std::vector<Migration> steps(built_in_migrations().begin(), built_in_migrations().end());
    steps.push_back({steps.back().number + 1, "tried_in_a_test", sql});
    return steps;
}

std::string copy_before(const fs::path& book, int number) {
    return fmt::format("{}.before-{:04}", book.string(), number);
}

void check_what_the_second_form_held(Connection& book) {
    CHECK(PlantStore(book).places().at(0).humidity == RelativeHumidity{0.62});
    CHECK_FALSE(PlantStore(book).places().at(1).humidity);
    CHECK(LotStore(book).all()[1].certificate.find(Property::glutathione)->value == 48.5);

    const auto retests = RetestStore(book).all();
    REQUIRE(retests.size() == 2);
    CHECK(retests[0].results.find(Property::extensograph_resistance)->value == 322);
    CHECK(retests[0].place == PlaceId{1});
    CHECK_FALSE(retests[0].is_withdrawn);
    CHECK(retests[1].is_withdrawn);
    CHECK(retests[1].note.empty()); // the reason of a withdrawal is not the retest's note

    CHECK(ClimateStore(book).logs().size() == 2);
    const auto readings = ClimateStore(book).readings(PlaceId{1});
    REQUIRE(readings.size() == 3);
    CHECK(readings[0] == ClimateReading{date::sys_days{2026_y / 11 / 28} + std::chrono::hours(8),
                                        Celsius{17.5}, RelativeHumidity{0.61}});
    CHECK(LearningStore(book).find(LearningId{1})->sites.at(0).document == R"({"rate": 0.09})");
    CHECK(LearningStore(book).newest()->restores == LearningId{0});
    CHECK_FALSE(LearningStore(book).holding());
}

void check_what_the_fourth_form_held(Connection& book) {
    const auto product = PlantStore(book).products().at(0);
    CHECK(product.preservative == Preservative::cultured_wheat);
    CHECK(product.cultured_acid_percent == 9.5);
    CHECK(product.enzyme == "maltogenic amylase");
    CHECK(product.bread_erh == 95.5);
    CHECK(product.process == DoughProcess::sponge);
    CHECK(product.most_fermentation_minutes == 300);
    CHECK(product.maturity_per_hour == 0.04);
    CHECK(PlantStore(book).lines().at(0).ice_temperature == Celsius{-6});
    const auto batches = BatchStore(book).all();
    REQUIRE(batches.size() == 2);
    CHECK(batches[0].flour == std::vector{BatchFlour{LotId{1}, Grams{400'000}}});
    CHECK(batches[0].result == BatchResult{Celsius{26.5}, 5.4, Feel::right, 8.5, 75, ""});
    CHECK(batches[0].solution == SolutionId{1});
    CHECK(batches[1].is_countered);
    CHECK(BatchStore(book).uses_of(BatchId{1}) == std::vector{MovementId{3}});
    CHECK(BatchStore(book).solutions().at(1).has_ended);
    CHECK(BakeStore(book).bakes().at(0).size == 2150);
    CHECK(BakeStore(book).bakes().at(1).is_withdrawn);
    CHECK(BakeStore(book).records().at(0).mould_seen);
    CHECK(BakeStore(book).records().at(1).firmness_g == 410);
}

void check_what_the_first_form_held(Connection& book) {
    const auto lots = LotStore(book).all();
    REQUIRE(lots.size() == 2);
    CHECK(lots[0].code == "W24-118");
    CHECK(lots[0].received == Grams{25'000'000});
    CHECK(lots[0].milled_on == date::sys_days{2026_y / 11 / 16});
    CHECK(lots[0].state == LotState::released);
    CHECK(lots[0].certificate.values().size() == 4);
    REQUIRE(lots[0].certificate.find(Property::protein) != nullptr);
    CHECK(lots[0].certificate.find(Property::protein)->value == 11.85);
    CHECK(lots[0].certificate.find(Property::protein)->basis == Basis::at(Moisture{14}));
    CHECK(lots[0].certificate.find(Property::falling_number)->method == "ISO 3093");
    REQUIRE(lots[0].mill_additions.size() == 1);
    CHECK(lots[0].mill_additions[0] == MillAddition{Substance::ascorbic_acid, OxidantPpm{20}});
    CHECK_FALSE(lots[1].milled_on);
    CHECK(lots[1].state == LotState::held);

    CHECK(PlantStore(book).mills().at(0).name == "Upper mill");
    CHECK(PlantStore(book).flours().at(0).specification.size() == 2);
    CHECK(PlantStore(book).places().at(0).climate.size() == 1);
    CHECK(PlantStore(book).places().at(0).temperature == Celsius{18});
    CHECK(PlantStore(book).products().at(0).ingredients.size() == 2);
    CHECK(PlantStore(book).lines().at(0).friction_factor == CelsiusStep{14.5});
    CHECK(StockBook(MovementStore(book).all()).total(lots[0].id) == Grams{24'600'000});
    CHECK(RunStore(book).all().at(0).code == "R-1126-1");
    CHECK(RunStore(book).assignments().at(0).is_locked);
    CHECK(LimitStore(book).rows().at(0).limit == OxidantPpm{50});
    CHECK(LimitStore(book).markets().size() == 2);
    CHECK(SettingsStore(book).find("room_temperature")->value == "22");
    CHECK(JournalStore(book).newest(100).size() >= 6);
    CHECK(book.faults().empty());
}

} // namespace

TEST_CASE("The migrations are numbered from 1 without a gap") {
    int number = 0;
    for (const auto& step : built_in_migrations()) {
        CHECK(step.number == ++number);
        CHECK_FALSE(step.name.empty());
        CHECK_FALSE(step.sql.empty());
    }
    CHECK(number >= 1);
}

TEST_CASE("Each migration still makes the book that shipped with it") {
    const int form = GENERATE(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16);
    REQUIRE(newest_form() == 16); // a new form needs its fixture
    const TemporaryFolder folder;
    { SqliteConnection book(folder / "new", built_in_migrations().first(static_cast<std::size_t>(form))); }
    CHECK(schema_of(folder / "new") == schema_of(book_of_form(form, folder)));
}

TEST_CASE("The journal of an older book tells of which record each line is") {
    const TemporaryFolder folder;
    SqliteConnection book(book_of_form(5, folder));
    const auto of_lot = JournalStore(book).about(record_of(LotId{1}));
    REQUIRE_FALSE(of_lot.empty());
    for (const auto& line : of_lot)
        CHECK(line.subject == "lot W24-118");
    CHECK(JournalStore(book).about(record_of(RunId{1})).size() == 1);
}

TEST_CASE("A book of the first form opens in this version with all that it held") {
    const TemporaryFolder folder;
    SqliteConnection book(book_of_form(1, folder));
    check_what_the_first_form_held(book);
    CHECK_FALSE(PlantStore(book).places().at(0).humidity);
    CHECK(RetestStore(book).all().empty());
    CHECK(ClimateStore(book).logs().empty());
    CHECK_FALSE(LearningStore(book).newest());
    CHECK(JournalStore(book).newest(100).size() == 6);
}

TEST_CASE(
    "A book brought to the present form has the form of a new one, and takes what only that one can hold") {
    const TemporaryFolder folder;
    const auto path = book_of_form(GENERATE(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14), folder);
    { SqliteConnection book(path); }
    CHECK(schema_of(path) == schema_of([&] {
              { SqliteConnection book(folder / "new"); }
              return folder / "new";
          }()));
    SqliteConnection book(path);
    book.execute("INSERT INTO lot_value VALUES (1, 'glutathione', 48.5, 'as is', '', 5.7)");
    CHECK(LotStore(book).all()[0].certificate.find(Property::glutathione)->value == 48.5);
    book.execute("UPDATE product SET one_lot_a_batch = 1");
    CHECK(PlantStore(book).products()[0].one_lot_a_batch);
}

TEST_CASE("A book of the second form opens in this version with all that it held") {
    const TemporaryFolder folder;
    SqliteConnection book(book_of_form(2, folder));
    check_what_the_first_form_held(book);
    check_what_the_second_form_held(book);
    CHECK_FALSE(PlantStore(book).products().at(0).one_lot_a_batch);
    CHECK_FALSE(PlantStore(book).products().at(0).second_flour);
    CHECK(SupplyStore(book).expected().empty());
    CHECK(SupplyStore(book).reservations().empty());
    CHECK(RunStore(book).promises().empty());
}

TEST_CASE("A book of the third form opens in this version with all that it held") {
    const TemporaryFolder folder;
    SqliteConnection book(book_of_form(3, folder));
    check_what_the_first_form_held(book);
    check_what_the_second_form_held(book);
    const auto product = PlantStore(book).products().at(0);
    CHECK(product.one_lot_a_batch);
    REQUIRE(product.second_flour);
    CHECK(product.second_flour->flour == FlourId{2});
    CHECK(product.second_flour->share == 0.25);
    CHECK(product.second_flour->windows == Specification{{Property::falling_number, 120, {}, "ISO 3093"}});
    const auto expected = SupplyStore(book).expected();
    REQUIRE(expected.size() == 2);
    CHECK(expected[0] == ExpectedDelivery{ExpectedId{1}, "E-1", MillId{1}, FlourId{1}, Grams{24'000'000},
                                          date::sys_days{2026_y / 12 / 4}, date::sys_days{2026_y / 12 / 2},
                                          false});
    CHECK(expected[1].has_come);
    CHECK(RunStore(book).promises() ==
          std::vector{Promise{RunId{2}, ExpectedId{1}, Grams{150'000}, "the first that is mature in time"}});
    const auto reservations = SupplyStore(book).reservations();
    REQUIRE(reservations.size() == 2); // the third has ended
    CHECK(reservations[0].kept_back == Grams{500'000});
    CHECK(reservations[1].product == ProductId{1});
}

TEST_CASE("A book of the third form has batches, bakes and records of keeping to be written, and none yet") {
    const TemporaryFolder folder;
    SqliteConnection book(book_of_form(3, folder));
    CHECK(BatchStore(book).all().empty());
    CHECK(BatchStore(book).solutions().empty());
    CHECK(BakeStore(book).bakes().empty());
    CHECK(BakeStore(book).records().empty());
    const auto product = PlantStore(book).products().at(0);
    CHECK(product.preservative == Preservative::calcium_propionate);
    CHECK(product.process == DoughProcess::straight);
    CHECK(product.most_fermentation_minutes == 0);
    CHECK_FALSE(product.maturity_per_hour);
    CHECK(PlantStore(book).lines().at(0).ice_temperature == Celsius{0});
}

TEST_CASE("A book of the fourth form or a later one opens in this version with all that it held") {
    const TemporaryFolder folder;
    SqliteConnection book(book_of_form(GENERATE(4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16), folder));
    check_what_the_first_form_held(book);
    check_what_the_second_form_held(book);
    check_what_the_fourth_form_held(book);
}

TEST_CASE("A book of the fifth form knows what the plant said of its doughs, and keeps nothing yet of what "
          "they taught") {
    const TemporaryFolder folder;
    SqliteConnection book(book_of_form(5, folder));
    CHECK(TaughtStore(book).expected() ==
          std::vector{ExpectedOffset{ProductId{1}, BatchId{}, AbsorptionPoints{-1.5}, true}});
    const auto batches = TaughtStore(book).after(BatchId{}, 10);
    REQUIRE(batches.size() == 2);
    CHECK(batches[0].beside.percent == 4.5);
    CHECK(batches[0].ice_temperature == Celsius{-6});
    CHECK(count_of(book, "belief_mark") == 0);
    CHECK(count_of(book, "belief_lot") == 0);
}

TEST_CASE(
    "Loaves of a book of the seventh form come without the maturity of their flour, which later ones have") {
    const TemporaryFolder folder;
    {
        SqliteConnection book(book_of_form(7, folder));
        CHECK(BakeStore(book).bakes().size() == 2);
        CHECK_FALSE(BakeStore(book).bakes().at(0).maturity);
    }
    const TemporaryFolder other;
    SqliteConnection book(book_of_form(8, other));
    CHECK(BakeStore(book).bakes().at(0).maturity ==
          MaturityRange{Maturity{0.4}, Maturity{0.55}, Maturity{0.7}});
}

TEST_CASE("Runs of a book of the eighth form ferment as their products, which those of later ones need not") {
    const TemporaryFolder folder;
    {
        SqliteConnection book(book_of_form(8, folder));
        for (const auto& run : RunStore(book).all())
            CHECK(run.longer_fermentation_minutes == 0);
    }
    const TemporaryFolder other;
    SqliteConnection book(book_of_form(9, other));
    CHECK(RunStore(book).find(RunId{1})->longer_fermentation_minutes == 0);
    CHECK(RunStore(book).find(RunId{2})->longer_fermentation_minutes == 25);
}

TEST_CASE("No result of a laboratory is changed or lost when an older book is brought to the present form") {
    const TemporaryFolder folder;
    const auto path = book_of_form(GENERATE(1, 2, 3, 4, 5), folder);
    const auto lots = rows_of(path, "lot_value");
    const auto retests = rows_of(path, "retest_value");
    CHECK(lots.size() >= 4);
    { SqliteConnection book(path); }
    CHECK(rows_of(path, "lot_value") == lots);
    CHECK(rows_of(path, "retest_value") == retests);
}

TEST_CASE("An older book is copied before it is brought to the present form") {
    const TemporaryFolder folder;
    const auto path = present_book(folder);
    const auto steps =
        with_next("ALTER TABLE mill ADD COLUMN town TEXT NOT NULL DEFAULT ''; UPDATE mill SET town = 'x'");
    {
        SqliteConnection book(path, steps);
        CHECK(LotStore(book).all().size() == 2);
        book.query("SELECT town FROM mill", {}, [](const Row& row) { CHECK(row.text(0) == "x"); });
    }
    REQUIRE(fs::exists(copy_before(path, newest_form() + 1)));
    SqliteConnection copy(copy_before(path, newest_form() + 1));
    CHECK(LotStore(copy).all().size() == 2);
    CHECK(fault_of([&] { copy.execute("SELECT town FROM mill"); }).fault() == BookFault::rule_broken);
    CHECK(fault_of([&] { SqliteConnection older_program(path); }).fault() == BookFault::newer_book);
}

TEST_CASE("A book of the first form is copied once before all the steps to the present one") {
    const TemporaryFolder folder;
    const auto path = book_of_form(1, folder);
    { SqliteConnection book(path); }
    REQUIRE(fs::exists(copy_before(path, 2)));
    CHECK(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator{}) == 2);
    SqliteConnection copy(copy_before(path, 2), built_in_migrations().first(1));
    CHECK(count_of(copy, "lot_value") == 4);
    CHECK(fault_of([&] { copy.execute("SELECT * FROM retest"); }).fault() == BookFault::rule_broken);
}

TEST_CASE("A place that was retired is so in the book of the tenth form") {
    const TemporaryFolder folder;
    SqliteConnection book(book_of_form(10, folder));
    CHECK_FALSE(PlantStore(book).places().at(0).is_retired);
    CHECK(PlantStore(book).places().at(1).is_retired);
}

TEST_CASE(
    "What came together, was judged, written on papers and held against mills is so in the later forms") {
    const TemporaryFolder folder;
    const LotId first{1}, second{2};
    const auto form = GENERATE(10, 11, 12, 13, 14, 15, 16);
    SqliteConnection book(book_of_form(form, folder));
    const auto delivery = DeliveryStore(book).of_lot(first);
    CHECK(delivery.has_value() == (form >= 11));
    CHECK(DeliveryStore(book).pallets_of(first).size() == (form >= 11 ? 1 : 0));
    CHECK(BegunStore(book).open().size() == (form >= 11 ? 1 : 0));
    const auto concession = ConcessionStore(book).of(first);
    CHECK(concession.has_value() == (form >= 12));
    CHECK((!concession || concession->products == std::vector{ProductId{1}}));
    CHECK(MillReturnStore(book).of(second).size() == (form >= 12 ? 1 : 0));
    CHECK(TestPrecisionStore(book).rows().size() == (form >= 12 ? 1 : 0));
    CHECK(MillWordStore(book).holding().size() == (form >= 13 ? 1 : 0));
    const auto source = CertificateSourceStore(book).of(first);
    CHECK(source.has_value() == (form >= 13));
    if (form >= 13)
        CHECK(CertificateSourceStore(book).source(CertificateSourceId{1})->bytes == "a,b");
    CHECK(ComplaintStore(book).open_of(MillId{1}).size() == (form >= 14 ? 1 : 0));
}

TEST_CASE("Where bread went, what was put back, how silos mix and drills are so in the fifteenth form") {
    const TemporaryFolder folder;
    const auto form = GENERATE(14, 15);
    SqliteConnection book(book_of_form(form, folder));
    const auto went = DispatchStore(book).of_run(RunId{1});
    const auto zone = SiloStore(book).zones().at(PlaceId{2});
    const auto drill = DrillStore(book).find(DrillId{1});
    CHECK(went.size() == (form >= 15 ? 2 : 0));
    CHECK(zone.mass.has_value() == (form >= 15));
    CHECK(ReworkStore(book).of(BatchId{1}).size() == (form >= 15 ? 1 : 0));
    REQUIRE(drill.has_value() == (form >= 15));
    if (form < 15)
        return;
    CHECK(went[0].customer == "K-17");
    CHECK(went[0].mass == Grams{80'000});
    CHECK(went[1].is_countered);
    CHECK(zone.mass == Grams{2'500'000});
    REQUIRE(drill->end);
    CHECK(drill->end->seconds == 250);
    REQUIRE(drill->end->report.size() == 1);
    CHECK(drill->end->report[0].title == "Mass balance");
    CHECK(drill->end->report[0].notes == std::vector<std::string>{"of lot W24-118"});
    CHECK(in_words(drill->end->report[0].columns[1], drill->end->report[0].rows.at(0).at(1)) == "25000.000");
}

TEST_CASE(
    "What lies where is so in the book of the sixteenth form, and is added up for one of an older form") {
    const TemporaryFolder folder;
    const auto form = GENERATE(1, 8, 15, 16);
    SqliteConnection book(book_of_form(form, folder));
    const StockBook stock(MovementStore(book).all());
    std::size_t places = 0;
    for (const auto& line : StockStore(book).now()) {
        CHECK(line.mass == stock.at(line.lot, line.place));
        places += stock.places_of(line.lot).size() > 0 ? 1 : 0;
    }
    CHECK(places > 0);
    CHECK(book.faults().empty());
    CHECK(SiloStore(book).capacities().size() == (form >= 16 ? 1 : 0));
    CHECK(DrawStore(book).of(RunId{1}).size() == (form >= 16 ? 1 : 0));
    CHECK(SiloStore(book).care_of(PlaceId{2}, 5).size() == (form >= 16 ? 1 : 0));
}

TEST_CASE("A book in the present form is not copied") {
    const TemporaryFolder folder;
    const auto path = present_book(folder);
    { SqliteConnection book(path); }
    { SqliteConnection book(path, with_next("SELECT 1")); }
    { SqliteConnection book(path, with_next("SELECT 1")); }
    int copies = 0;
    for (const auto& entry : fs::directory_iterator(folder.path()))
        copies += entry.path().string().find(".before-") != std::string::npos ? 1 : 0;
    CHECK(copies == 1);
}

TEST_CASE("A migration that fails half-way leaves the book as it was") {
    const TemporaryFolder folder;
    const auto path = present_book(folder);
    const auto sql =
        GENERATE(as<std::string>{}, "DELETE FROM assignment; CREATE TABLE mill (name TEXT)",
                 "DELETE FROM assignment; DELETE FROM place"); // movements would refer to nothing
    const auto fault = fault_of([&] { SqliteConnection book(path, with_next(sql)); });
    CHECK(fault.fault() == BookFault::rule_broken);
    CHECK(fs::exists(copy_before(path, newest_form() + 1)));
    SqliteConnection book(path);
    CHECK(RunStore(book).assignments().size() == 1);
    CHECK(PlantStore(book).places().size() == 2);
    CHECK(book.faults().empty());
}

TEST_CASE("A migration may rebuild a table that others refer to") {
    const TemporaryFolder folder;
    const auto path = present_book(folder);
    SqliteConnection book(
        path, with_next("CREATE TABLE mill_new (id INTEGER PRIMARY KEY, name TEXT NOT NULL) STRICT;"
                        "INSERT INTO mill_new SELECT id, name FROM mill; DROP TABLE mill;"
                        "ALTER TABLE mill_new RENAME TO mill;"));
    CHECK(PlantStore(book).mills().size() == 1);
    CHECK(LotStore(book).all().size() == 2);
    CHECK(book.faults().empty());
    CHECK(fault_of([&] { book.execute("DELETE FROM mill"); }).fault() ==
          BookFault::rule_broken); // keys hold again
}

} // namespace mellowbin
