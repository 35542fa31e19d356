#include "app/acts/plant_described.h"
#include "app/acts/plant_records.h"
#include "app/acts/plant_set_up.h"
#include "app/acts/settings.h"
#include "app/book/book.h"
#include "app/book/clock.h"
#include "app/book/settings.h"
#include "app/book/setup.h"
#include "app/demo/plant.h"
#include "app/models/plant.h"
#include "app/models/settings.h"
#include "db/sqlite_connection.h"
#include "small_plant.h"
#include "support/full_plant.h"
#include "support/refusal_words.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using exchange::PlantDescription;

namespace {

const Day today = day_from_iso("2026-11-25");

/// A book of its own for a plant.
struct NewBook {
    tests::SmallPlant folder; // whose folder goes with it
    std::string path = folder.book_path() + ".new";
    App app{AppSetup{path, "Ada", Clock::standing_at(today)}};

    [[nodiscard]] PlantDescription plant() const {
        SqliteConnection connection(path);
        return described(Book::read(connection, today));
    }
    void does(const Intent& act) {
        app.handle(act);
        INFO(app.notice().words << " " << testing::all_words(app.notice().refusals));
        REQUIRE(app.notice().kind == Notice::Kind::done);
    }
    std::string refused(const PlantDescription& plant) {
        app.handle(SetUpPlant{plant});
        return app.notice().kind == Notice::Kind::refused ? testing::all_words(app.notice().refusals) : "";
    }
};

void check_same(const PlantDescription& one, const PlantDescription& other) {
    CHECK(one.plant == other.plant);
    CHECK(one.mills == other.mills);
    CHECK(one.flours == other.flours);
    CHECK(one.places == other.places);
    CHECK(one.lines == other.lines);
    CHECK(one.products == other.products);
    CHECK(one.door_checks == other.door_checks);
    CHECK(one.test_errors == other.test_errors);
    CHECK(one.settings == other.settings);
}

/// Everything as a person types it, record after record.
void type_in(NewBook& book, const PlantDescription& plant) {
    const auto keep = [&](PlantDraft draft) {
        const bool is_retired = draft.text("retired") == "yes";
        draft.texts["retired"] = "no";
        book.does(KeepPlantRecord{{draft.kind, 0}, draft});
        return std::pair{book.app.plant().kept.record, is_retired};
    };
    std::vector<PlantRef> to_retire;
    const auto keep_all = [&](const auto& records) {
        for (const auto& record : records)
            if (const auto [ref, is_retired] = keep(draft_of(record)); is_retired)
                to_retire.push_back(ref);
    };
    book.does(ChangeSetting{"plant", plant.plant});
    keep_all(plant.mills);
    keep_all(plant.flours);
    keep_all(plant.places);
    keep_all(plant.lines);
    for (const auto& baked : plant.products) {
        auto draft = draft_of(baked.product, {});
        draft.texts["flour"] = baked.flour;
        draft.texts["second_flour.flour"] = baked.second_flour;
        if (const auto [ref, is_retired] = keep(draft); is_retired)
            to_retire.insert(to_retire.begin(), ref); // before its flour
    }
    for (const auto& ref : to_retire)
        book.does(RetirePlantRecord{ref});
    std::string checks;
    for (const auto& check : plant.door_checks)
        checks += check + "\n";
    if (!checks.empty())
        book.does(ChangeSetting{"door_checks", checks});
    for (const auto& [property, value] : plant.test_errors)
        book.does(ChangeSetting{test_error_key(property), value});
    for (const auto& [key, value] : plant.settings)
        book.does(ChangeSetting{key, value});
}

/// A second flour that is retired could be chosen by nobody any more.
PlantDescription as_typed_plant() {
    auto plant = tests::full_plant();
    plant.flours[1].is_retired = false;
    return plant;
}

} // namespace

TEST_CASE("The demo's plant file, put into a book and written from it, says the same plant") {
    const auto read = exchange::read_plant_file(demo_plant());
    REQUIRE(read);
    NewBook book;
    book.does(SetUpPlant{*read});
    check_same(book.plant(), *read);
    const auto again = exchange::read_plant_file(exchange::write_plant_file(book.plant()));
    REQUIRE(again);
    check_same(*again, *read);
}

TEST_CASE("A plant with every field, retired records and choices of its own goes through a book unchanged") {
    const auto plant = tests::full_plant();
    NewBook book;
    book.does(SetUpPlant{plant});
    check_same(book.plant(), plant);
    const auto again = exchange::read_plant_file(exchange::write_plant_file(book.plant()));
    REQUIRE(again);
    check_same(*again, plant);
}

TEST_CASE("A plant that is typed in record by record is the one its file describes") {
    const auto full = as_typed_plant();
    NewBook typed;
    type_in(typed, full);
    check_same(typed.plant(), full);
    const auto demo = exchange::read_plant_file(demo_plant());
    REQUIRE(demo);
    NewBook typed_demo;
    type_in(typed_demo, *demo);
    check_same(typed_demo.plant(), *demo);
}

TEST_CASE("A choice that was taken back is not the plant's any more") {
    NewBook book;
    book.does(ChangeSetting{"warm_flour", "32"});
    CHECK(book.plant().settings.size() == 1);
    book.does(ChangeSetting{"warm_flour", "30"});
    CHECK(book.plant().settings.empty());
}

TEST_CASE("A choice that is none is refused by its place, and nothing of the plant file is kept") {
    auto plant = tests::full_plant();
    plant.settings = {{"warm_flour", "90"}, {"cellar", "1"}, {"time_zone", "Atlantis"}, {"plant", "Other"}};
    plant.test_errors = {{"alveograph_w", "much"}, {"colour", "1"}};
    plant.door_checks = {"Bags dry", "bags dry"};
    NewBook book;
    const auto words = book.refused(plant);
    CHECK_THAT(words, Contains("settings.warm_flour: 90 was read") &&
                          Contains("settings.cellar: \"cellar\" is not known") &&
                          Contains("settings.time_zone: \"Atlantis\" is not in the zone tables") &&
                          Contains("settings.plant: has a member of its own"));
    CHECK_THAT(words, Contains("test_errors.alveograph_w: \"much\" was read") &&
                          Contains("test_errors.colour:") &&
                          Contains("door_checks: \"bags dry\" stands there twice"));
    check_same(book.plant(), PlantDescription{});
}

TEST_CASE("A name that the book has in other letters is refused, and nothing is kept") {
    NewBook book;
    book.does(SetUpPlant{tests::full_plant()});
    auto plant = tests::full_plant();
    plant.places[1].name = "bay 1";
    plant.lines[0].room = Celsius{30};
    CHECK_THAT(book.refused(plant), Contains("\"bay 1\" is in the book as \"Bay 1\""));
    check_same(book.plant(), tests::full_plant());
}

TEST_CASE("What a plant file says of a record the book has holds, and the others stay") {
    NewBook book;
    book.does(SetUpPlant{tests::full_plant()});
    PlantDescription more;
    more.plant = "Full plant";
    more.mills = {{{}, "Old Mill", false}, {{}, "Ridge Mill", false}};
    more.settings = {{"warm_flour", "31"}};
    book.does(SetUpPlant{more});
    const auto plant = book.plant();
    CHECK(plant.mills ==
          std::vector<Mill>{{{}, "Weir Mill", false}, {{}, "Old Mill", false}, {{}, "Ridge Mill", false}});
    CHECK(plant.settings.at("warm_flour") == "31");
    CHECK(plant.settings.at("time_zone") == "Europe/Lisbon");
    CHECK(plant.door_checks == tests::full_plant().door_checks);
}

TEST_CASE("A plant file retires nothing that stock, runs or a product of the book still need") {
    tests::SmallPlant plant;
    plant.released_lot(plant.draft("W24-118")); // lies in Bay 1
    plant.add_run("Pan bread", "2026-11-26", "3");
    const auto in_book = [&] {
        SqliteConnection connection(plant.book_path());
        return described(Book::read(connection, today));
    };
    auto file = in_book();
    const auto retire = [](auto& records, std::string_view name) {
        for (auto& record : records)
            if (record.name == name)
                record.is_retired = true;
    };
    retire(file.places, "Bay 1");
    retire(file.flours, "Strong white");
    retire(file.lines, "Line 1");
    plant.app().handle(SetUpPlant{file});
    REQUIRE(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("places Bay 1: retired") && Contains("lot W24-118 lie there") &&
                                     Contains("flours Strong white: retired: Pan bread is made of it") &&
                                     Contains("lines Line 1: retired: runs are planned"));
    CHECK_FALSE(in_book().places.front().is_retired);
}

TEST_CASE("A plant file may retire a flour together with the products that are made of it") {
    tests::SmallPlant plant;
    SqliteConnection connection(plant.book_path());
    auto file = described(Book::read(connection, today));
    for (auto& flour : file.flours)
        flour.is_retired = true;
    for (auto& baked : file.products)
        baked.product.is_retired = true;
    plant.app().handle(SetUpPlant{file});
    INFO(plant.refusals());
    REQUIRE(plant.was_done());
    CHECK(described(Book::read(connection, today)).flours.front().is_retired);
}
