#include "a_bakery.h"
#include "app/acts/begun.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "cli/command_line.h"
#include "cli/pallet_words.h"
#include "support/catch.h"
#include "support/iso.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

namespace {

// Of GS1's own examples.
constexpr const char *one = "106141411234567897", *other = "376104250021234569";

/// A file with two lots of one note that came today, 1 000 kg each.
std::string two_lots(ABakery& bakery, const std::string& first = "W24-301",
                     const std::string& second = "W24-302", const std::string& note = "4711") {
    bakery.terminal.write(first + ".csv",
                          "lot number;mill;flour;place;milled on;weight kg;moisture %;delivery note\n" +
                              first + ";Weir Mill;Strong white;Bay 1;2026-10-30;1000;13.6;" + note + "\n" +
                              second + ";Weir Mill;Strong white;Bay 1;2026-10-30;1000;13.6;" + note + "\n");
    return bakery.terminal.file(first + ".csv");
}

void expect(ABakery& bakery, const std::string& kg) {
    bakery.done({"expect", "--mill", "Weir Mill", "--flour", "Strong white", "--kg", kg, "--arrives",
                 "2026-11-26", "--order", "PO-17"});
}

nlohmann::json delivery_of(ABakery& bakery, const std::string& lot) {
    const auto number = bakery.json({"lot", lot})["delivery"].get<std::int64_t>();
    return bakery.json({"delivery", std::to_string(number)});
}

} // namespace

TEST_CASE("A pallet is taken apart into its lot, SSCC and weight") {
    const auto pallet = cli::read_pallet(" W24=301 = (00) 1 0614141 123456789 7 ; 1 000,5 kg ");
    REQUIRE(pallet);
    CHECK(pallet->first == "W24=301");
    CHECK(pallet->second.sscc == "(00) 1 0614141 123456789 7");
    CHECK(pallet->second.kg == "1 000,5");
    CHECK(cli::read_pallet("A=12")->second.kg.empty()); // whether it is an SSCC is for core to say
    for (const char* wrong : {"", "A", "=106141411234567897", "A=", "A=;5"}) {
        INFO(wrong);
        CHECK_FALSE(cli::read_pallet(wrong));
    }
}

TEST_CASE("A delivery is taken in by command with its note, order and pallets, and shown in text and JSON") {
    ABakery bakery;
    const auto before = bakery.json({"deliveries"}).size();
    bakery.done({"take-in", two_lots(bakery), "--note-weight", "2005", "--weighed", "2000 kg", "--remark",
                 "one bag torn", "--order", "PO-99", "--pallet", "W24-301=" + std::string(one) + "; 500 kg",
                 "--pallet", "W24-302=" + std::string(other)});
    CHECK(bakery.json({"deliveries"}).size() == before + 1);
    const auto delivery = delivery_of(bakery, "W24-302");
    CHECK(delivery["mill"] == "Weir Mill");
    CHECK(delivery["delivery_note"] == "4711");
    CHECK(delivery["order"] == "PO-99");
    CHECK(delivery["delivered_on"] == "2026-11-25");
    CHECK(delivery["expected"] == nullptr);
    CHECK(delivery["on_note_kg"] == 2005);
    CHECK(delivery["weighed_kg"] == 2000);
    CHECK(delivery["lots_kg"] == 2000);
    CHECK(delivery["remark"] == "one bag torn");
    CHECK(delivery["lots"][1]["lot"] == "W24-302");
    CHECK(delivery["pallets"][0]["sscc"] == one);
    CHECK(delivery["pallets"][0]["kg"] == 500);
    CHECK(delivery["pallets"][1]["kg"] == nullptr);
    const auto lot = bakery.json({"lot", "W24-301"});
    CHECK(lot["pallets"][0]["sscc"] == one);
    CHECK_THAT(lot["came"].get<std::string>(), Contains("from Weir Mill, note 4711, order PO-99"));
    CHECK_THAT(bakery.done({"lot", "W24-301"}), Contains("Pallets\n  - 1061 4141 1234 5678 97, 500.0 kg"));
    const auto text = bakery.done({"delivery", std::to_string(delivery["delivery"].get<int>())});
    CHECK_THAT(text, Contains("Came on Wed 25 Nov from Weir Mill, note 4711") && Contains("On the note") &&
                         Contains("1061 4141 1234 5678 97  500.0 kg"));
    CHECK_THAT(bakery.done({"deliveries", "--mill", "Weir Mill"}), Contains("PO-99"));
    CHECK_THAT(bakery.refused({"deliveries", "--mill", "Nobody"}), Contains("Mill: \"Nobody\" is not known"));
    CHECK_THAT(bakery.refused({"delivery", "999"}), Contains("no delivery 999 is in the book"));
}

TEST_CASE("A weight that differs is refused by command until its reason is given, and nothing is taken in") {
    ABakery bakery;
    const auto file = two_lots(bakery);
    const auto lines = bakery.journal_lines();
    CHECK_THAT(bakery.refused({"take-in", file, "--note-weight", "2100"}),
               Contains("Weight on the note: 2 000 kg of lots, 2 100 kg on the note: 4.8 % less") &&
                   Contains("nothing was taken in"));
    CHECK(bakery.journal_lines() == lines);
    bakery.done({"take-in", file, "--note-weight", "2100", "--weight-reason", "two bags went back"});
    CHECK(delivery_of(bakery, "W24-301")["weight_reason"] == "two bags went back");
    CHECK_THAT(bakery.done({"journal"}), Contains("because: two bags went back"));
}

TEST_CASE("A delivery answers an expected one by its code, or by its order number, which is told") {
    ABakery bakery;
    expect(bakery, "2000");
    CHECK(bakery.json({"expected"})[0]["order"] == "PO-17");
    CHECK_THAT(bakery.refused({"take-in", two_lots(bakery), "--for", "E-7"}),
               Contains("Expected delivery: \"E-7\" is not to come. Choose one of: E-1"));
    CHECK_THAT(bakery.done({"take-in", two_lots(bakery), "--order", "PO-17"}),
               Contains("Delivery E-1 came as lots W24-301, W24-302"));
    CHECK_THAT(bakery.terminal.err, Contains("note: order PO-17 is expected delivery E-1"));
    CHECK(bakery.json({"expected"}).empty());
    CHECK(delivery_of(bakery, "W24-301")["expected"] == "E-1");
    CHECK(delivery_of(bakery, "W24-301")["expected_on"] == "2026-11-26");
    expect(bakery, "2000");
    CHECK_THAT(bakery.done({"take-in", two_lots(bakery, "W24-303", "W24-304", "4712"), "--for", "E-2"}),
               Contains("Delivery E-2 came as"));
}

TEST_CASE(
    "A wrong SSCC, a pallet of no lot of the file, and one that came before are refused with their line") {
    ABakery bakery;
    const auto file = two_lots(bakery);
    CHECK_THAT(
        bakery.refused({"take-in", file, "--pallet", "W24-302=106141411234567890"}),
        Contains("Line 3, Pallet 1: the check digit of \"106141411234567890\" is wrong: 7 is expected"));
    CHECK_THAT(bakery.refused({"take-in", file, "--pallet", "W24-999=" + std::string(one)}),
               Contains("Pallet: \"W24-999\" is no lot of these"));
    CHECK_THAT(bakery.refused({"take-in", file, "--pallet", "W24-301"}), Contains("LOT=SSCC"));
    bakery.done({"take-in", file, "--pallet", "W24-301=" + std::string(one)});
    CHECK_THAT(
        bakery.refused({"take-in", two_lots(bakery, "W24-303", "W24-304", "4712"), "--pallet",
                        "W24-304=" + std::string(one)}),
        Contains("Line 3, Pallet 1: 1061 4141 1234 5678 97 came before: on 2026-11-25 with lot W24-301"));
}

TEST_CASE("What is begun at a station is listed by command, and thrown away where nobody has it") {
    ABakery bakery;
    CHECK_THAT(bakery.done({"begun"}), Contains("No delivery is begun"));
    {
        app::AppSetup setup{bakery.terminal.book(), "Jonas",
                            app::Clock::standing_at(day_from_iso("2026-11-25"))};
        setup.station = "Dock";
        app::App dock(setup);
        dock.handle(app::PutDeliveryAside{{{"a delivery"}, {{"lots", "3"}}}, "3 lots of Weir Mill"});
    }
    CHECK_THAT(bakery.done({"begun"}), Contains("1  Begun by Jonas") && Contains(": 3 lots of Weir Mill"));
    const auto rows = bakery.json({"begun"});
    REQUIRE(rows.size() == 1);
    CHECK(rows[0]["begun"] == 1);
    CHECK(rows[0]["holder"] == "");
    CHECK_THAT(bakery.done({"throw-begun-away", "1"}), Contains("thrown away: 3 lots of Weir Mill"));
    CHECK(bakery.json({"begun"}).empty());
    CHECK_THAT(bakery.refused({"throw-begun-away", "1"}), Contains("was thrown away meanwhile"));
}
