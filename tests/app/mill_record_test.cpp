#include "app/acts/stock.h"
#include "app/book/setup.h"
#include "support/explained_book.h"
#include "two_mills.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::TwoMills;

namespace {

/// Seven lots of a year, and what is on either side of it.
///
///     lot  delivered   kg    protein  falling number  own falling number
///     A    2025-11-24  1000  12       300             a day too early to be counted
///     B    2025-11-25  1000  12       300
///     C    2026-10-01  2000  11 low   300             310 on 3 Oct
///     D    2026-10-05  1000  12       240 low         236 low on 6 Oct
///     E    2026-10-09  1000  12       300             306 on 10 Oct
///     F    2026-10-12  1000  12       310             318 on 13 Oct
///     G    2026-10-15  1000  12       290             300 on 16 Oct
///     H    2026-10-20  1000                           200 low on 24 Nov: its aging, not the mill's
///     R    2026-10-15  of Ridge Mill
struct AYear : TwoMills {
    LotId a = came("A", "2025-11-24", "12", "300"), b = came("B", "2025-11-25", "12", "300"),
          c = came("C", "2026-10-01", "11", "300", "2000"), d = came("D", "2026-10-05", "12", "240"),
          e = came("E", "2026-10-09", "12", "300"), f = came("F", "2026-10-12", "12", "310"),
          g = came("G", "2026-10-15", "12", "290"), h = came("H", "2026-10-20", "", ""),
          r = came("R", "2026-10-15", "12", "300", "1000", "Ridge Mill");

    AYear() {
        tested(c, "2026-10-03", "310");
        tested(d, "2026-10-06", "236");
        tested(e, "2026-10-10", "306");
        tested(f, "2026-10-13", "318");
        tested(g, "2026-10-16", "300");
        tested(h, "2026-11-24", "200");
    }
    /// The lots came with a delivery, expected for a day.
    void delivery(int id, const char* expected, const char* came_on, std::initializer_list<LotId> lots) {
        write(
            "INSERT INTO expected_delivery (id, code, mill_id, flour_id, mass_g, arrives, milled, has_come) "
            "VALUES ($1, 'E-' || $1, 1, 1, 1000, $2, $2, 1)",
            {id, expected});
        write("INSERT INTO delivery (id, mill_id, delivery_note, order_number, delivered_on, expected_id, "
              "weight_reason, remark, at, who) "
              "VALUES (1000 + $1, 1, '', '', $2, $1, '', '', '2026-11-25T12:00:00Z', '')",
              {id, came_on});
        for (const auto lot : lots)
            write("UPDATE delivery_lot SET delivery_id = 1000 + $2 WHERE lot_id = $1", {lot, id});
    }
};

const MillOutside& of(const MillSide& side, Property property) {
    for (const auto& one : side.outsides)
        if (one.property == property)
            return one;
    throw std::runtime_error("the property is not counted");
}

} // namespace

TEST_CASE("A mill's record counts the lots of the twelve months up to today, by hand the same") {
    AYear at;
    const auto& record = at.record();
    CHECK(record.query.from == day_from_iso("2025-11-25"));
    CHECK(record.query.until == day_from_iso("2026-11-25"));
    CHECK(record.mill == "Mill");
    CHECK(record.lots == 7);
    CHECK(record.kg == Approx(8000));
    CHECK(record.tested == 6);
    REQUIRE(record.flours.size() == 1);
    const auto& flour = record.flours[0];
    CHECK(flour.name == "Strong white");
    CHECK(flour.lots == 7);
    CHECK(flour.certificate.inside == 4);  // B, E, F, G
    CHECK(flour.certificate.outside == 2); // C, D
    CHECK(flour.certificate.unknown == 1); // H
    CHECK(of(flour.certificate, Property::protein).lots == 6);
    CHECK(of(flour.certificate, Property::protein).outside == 1);
    CHECK(of(flour.certificate, Property::falling_number).outside == 1);
    CHECK(flour.own.inside == 4);  // C, E, F, G
    CHECK(flour.own.outside == 1); // D
    CHECK(flour.own.unknown == 1); // H, tested when it had aged
    CHECK(of(flour.own, Property::falling_number).lots == 5);
    CHECK(of(flour.own, Property::protein).lots == 0);
}

TEST_CASE("Own test minus certificate in a mill's record is the mean of its lots, with spread and verdict") {
    AYear at;
    const auto& record = at.record();
    REQUIRE(record.differences.size() == 1);
    const auto& row = record.differences[0].row;
    // +10, -4, +6, +8, +10: mean 6; squares 16 + 100 + 0 + 4 + 16 = 136; 136 / 4 = 34; error root of 34 / 5.
    CHECK(row.property == Property::falling_number);
    CHECK(row.lots == 5);
    CHECK(row.mean == Approx(6));
    CHECK(row.spread.value() == Approx(5.830952).epsilon(1e-6));
    CHECK(row.standard_error.value() == Approx(2.607681).epsilon(1e-6));
    CHECK(row.differs == true); // 6 is over 5.215
    CHECK_THAT(record.differences[0].words, Contains("own tests are higher by 6.0 s"));
}

TEST_CASE("Days are typed, both are included, and the mill's other lots are not in the record") {
    AYear at;
    CHECK(at.record("2026-10-05", "2026-10-12").lots == 3);
    CHECK(at.record("2025-11-24", "2025-11-24").lots == 1);
    CHECK(at.record("", "2026-10-01").query.from == day_from_iso("2025-10-01"));
    CHECK(at.record("", "2026-10-01").lots == 3); // A, B, C
    CHECK(at.record("", "", 0, "Ridge Mill").lots == 1);
    CHECK(at.record("2024-01-01", "2024-12-31").lots == 0);
    CHECK(at.record("2024-01-01", "2024-12-31").flours.empty());
    CHECK(at.record("", "2028-02-29").query.from == day_from_iso("2027-02-28"));
}

TEST_CASE("Days that are none, or the wrong way round, are refused at their fields, and the record stays") {
    AYear at;
    const auto lots = at.record().lots;
    at.refused(ShowMillRecord{at.mill(), "soon", "2026-13-01", 0});
    CHECK(at.app().notice().refusals.size() == 2);
    CHECK_THAT(at.refusals(), Contains("From: ") && Contains("To: "));
    at.refused(ShowMillRecord{at.mill(), "2026-11-02", "2026-11-01", 0});
    CHECK_THAT(at.refusals(), Contains("From: 2026-11-02 was read, which is after 2026-11-01"));
    CHECK(at.app().plant().mill_record->lots == lots);
    at.app().handle(ShowMillRecord{});
    CHECK_FALSE(at.app().plant().mill_record);
}

TEST_CASE("Deliveries count once, as on time on their day or before, and tell how late the latest was") {
    AYear at;
    at.delivery(1, "2026-10-01", "2026-10-01", {at.c});
    at.delivery(2, "2026-10-06", "2026-10-05", {at.d});
    at.delivery(3, "2026-10-07", "2026-10-09", {at.e, at.f});
    at.delivery(4, "2026-10-14", "2026-10-15", {at.g});
    at.write("INSERT INTO expected_delivery (id, code, mill_id, flour_id, mass_g, arrives, milled, has_come) "
             "VALUES (5, 'E-5', 1, 1, 24000000, '2026-11-20', '2026-11-18', 0), "
             "(6, 'E-6', 1, 1, 24000000, '2026-11-25', '2026-11-18', 0)");
    const auto& record = at.record();
    CHECK(record.days.on_time == 2);
    CHECK(record.days.late == 2);
    CHECK(record.days.most_days_late == 2);
    REQUIRE(record.days.overdue.size() == 1);
    CHECK(record.days.overdue[0] == "E-5: 24000 kg Strong white, expected on 2026-11-20");
    const auto late = [&](LotId lot) {
        for (const auto& row : record.page.rows)
            if (row.id == lot)
                return row.days_late;
        throw std::runtime_error("the lot is not on the page");
    };
    CHECK(late(at.c) == 0);
    CHECK(late(at.d) == -1);
    CHECK(late(at.f) == 2);
    CHECK_FALSE(late(at.h));
}

TEST_CASE("Lots that were held, rejected or went back are counted; one taken in by mistake never was one") {
    AYear at;
    at.done(HoldLot{at.e, "insects"});
    at.done(ReleaseLot{at.e, "sieved"});
    at.done(HoldLot{at.g, "wet"});
    at.done(RejectLot{at.f, "smells"});
    const auto mistake = at.came("X", "2026-11-24", "11", "200");
    at.done(WithdrawLots{{mistake}});
    const auto place = at.app().lots().places.front().first;
    at.done(WasteLot{at.f, place, "400", "goes back"});
    at.write("INSERT INTO mill_return SELECT 1, lot_id, id, 'smells', 'R-7', at, who FROM movement "
             "WHERE kind = 'waste'");
    const auto& record = at.record();
    CHECK(record.lots == 7);
    CHECK(record.held == 2);
    CHECK(record.rejected == 1);
    CHECK(record.returned_kg == Approx(400));
    REQUIRE(record.returns.size() == 1);
    CHECK(record.returns[0].lot == "F");
    CHECK(record.returns[0].document == "R-7");
    for (const auto& row : record.page.rows)
        CHECK(row.was_held == (row.id == at.e || row.id == at.g));
}

TEST_CASE(
    "The lots stand on pages of twenty, the newest first, with both sides' figures against the windows") {
    AYear at;
    for (int i = 0; i < 15; ++i)
        at.came("P" + std::to_string(i), "2026-09-01", "12", "300");
    const auto first = at.record().page;
    CHECK(first.pages == 2);
    CHECK(first.all == 22);
    CHECK(first.first == 1);
    REQUIRE(first.rows.size() == 20);
    CHECK(first.rows[0].code == "H");
    CHECK(first.properties == std::vector{Property::protein, Property::falling_number});
    const auto& c = first.rows[5];
    REQUIRE(c.code == "C");
    CHECK(c.values[0].mill == Approx(11));
    CHECK(c.values[0].is_mill_out);
    CHECK_FALSE(c.values[0].own);
    CHECK(c.values[1].own == Approx(310));
    CHECK_FALSE(c.values[1].is_own_out);
    const auto& h = first.rows[0];
    CHECK_FALSE(h.values[1].mill);
    CHECK_FALSE(h.values[1].own); // tested when it had aged
    const auto second = at.record("", "", 1).page;
    CHECK(second.first == 21);
    REQUIRE(second.rows.size() == 2);
    CHECK(second.rows[1].code == "B");
    CHECK(at.record("", "", 99).page.page == 1); // the last there is
}

TEST_CASE("A record that is looked at follows what is done, here and at another station") {
    AYear at;
    App office({at.book_path(), "Ines", Clock::standing_at(day_from_iso("2026-11-25"))});
    CHECK(at.record().tested == 6);
    at.tested(at.b, "2025-11-26", "305");
    CHECK(at.app().plant().mill_record->tested == 7);
    office.handle(LogComplaint{at.mill(), {"C", "protein", "", "low", "", ""}});
    REQUIRE(office.notice().kind == Notice::Kind::done);
    at.app().poll();
    CHECK(at.app().plant().mill_record->open == 1);
    CHECK_THAT(at.app().plant().mill_record->complaints[0].changed, Contains("Ines"));
    CHECK(at.record().complaints[0].changed.empty()); // it was looked at
}

TEST_CASE("A mill's record asks by indexes alone, and no more often in an older or larger book") {
    AYear at;
    tests::Walks walks;
    AppSetup setup{at.book_path(), "Ines", Clock::standing_at(day_from_iso("2026-11-25"))};
    setup.open = [&](const std::string& book, const Progress&) { return tests::open_explained(walks, book); };
    App app(std::move(setup));
    const auto questions = [&] {
        app.poll();
        walks = {true, 0, {}, {}};
        app.handle(ShowMillRecord{at.mill(), "", "", 0});
        walks.is_listening = false;
        REQUIRE(app.plant().mill_record);
        return walks.questions;
    };
    const int before = questions();
    CHECK(walks.without("delivery_to_come") == std::vector<std::string>{});
    CHECK(walks.of_all_years() == std::vector<std::string>{});
    CHECK(before > 10);
    for (int i = 0; i < 30; ++i) // of other days and of the other mill
        at.came("O" + std::to_string(i), i % 2 == 0 ? "2024-05-01" : "2026-10-01", "12", "300", "1000",
                i % 2 == 0 ? "Mill" : "Ridge Mill");
    CHECK(questions() == before);
}
