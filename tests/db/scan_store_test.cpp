#include "book_support.h"
#include "db/journal_store.h"
#include "db/scan_store.h"

#include <algorithm>

namespace mellowbin {
namespace {

struct Scanning {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    LotId lot = take_in_released(book, plant, "W1");
    RunId run = add_run(book, good_run(plant, "R1"));
    ScanStore scans{book};

    BagScanId log(const std::string& code, std::optional<LotId> of) {
        Change change(book, line("A bag was scanned"));
        BagScan scan;
        scan.run = run;
        scan.batch = 2;
        scan.code = code;
        scan.lot = of;
        const auto id = scans.log(change, scan);
        change.commit();
        return id;
    }
    Result<Done> clear(BagScanId id) {
        Change change(book, line("A wrong bag was cleared"));
        auto done = scans.clear(change, id, "Grace Example", "never opened");
        if (done)
            change.commit();
        return done;
    }
};

} // namespace

TEST_CASE("A scan comes back as it was read, by whom and when its line says") {
    Scanning at;
    const auto id = at.log("W1", at.lot);
    const auto all = at.scans.of(at.run);
    REQUIRE(all.size() == 1);
    CHECK(all[0].id == id);
    CHECK(all[0].batch == 2);
    CHECK(all[0].code == "W1");
    CHECK(all[0].lot == at.lot);
    CHECK(all[0].at == line("").at);
    CHECK(all[0].who == line("").who);
    CHECK(all[0].cleared_by.empty());
    CHECK(at.scans.of_runs_since(good_run(at.plant, "R1").day) == all);
    CHECK(at.scans.of_runs_since(good_run(at.plant, "R1").day + Days{1}).empty());
    CHECK(at.scans.of(RunId{99}).empty());
}

TEST_CASE("A wrong bag is cleared once, a right one never, and both stay in the book") {
    Scanning at;
    const auto right = at.log("W1", at.lot);
    const auto wrong = at.log("W9", {});
    CHECK_FALSE(at.clear(right));
    CHECK(at.clear(wrong));
    CHECK(at.scans.of(at.run)[1].cleared_by == "Grace Example");
    CHECK_FALSE(at.clear(wrong));
    CHECK_FALSE(at.clear(BagScanId{99}));
    CHECK_THROWS(at.book.execute("DELETE FROM bag_scan", {}));
    CHECK_THROWS(at.book.execute("UPDATE bag_scan SET lot_id = $1", {at.lot}));
    CHECK_THROWS(at.book.execute("DELETE FROM bag_scan_cleared", {}));
}

TEST_CASE("Another station learns of a scan by the run it belongs to") {
    Scanning at;
    const auto before = JournalStore(at.book).version();
    at.log("W9", {});
    const auto changes = JournalStore(at.book).since(before);
    CHECK(std::find(changes.records.begin(), changes.records.end(), record_of(at.run)) !=
          changes.records.end());
}

} // namespace mellowbin
