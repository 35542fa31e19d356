#include "core/beside_certificate.h"
#include "support/catch.h"
#include "support/iso.h"

#include <deque>

using namespace mellowbin;
using Catch::Matchers::Contains;

namespace {

/// Lots of a mill with certificates, and own tests of them.
struct Tested {
    std::deque<Lot> lots;
    std::deque<Retest> tests;
    std::vector<TestedTwice> twice;

    Lot& lot(CertificateValue mill) {
        auto& lot = lots.emplace_back();
        lot.milled_on = day_from_iso("2026-10-01");
        lot.delivered_on = day_from_iso("2026-10-04");
        lot.certificate.set({Property::moisture, 14, {}, "", wheat_nitrogen_factor});
        lot.certificate.set(std::move(mill));
        twice.push_back({&lot, {}});
        return lot;
    }
    /// Of the last lot.
    void own(const char* day, CertificateValue value) {
        auto& test = tests.emplace_back();
        test.taken_on = day_from_iso(day);
        test.results.set(std::move(value));
        twice.back().own.push_back(&test);
    }
    /// Falling numbers by one method on both sides.
    void pair(double mill, double own_value) {
        lot({Property::falling_number, mill, {}, "ISO 3093", wheat_nitrogen_factor});
        own("2026-10-06", {Property::falling_number, own_value, {}, "ISO 3093", wheat_nitrogen_factor});
    }
    [[nodiscard]] OwnBesideCertificate only() const {
        const auto rows = own_beside_certificates(twice, published_test_precision());
        REQUIRE(rows.size() == 1);
        return rows.front();
    }
};

CertificateValue protein(double value, Basis basis, const char* method = "Dumas") {
    return {Property::protein, value, basis, method, wheat_nitrogen_factor};
}

} // namespace

TEST_CASE("Own test minus certificate: mean, spread and standard error of the mean") {
    Tested at;
    at.pair(300, 304);
    at.pair(310, 308);
    at.pair(290, 297);
    at.pair(305, 302);
    at.pair(300, 304);
    // By hand: 4, -2, 7, -3, 4: mean 2; squares 4 + 16 + 25 + 25 + 4 = 74; 74 / 4 = 18.5.
    const auto row = at.only();
    CHECK(row.property == Property::falling_number);
    CHECK(row.lots == 5);
    CHECK(row.mean == Approx(2));
    CHECK(row.spread.value() == Approx(4.301163).epsilon(1e-6));         // the root of 18.5
    CHECK(row.standard_error.value() == Approx(1.923538).epsilon(1e-6)); // the root of 3.7
    CHECK(row.differs == false);                                         // 2 is under 3.847
    CHECK_THAT(in_words(row), Contains("no difference beyond twice the standard error, 1.9 s"));
}

TEST_CASE("A mean further from 0 than twice its standard error is told, whichever way") {
    Tested at;
    for (const double own : {294.0, 296.0, 295.0, 293.0, 297.0})
        at.pair(300, own);
    // By hand: -6, -4, -5, -7, -3: mean -5; squares 1 + 1 + 0 + 4 + 4 = 10; 10 / 4 = 2.5; error root of 0.5.
    const auto row = at.only();
    CHECK(row.mean == Approx(-5));
    CHECK(row.standard_error.value() == Approx(0.707107).epsilon(1e-6));
    CHECK(row.differs == true);
    CHECK_THAT(in_words(row),
               Contains("own tests are lower by 5.0 s, more than twice the standard error, 0.7 s"));
}

TEST_CASE("Exactly twice the standard error is no difference") {
    Tested at;
    for (const double difference : {3.0, 3.0, 3.0, 3.0, -2.0})
        at.pair(300, 300 + difference);
    // By hand: mean 2; squares 4 x 1 + 16 = 20; 20 / 4 = 5; the error is the root of 1.
    CHECK(at.only().mean == Approx(2));
    CHECK(at.only().standard_error.value() == Approx(1));
    CHECK(at.only().differs == false);
}

TEST_CASE("With fewer than five lots nothing is said of a difference, and with one lot no spread") {
    Tested at;
    at.pair(300, 200);
    CHECK(at.only().lots == 1);
    CHECK(at.only().mean == Approx(-100));
    CHECK_FALSE(at.only().spread);
    for (int i = 0; i < 3; ++i)
        at.pair(300, 201);
    CHECK_FALSE(at.only().differs);
    CHECK_THAT(in_words(at.only()), Contains("too few to say: 4 of 5 lots"));
    at.pair(300, 201);
    CHECK(at.only().differs == true);
}

TEST_CASE("Figures are compared on one basis: at 14 % moisture") {
    Tested at;
    at.lot(protein(12.0, Basis::at(Moisture{14})));
    at.own("2026-10-06", protein(14.0, Basis::dry_matter()));
    // By hand: 14.0 x 86 / 100 = 12.04.
    CHECK(at.only().mean == Approx(0.04));
    at.lot(protein(12.0, Basis()));
    at.own("2026-10-06", protein(12.0, Basis::at(Moisture{14})));
    CHECK(at.only().lots == 1);
    CHECK(at.only().no_basis == 1);
    CHECK_THAT(in_words(at.only()), Contains("1 without a common basis"));
}

TEST_CASE("Only results of the same method are compared, and one that says none is no one's same") {
    Tested at;
    const auto basis = Basis::at(Moisture{14});
    at.lot(protein(12.0, basis, "Dumas"));
    at.own("2026-10-06", protein(12.5, basis, "Kjeldahl"));
    at.lot(protein(12.0, basis, "Dumas"));
    at.own("2026-10-06", protein(12.5, basis, ""));
    at.lot(protein(12.0, basis, "Dumas"));
    at.own("2026-10-06", protein(12.5, basis, "dumas "));
    at.lot(protein(12.0, basis, ""));
    at.own("2026-10-06", protein(12.1, basis, ""));
    const auto row = at.only();
    CHECK(row.lots == 2);
    CHECK(row.other_method == 2);
    CHECK(row.without_method == 1);
    CHECK(row.mean == Approx(0.3));
    CHECK_THAT(in_words(row), Contains("of 1 neither side says the method") &&
                                  Contains("left out: 2 by another method, or one not stated"));
    Tested falling; // whose method stands under other names in the table
    falling.lot({Property::falling_number, 300, {}, "ISO 3093:2009", wheat_nitrogen_factor});
    falling.own("2026-10-06", {Property::falling_number, 304, {}, "ICC 107/1", wheat_nitrogen_factor});
    CHECK(falling.only().lots == 1);
    Tested starch; // whose methods give other figures
    starch.lot({Property::starch_damage, 7, basis, "", wheat_nitrogen_factor});
    starch.own("2026-10-06", {Property::starch_damage, 9, basis, "", wheat_nitrogen_factor});
    CHECK(starch.only().lots == 0);
    CHECK_THAT(in_words(starch.only()), Contains("nothing to compare"));
}

TEST_CASE("Flour ages: own tests count up to 21 days after milling, the first of a lot alone") {
    Tested at;
    at.lot({Property::falling_number, 300, {}, "", wheat_nitrogen_factor}); // milled on 1 October
    at.own("2026-10-23", {Property::falling_number, 320, {}, "", wheat_nitrogen_factor});
    CHECK(at.only().lots == 0);
    CHECK(at.only().too_old == 1);
    at.lot({Property::falling_number, 300, {}, "", wheat_nitrogen_factor});
    at.own("2026-10-22", {Property::falling_number, 310, {}, "", wheat_nitrogen_factor});
    at.own("2026-10-22", {Property::falling_number, 400, {}, "", wheat_nitrogen_factor});
    CHECK(at.only().lots == 1);
    CHECK(at.only().mean == Approx(10));
    at.lot({Property::falling_number, 300, {}, "", wheat_nitrogen_factor}).milled_on.reset();
    at.own("2026-10-06", {Property::falling_number, 310, {}, "", wheat_nitrogen_factor});
    CHECK(at.only().lots == 1);
    CHECK(at.only().too_old == 2);
    CHECK_THAT(in_words(at.only()), Contains("2 tested over 21 days after milling, or of an unknown day"));
}

TEST_CASE("What one side alone measured, and what was withdrawn, is not compared") {
    Tested at;
    at.lot({Property::falling_number, 300, {}, "", wheat_nitrogen_factor});
    at.own("2026-10-06", {Property::stability, 9, {}, "", wheat_nitrogen_factor});
    CHECK(own_beside_certificates(at.twice, published_test_precision()).empty());
    at.own("2026-10-06", {Property::falling_number, 350, {}, "", wheat_nitrogen_factor});
    at.tests.back().is_withdrawn = true;
    CHECK(own_beside_certificates(at.twice, published_test_precision()).empty());
}
