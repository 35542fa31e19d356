#include "app/acts/notice.h"
#include "app/acts/settings.h"
#include "app/app.h"
#include "app/demo/first_start.h"
#include "app/models/lots.h"
#include "app/models/overview.h"
#include "app/models/setting_up.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/temporary_folder.h"

#include <filesystem>
#include <fstream>
#include <unistd.h>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;

namespace {

namespace fs = std::filesystem;

const Day today = day_from_iso("2026-11-25");

using tests::TemporaryFolder;

std::vector<std::string> files_in(const TemporaryFolder& folder) {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(folder.path()))
        names.push_back(entry.path().filename().string());
    std::sort(names.begin(), names.end());
    return names;
}

AppSetup setup_for(const fs::path& book) { return {book.string(), "Ada", Clock::standing_at(today)}; }

} // namespace

TEST_CASE("Where there is no book, a person is welcomed and nothing is made before they choose") {
    const TemporaryFolder folder;
    FirstStart start(setup_for(folder / "plant.mbook"));
    CHECK(start.welcomes());
    CHECK(start.app() == nullptr);
    CHECK(start.welcome().trouble.empty());
    CHECK_FALSE(start.welcome().has_book);
    CHECK(files_in(folder).empty());
}

TEST_CASE("Setting up makes the book, with its folder, and what was begun is gone on with") {
    const TemporaryFolder folder;
    const auto book = folder / "data/mellowbin/plant.mbook";
    {
        FirstStart start(setup_for(book));
        start.set_up();
        REQUIRE(start.app());
        CHECK_FALSE(start.welcomes());
        CHECK(start.app()->setting_up().next == SetUpStep::plant);
    }
    {
        FirstStart again(setup_for(book)); // made, and still nothing in it
        CHECK(again.welcomes());
        CHECK(again.welcome().has_book);
        again.set_up();
        again.app()->handle(ChangeSetting{"plant", "Corner bakery"});
    }
    FirstStart begun(setup_for(book));
    CHECK_FALSE(begun.welcomes());
    CHECK(begun.app()->setting_up().next == SetUpStep::mill);
}

TEST_CASE("The demo's book is made beside the own one, whole, with progress, and opened") {
    const TemporaryFolder folder;
    FirstStart start(setup_for(folder / "plant.mbook"));
    double share = 0;
    start.look_at_demo([&](std::string_view, double done) { share = std::max(share, done); });
    REQUIRE(start.app());
    CHECK(share > 0.9);
    CHECK_FALSE(start.welcomes());
    CHECK(start.app()->overview().book == (folder / "demo.mbook").string());
    CHECK(start.app()->lots().rows.size() >= 14);
    CHECK_THAT(start.app()->notice().words, Contains("demo.mbook") && Contains("plant.mbook"));
    CHECK_FALSE(fs::exists(folder / "plant.mbook"));
    for (const auto& name : files_in(folder))
        CHECK_THAT(name, !Contains("making"));
}

TEST_CASE("A demo's book that is there is opened as it is, and never made over") {
    const TemporaryFolder folder;
    {
        FirstStart first(setup_for(folder / "demo.mbook")); // any book of that name
        first.set_up();
        first.app()->handle(ChangeSetting{"plant", "My demo"});
    }
    FirstStart again(setup_for(folder / "plant.mbook"));
    CHECK(again.welcome().has_demo);
    again.look_at_demo();
    CHECK(again.app()->overview().plant == "My demo");
}

TEST_CASE("The demo's book never has the name of the person's own") {
    CHECK(demo_beside("/data/plant.mbook") == "/data/demo.mbook");
    CHECK(demo_beside("plant.mbook") == "demo.mbook");
    CHECK(demo_beside("/data/demo.mbook") == "/data/demo-bakery.mbook");
}

TEST_CASE("A file that is no book is told in words, and stays as it is") {
    const TemporaryFolder folder;
    std::ofstream(folder / "plant.mbook") << "shopping list: yeast, salt\n";
    FirstStart start(setup_for(folder / "plant.mbook"));
    CHECK(start.welcomes());
    CHECK_FALSE(start.welcome().trouble.empty());
    start.set_up();
    CHECK(start.welcomes());
    CHECK_FALSE(start.welcome().trouble.empty());
    CHECK(fs::file_size(folder / "plant.mbook") == 27);
    FirstStart(setup_for(folder / "demo.mbook")).set_up();
    start.look_at_demo(); // which is another file
    CHECK(start.welcome().trouble.empty());
    CHECK_FALSE(start.welcomes());
    CHECK(fs::file_size(folder / "plant.mbook") == 27);
}

TEST_CASE("A folder that cannot be written to is told in words, and nothing is left in it") {
    if (::geteuid() == 0) {
        WARN("root may write anywhere: skipped");
        return;
    }
    const TemporaryFolder folder;
    fs::permissions(folder.path(), fs::perms::owner_read | fs::perms::owner_exec);
    FirstStart start(setup_for(folder / "plant.mbook"));
    start.set_up();
    CHECK(start.welcomes());
    CHECK_FALSE(start.welcome().trouble.empty());
    start.look_at_demo();
    CHECK(start.welcomes());
    CHECK_FALSE(start.welcome().trouble.empty());
    CHECK(files_in(folder).empty());
}

TEST_CASE("A folder that cannot be made, because a file bears its name, is told in words") {
    const TemporaryFolder folder;
    std::ofstream(folder / "data") << "a file";
    FirstStart start(setup_for(folder / "data/plant.mbook"));
    start.set_up();
    CHECK(start.welcomes());
    CHECK_FALSE(start.welcome().trouble.empty());
    CHECK(files_in(folder) == std::vector<std::string>{"data"});
}

TEST_CASE("A book with a plant in it is opened without a question") {
    tests::SmallPlant plant;
    const FirstStart start(setup_for(plant.book_path()));
    CHECK_FALSE(start.welcomes());
}
