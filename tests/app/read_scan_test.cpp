#include "app/acts/intake.h"
#include "app/acts/notice.h"
#include "app/acts/read_scan.h"
#include "app/acts/scanner.h"
#include "app/acts/settings.h"
#include "app/book/setup.h"
#include "app/models/card.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "app/models/overview.h"
#include "app/models/settings.h"
#include "small_plant.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::app;
using namespace std::chrono_literals;
using Catch::Matchers::Contains;
using tests::SmallPlant;
using At = ReadScan::At;

namespace {

const std::string label = "]C1010952123454321310W24-118\x1d"
                          "15270531";
const std::string pallet_code = "095201234500000014";

/// A station whose clock goes on as the test says, on a small plant's book with lot W24-118 released.
struct AtTheDock {
    SmallPlant plant;
    Instant now = day_from_iso("2026-11-25") + 9h;
    App app;

    AtTheDock()
        : app({(plant.released_lot(plant.draft("W24-118")), plant.book_path()), "Ada",
               Clock{[this] { return now; }, day_from_iso("2026-11-25"), "Europe/Lisbon"}}) {}

    void scans(const std::string& bytes, At at = At::intake, RunId run = {}) {
        app.handle(ReadScan{bytes, at, run});
    }
    [[nodiscard]] const IntakeModel& intake() const { return app.intake(); }
    [[nodiscard]] std::string said() const { return app.notice().words; }
    [[nodiscard]] bool was_refused() const { return app.notice().kind == Notice::Kind::refused; }
};

} // namespace

TEST_CASE("A label scanned at Intake fills its form, and takes nothing in") {
    AtTheDock at;
    const auto lots = at.app.lots().rows.size();
    at.scans("(00)" + pallet_code + "(15)270531(10)FL-1(400)PO-4711");
    CHECK(at.intake().labels == 1);
    CHECK(at.intake().label.code == "FL-1");
    CHECK(at.intake().label.best_before == "2027-05-31");
    CHECK(at.intake().pallet.sscc == pallet_code);
    CHECK(at.intake().pallet.order == "PO-4711");
    CHECK(at.app.lots().rows.size() == lots);
    CHECK(at.said().empty());
}

TEST_CASE("What is no GS1 label is a lot number only where a person says so") {
    AtTheDock at;
    at.scans("FL-240917A");
    CHECK(at.intake().labels == 0);
    CHECK(at.intake().plain.text == "FL-240917A");
    ReadScan answer{"FL-240917A", At::intake};
    answer.plain = ReadLabel::Plain::is_lot_number;
    at.app.handle(answer);
    CHECK(at.intake().labels == 1);
    CHECK(at.intake().label.code == "FL-240917A");
    CHECK(at.intake().plain.text.empty());
    // A label answers the question as well: it was another pallet.
    at.now += 1min;
    at.scans("W24-300");
    at.scans(label);
    CHECK(at.intake().plain.text.empty());
    CHECK(at.intake().label.code == "W24-118");
}

TEST_CASE("The same label within a few seconds is told and fills nothing again, later it does") {
    AtTheDock at;
    at.scans(label);
    at.now += 4s;
    at.scans(label);
    CHECK(at.intake().labels == 1);
    CHECK_THAT(at.said(), Contains("scanned twice"));
    at.now += 10s;
    at.scans(label);
    CHECK(at.intake().labels == 2);
}

TEST_CASE("A scan that was refused may be made again at once") {
    AtTheDock at;
    at.scans("]C10109521234543219");
    CHECK(at.was_refused());
    at.scans("]C10109521234543219");
    CHECK(at.was_refused());
    CHECK_THAT(at.said(), Contains("check digit"));
}

TEST_CASE("A label split over two symbols is one, in either order") {
    const std::string content = "(02)09521234543213(37)40(15)270531(10)FL-1";
    AtTheDock at;
    at.scans("(00)" + pallet_code);
    CHECK(at.intake().labels == 0);
    CHECK(at.intake().pallet.sscc == pallet_code);
    CHECK_THAT(at.said(), Contains("Pallet " + pallet_code) && Contains("scan its label with the lot, too"));
    at.now += 3s;
    at.scans(content);
    CHECK(at.intake().labels == 1);
    CHECK(at.intake().label.code == "FL-1");
    CHECK(at.intake().pallet.sscc == pallet_code);
    CHECK(at.intake().pallet.count == 40);

    AtTheDock turned;
    turned.scans(content);
    CHECK(turned.intake().pallet.sscc.empty());
    turned.now += 3s;
    turned.scans("(00)" + pallet_code);
    CHECK(turned.intake().labels == 2);
    CHECK(turned.intake().label.code == "FL-1");
    CHECK(turned.intake().pallet.sscc == pallet_code);
}

TEST_CASE("Symbols that are scanned far apart, or of two pallets, are not put together") {
    const std::string content = "(02)09521234543213(37)40(10)FL-1";
    AtTheDock at;
    at.scans("(00)" + pallet_code);
    at.now += 1min;
    at.scans(content);
    CHECK(at.intake().pallet.sscc.empty());

    AtTheDock two;
    two.scans("(00)" + pallet_code);
    two.now += 1s;
    two.scans("(00)376104250021234569(10)FL-1");
    CHECK(two.intake().pallet.sscc == "376104250021234569");
}

TEST_CASE("A pallet that was scanned before in this delivery is told, until the delivery is taken in") {
    AtTheDock at;
    const std::string scan = "(00)" + pallet_code + "(10)FL-1";
    at.scans(scan);
    at.now += 1min;
    at.scans(scan);
    CHECK_THAT(at.said(), Contains("Pallet " + pallet_code + " of lot FL-1 was scanned before"));
    at.app.handle(TakeIn{{at.plant.draft("FL-1")}});
    REQUIRE(at.app.notice().kind == Notice::Kind::done);
    at.now += 1min;
    at.scans(scan);
    CHECK_THAT(at.said(), !Contains("was scanned before"));
}

TEST_CASE("On any other screen the lot is found and opened") {
    AtTheDock at;
    at.scans(label, At::anywhere);
    REQUIRE(at.app.lots().opened);
    CHECK(at.app.lots().opened->row.code == "W24-118");
    CHECK(at.app.notice().screen == "Lots");
    CHECK(at.intake().labels == 0);
    at.scans("]C0W24-999", At::anywhere);
    CHECK_THAT(at.said(), Contains("nothing is called \"W24-999\""));
}

TEST_CASE("A lot is found although the scanner lost the separator behind it, and that is told") {
    AtTheDock at;
    at.scans("]C1010952123454321310W24-11815270531", At::anywhere);
    REQUIRE(at.app.lots().opened);
    CHECK(at.app.lots().opened->row.code == "W24-118");
    CHECK_THAT(at.said(), Contains("lost the separator"));
}

TEST_CASE("At the mixer a scan is held against the card of the run, and without a run it is refused") {
    AtTheDock at;
    const auto run = at.plant.add_run("Pan bread", "2026-11-25", "3");
    at.plant.plan_week();
    at.app.poll();
    at.scans(label, At::mixer, run);
    CHECK(at.app.notice().kind == Notice::Kind::done);
    CHECK(at.app.card_of(run).lots.at(0).is_scanned);
    at.scans(label, At::mixer, run);
    CHECK_THAT(at.said(), Contains("W24-118 is right") && Contains("scanned twice"));
    at.scans("W24-999", At::mixer, run);
    CHECK_THAT(at.said(), Contains("STOP"));
    at.scans(label, At::mixer);
    CHECK_THAT(at.said(), Contains("no run is chosen"));
}

TEST_CASE("Behind a question nothing is read") {
    AtTheDock at;
    at.scans(label, At::behind_a_question);
    CHECK_THAT(at.said(), Contains("a question stands open"));
    CHECK(at.intake().labels == 0);
    CHECK_FALSE(at.app.lots().opened);
}

TEST_CASE("A lot number that no GS1 label can have is told as that, and is a lot number all the same") {
    CHECK(label_note("").empty());
    CHECK(label_note("FL-240917A").empty());
    CHECK_THAT(label_note("123456789012345678901"), Contains("GS1 label") && Contains("up to 20"));
    CHECK_THAT(label_note("LOT 5"), Contains("GS1 label"));
    AtTheDock at;
    at.app.handle(TakeIn{{at.plant.draft("M\u00dcHLE 7, spring wheat, third milling of the week")}});
    CHECK(at.app.notice().kind == Notice::Kind::done);
}

TEST_CASE("What a test scan and the port say stands on Settings, and outlives other acts") {
    AtTheDock at;
    at.app.handle(
        JudgeTestScan{{"]C110QqZzYy-_~400/:;?'+*=", Scanned::Way::keys, Scanned::End::enter, 0.01}});
    at.app.handle(TellOfPort{"listening at /dev/ttyACM0", true, false});
    CHECK(at.said().empty());
    const auto& scanner = [&]() -> const ScannerModel& { return at.app.settings().scanner; };
    CHECK(scanner().heard.lines.size() == 6);
    CHECK(scanner().heard.separator == "~");
    at.app.handle(ChangeSetting{"scanner_separator", "~"});
    CHECK(scanner().separator == "~");
    CHECK(scanner().heard.lines.size() == 6);
    CHECK(scanner().heard.port_words == "listening at /dev/ttyACM0");

    at.app.handle(TellOfPort{"/dev/ttyACM0 was unplugged", false, true});
    CHECK(at.was_refused());
    CHECK_FALSE(scanner().heard.port_is_well);
    at.app.handle(TellOfPort{"/dev/ttyACM0 is there again", true, true});
    CHECK(at.said() == "Scanner: /dev/ttyACM0 is there again");
}

TEST_CASE("How long a scanner's keys may be apart and its port are choices of the plant") {
    AtTheDock at;
    const auto& scanner = [&]() -> const ScannerModel& { return at.app.settings().scanner; };
    CHECK(scanner().longest_gap == Approx(0.035));
    CHECK(scanner().port.path.empty());
    at.app.handle(ChangeSetting{"scanner_gap", "60"});
    at.app.handle(ChangeSetting{"scanner_port", "/dev/ttyACM0"});
    at.app.handle(ChangeSetting{"scanner_port_speed", "115200"});
    CHECK(scanner().longest_gap == Approx(0.06));
    CHECK(scanner().port == ScannerPort{"/dev/ttyACM0", 115200});
    at.app.handle(ChangeSetting{"scanner_port_speed", "fast"});
    CHECK(at.was_refused());
}
