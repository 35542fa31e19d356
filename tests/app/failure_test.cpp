#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/lots.h"
#include "app/models/overview.h"
#include "app/models/settings.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/failing_book.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using Fails = tests::Disk::Fails;
using tests::Disk;

namespace {

/// The small plant on a disk that fails when it is told to, before anything was taken in.
struct PlantOnADisk {
    tests::SmallPlant plant;
    Disk disk;
    App app{
        AppSetup{plant.book_path(),
                 "Tomas",
                 Clock::standing_at(day_from_iso("2026-11-25")),
                 {},
                 [this](const std::string& book, const Progress&) { return tests::open_on(disk, book); }}};

    const Notice& take_in_while_it(Fails fails) {
        disk.fails = fails;
        app.handle(TakeIn{{plant.draft("W24-118")}});
        disk.fails = Fails::never;
        return app.notice();
    }
    /// What another look into the book finds.
    bool is_in_the_book() {
        plant.open_again();
        return plant.app().lots().rows.size() == 1;
    }
    [[nodiscard]] bool is_shown() const { return app.lots().rows.size() == 1; }
};

constexpr auto the_line = "\"Lot W24-118 taken in\"";

} // namespace

TEST_CASE("What failed before the commit is not in the book, and is told so") {
    PlantOnADisk on;
    const auto& told = on.take_in_while_it(Fails::in_a_statement);
    CHECK(told.kind == Notice::Kind::failed);
    CHECK_THAT(told.meaning, Contains("nothing of it is in the book"));
    CHECK_THAT(told.remedy, Contains("do it again"));
    CHECK_FALSE(on.is_in_the_book());
    CHECK_FALSE(on.is_shown());
    CHECK(on.disk.opened == 1);
}

TEST_CASE(
    "After a commit of which nothing reached the disk, the book is looked into again and it is not there") {
    PlantOnADisk on;
    const auto& told = on.take_in_while_it(Fails::before_it_is_written);
    CHECK(told.kind == Notice::Kind::failed);
    CHECK_THAT(told.meaning, Contains(std::string(the_line) + " is not in the book"));
    CHECK_THAT(told.remedy, Contains("do it again"));
    CHECK(on.disk.opened == 2);
    CHECK_FALSE(on.is_in_the_book());
    on.app.handle(TakeIn{{on.plant.draft("W24-118")}});
    CHECK(on.app.notice().kind == Notice::Kind::done);
    CHECK(on.is_in_the_book());
}

TEST_CASE("After a commit that failed and yet reached the disk, it is told to be in the book, and shown") {
    PlantOnADisk on;
    const auto& told = on.take_in_while_it(Fails::after_it_is_written);
    CHECK(told.kind == Notice::Kind::failed);
    CHECK_THAT(told.meaning, Contains(std::string(the_line) + " is in the book"));
    CHECK_THAT(told.remedy, Contains("Do not enter it again"));
    CHECK(on.disk.opened == 2);
    CHECK(on.is_shown());
    CHECK(on.is_in_the_book());
    CHECK(on.app.overview().to_judge == 1);
}

TEST_CASE("Where the book cannot be looked into after a failed commit, it is not known, and told so") {
    PlantOnADisk on;
    on.disk.opens = false;
    const bool reaches_the_disk = GENERATE(false, true);
    const auto& told =
        on.take_in_while_it(reaches_the_disk ? Fails::after_it_is_written : Fails::before_it_is_written);
    CHECK(told.kind == Notice::Kind::failed);
    CHECK_THAT(told.meaning, Contains("not known whether " + std::string(the_line)));
    CHECK_THAT(told.remedy, Contains("look before you enter it again"));
    CHECK(on.is_in_the_book() == reaches_the_disk);
}

TEST_CASE("What failed after the commit is in the book, and is told so, though it cannot be shown yet") {
    PlantOnADisk on;
    const auto& told = on.take_in_while_it(Fails::reading);
    CHECK(told.kind == Notice::Kind::failed);
    CHECK_THAT(told.meaning, Contains(std::string(the_line) + " is in the book"));
    CHECK_THAT(told.meaning, Contains("could not read the book again"));
    CHECK_THAT(told.remedy, Contains("Do not enter it again"));
    CHECK_FALSE(on.is_shown());
    CHECK(on.is_in_the_book());
}

TEST_CASE("What failed once after the commit is shown from the book as it was read again") {
    PlantOnADisk on;
    const auto& told = on.take_in_while_it(Fails::reading_once);
    CHECK(told.kind == Notice::Kind::failed);
    CHECK_THAT(told.words, Contains("is in the book"));
    CHECK_THAT(told.meaning, Contains("has read the book again"));
    CHECK(on.is_shown());
    CHECK(on.app.overview().to_judge == 1);
}

TEST_CASE("An act that succeeds after one that failed is told by itself") {
    PlantOnADisk on;
    on.take_in_while_it(Fails::after_it_is_written);
    const auto lot = on.app.lots().rows.at(0).id;
    on.app.handle(ReleaseLot{lot, ""});
    CHECK(on.app.notice().kind == Notice::Kind::done);
    on.disk.fails = Fails::in_a_statement;
    on.app.handle(HoldLot{lot, "smells musty"});
    CHECK_THAT(on.app.notice().meaning, Contains("nothing of it is in the book"));
}
