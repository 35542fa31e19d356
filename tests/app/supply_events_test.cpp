#include "app/acts/batches.h"
#include "app/acts/intake.h"
#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/acts/save_listing.h"
#include "app/acts/stock.h"
#include "app/acts/trace.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/fixture_file.h"
#include "support/temporary_folder.h"

#include <filesystem>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;
using tests::TemporaryFolder;

namespace {

std::string events_of(SmallPlant& plant, SaveSupplyEvents act = {}) {
    const TemporaryFolder folder;
    act.file = (folder / "events.jsonld").string();
    plant.app().handle(act);
    INFO(plant.refusals());
    REQUIRE(plant.was_done());
    return testing::file_bytes(act.file);
}

std::size_t count(const std::string& text, const std::string& what) {
    std::size_t found = 0;
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1))
        ++found;
    return found;
}

PlaceId place(SmallPlant& plant, const std::string& name) {
    for (const auto& [id, known] : plant.app().lots().places)
        if (known == name)
            return id;
    return {};
}

} // namespace

TEST_CASE(
    "Flour that came, was moved and was mixed is told as events, with kg of each lot and the run's dough") {
    SmallPlant plant;
    const auto lot = plant.released_lot(plant.draft("W24 118"));
    plant.app().handle(MoveLot{lot, place(plant, "Bay 1"), place(plant, "Bay 2"), "250,5"});
    const auto run = plant.add_run("Pan bread", "2026-11-25", "3");
    plant.plan_week();
    plant.app().handle(ConfirmBatch{run, {}, 0});
    REQUIRE(plant.was_done());
    auto events = events_of(plant);
    CHECK(count(events, "\"eventID\"") == 3);
    CHECK_THAT(events, Contains("\"receiving\"") && Contains("\"quantity\":1000.0") &&
                           Contains("\"storing\"") && Contains("\"quantity\":250.5") &&
                           Contains("\"TransformationEvent\"") && Contains(":lot:Mill:W24%20118") &&
                           Contains(":place:Bay%202") && Contains(":dough:"));
    CHECK(events == events_of(plant)); // the same book, the same file
    CHECK(count(events, "errorDeclaration") == 0);

    plant.app().handle(CounterBatch{BatchId{1}, "the wrong run"});
    REQUIRE(plant.was_done());
    plant.app().handle(CounterMovement{MovementId{2}, "the wrong bay"});
    REQUIRE(plant.was_done());
    events = events_of(plant);
    CHECK(count(events, "\"eventID\"") == 5);
    CHECK(count(events, "\"did_not_occur\"") == 2);
    CHECK(count(events, ":place:Bay%202") ==
          4); // read point and location, of the move and of its declaration
    CHECK(count(events_of(plant, {"", "2026-11-26", "2026-11-30"}), "\"eventID\"") == 0);
}

TEST_CASE("Events are not saved under another ending, nor of a span that is none") {
    SmallPlant plant;
    plant.app().handle(SaveSupplyEvents{"x.csv", "soon"});
    CHECK_THAT(plant.refusals(), Contains("From: "));
    plant.app().handle(SaveSupplyEvents{"x.csv"});
    CHECK_THAT(plant.refusals(), Contains(".jsonld or .json is expected"));
}

TEST_CASE("Bread that left is told as shipped to its customer, and once more where it did not leave") {
    SmallPlant plant;
    plant.released_lot(plant.draft("W24-118"));
    const auto run = plant.add_run("Pan bread", "2026-11-25", "3");
    plant.plan_week();
    plant.done(ConfirmBatch{run, {}, 0});
    DispatchDraft sent;
    sent.customer = "K 17";
    sent.product = "Pan bread";
    sent.kg = "80";
    plant.done(LogDispatch{sent});
    const auto taking_back = plant.app().notice().undoing;
    const auto events = events_of(plant);
    CHECK_THAT(events, Contains("\"bizStep\":\"shipping\"") && Contains(":bread:Pan%20bread:") &&
                           Contains(":customer:K%2017") && Contains("\"quantity\":80.0"));
    REQUIRE(taking_back.size() == 1);
    plant.done(taking_back.front());
    CHECK(count(events_of(plant), "\"did_not_occur\"") == 1);
}
