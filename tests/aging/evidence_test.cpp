#include "aging/evidence.h"
#include "aging/flour.h"
#include "support/catch.h"

#include <algorithm>

// Which of a lot's results count.

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

const Basis at_14 = Basis::at(Moisture{14});

CertificateValue value(Property property, double figure, Basis basis = at_14,
                       std::string method = "ring test") {
    return {property, figure, basis, std::move(method), wheat_nitrogen_factor};
}

/// A lot milled on the usual day, and what was measured of it since.
struct Tested {
    Lot lot;
    std::vector<Retest> retests;
    std::vector<std::optional<StoragePath>> paths;

    Tested() {
        lot.milled_on = milled;
        lot.delivered_on = day(1);
    }
    Retest& add(int on, CertificateValue figure) {
        Retest retest;
        retest.id = RetestId{static_cast<std::int64_t>(retests.size()) + 1};
        retest.taken_on = day(on);
        retest.results.set(std::move(figure));
        retests.push_back(retest);
        paths.push_back(stay_from(milled, climate_at(Celsius{20})));
        return retests.back();
    }
    [[nodiscard]] SortedResults sorted() const {
        std::vector<const Retest*> pointers;
        for (const auto& retest : retests)
            pointers.push_back(&retest);
        return sort_results(lot, pointers, paths);
    }
    /// Why each result counts or does not: the certificate's first, then by number.
    [[nodiscard]] std::vector<std::string> why() const {
        auto found = sorted().standing;
        std::stable_sort(found.begin(), found.end(), [](const Standing& a, const Standing& b) {
            return a.retest.value_or(RetestId{0}) < b.retest.value_or(RetestId{0});
        });
        std::vector<std::string> words;
        for (const auto& standing : found) {
            CHECK(standing.counts == (standing.why == "counts"));
            words.push_back(standing.why);
        }
        return words;
    }
};

bool says(const std::string& words, const std::string& part) { return words.find(part) != std::string::npos; }

constexpr auto sh = Property::free_sulfhydryl;
constexpr auto w = Property::alveograph_w;

} // namespace

TEST_CASE("Two results of a property are a series that counts; the first alone waits for a second") {
    Tested tested;
    tested.add(2, value(sh, 140));
    CHECK(tested.why() == std::vector<std::string>{"the first of its kind: a second one shows the change"});
    tested.add(9, value(sh, 105));
    CHECK(tested.why() == std::vector<std::string>{"counts", "counts"});
    const auto evidence = tested.sorted().evidence;
    REQUIRE(evidence.size() == 1);
    CHECK(evidence[0].amplitude == maturing_test(sh)->published);
    CHECK(evidence[0].error == 0.02);
    REQUIRE(evidence[0].observations.size() == 2);
    CHECK(evidence[0].observations[0].value == 140);
    CHECK(evidence[0].observations[1].at == days_of(day(9)));
}

TEST_CASE("A certificate by the same method is the series' first point, fresh from the mill") {
    Tested tested;
    tested.lot.certificate.set(value(sh, 149));
    tested.add(9, value(sh, 105, at_14, "Ring-Test")); // case, spaces and hyphens do not count
    CHECK(tested.why() == std::vector<std::string>{"counts", "counts"});
    const auto evidence = tested.sorted().evidence;
    CHECK(evidence[0].observations[0].is_fresh);
    CHECK(evidence[0].observations[0].at == days_of(milled));
    CHECK_FALSE(evidence[0].observations[1].is_fresh);
}

TEST_CASE("A certificate that names no method, or another one, is set aside with the reason") {
    for (const std::string method : {"", "titration"}) {
        Tested tested;
        tested.lot.certificate.set(value(sh, 149, at_14, method));
        tested.add(2, value(sh, 140));
        tested.add(9, value(sh, 105));
        const auto why = tested.why();
        CHECK(says(why[0], method.empty() ? "set aside: the certificate names no method" : "ring test"));
        CHECK(why[1] == "counts");
        CHECK(why[2] == "counts");
        CHECK(tested.sorted().evidence[0].observations.size() == 2);
    }
}

TEST_CASE("Results by another method than the newest taken are set aside, in whatever order they came in") {
    Tested tested;
    tested.add(2, value(sh, 140));
    tested.add(12, value(sh, 60, at_14, "titration"));
    tested.add(20, value(sh, 52, at_14, "titration"));
    tested.add(9, value(sh, 105)); // entered late
    const auto why = tested.why();
    CHECK(says(why[0], "another method than the newest retest: titration"));
    CHECK(why[1] == "counts");
    CHECK(why[2] == "counts");
    CHECK(says(why[3], "another method than the newest retest: titration"));
}

TEST_CASE("The order in which results are entered changes nothing, to the last bit") {
    Tested in_time, late;
    for (int on : {2, 9, 16})
        in_time.add(on, value(sh, 150 - 3 * on));
    for (int on : {16, 2, 9})
        late.add(on, value(sh, 150 - 3 * on));
    const auto priors = published_priors(FlourClass::white);
    const Estimate a{stored_flour(), priors, in_time.sorted().evidence};
    const Estimate b{stored_flour(), priors, late.sorted().evidence};
    CHECK(a.log_rate().mean == b.log_rate().mean);
    CHECK(a.log_rate().sd == b.log_rate().sd);
}

TEST_CASE("A content without its basis is set aside with the reason, one of dry matter is restated") {
    Tested tested;
    tested.add(2, value(sh, 140));
    tested.add(9, value(sh, 105, Basis{}));
    tested.add(16, value(sh, 100, Basis::dry_matter()));
    const auto why = tested.why();
    CHECK(why[0] == "counts");
    CHECK(says(why[1], "set aside"));
    CHECK(says(why[1], "basis"));
    CHECK(why[2] == "counts");
    CHECK(tested.sorted().evidence[0].observations[1].value == Approx(86));
}

TEST_CASE("A content as is needs the moisture of the same sample") {
    Tested tested;
    tested.add(2, value(sh, 140));
    tested.add(9, value(sh, 105, Basis::as_is()));
    CHECK(says(tested.why()[1], "set aside"));
    tested.retests[1].results.set(value(Property::moisture, 12.25, Basis::as_is()));
    CHECK(tested.why()[1] == "counts");
    CHECK(tested.sorted().evidence[0].observations[1].value == Approx(105 * 86 / 87.75));
}

TEST_CASE("A result from before the milling is set aside with the day") {
    Tested tested;
    tested.add(-1, value(sh, 150));
    tested.add(2, value(sh, 140));
    tested.add(9, value(sh, 105));
    const auto why = tested.why();
    CHECK(says(why[0], "set aside: before the milling on " + iso(milled)));
    CHECK(why[1] == "counts");
    CHECK(tested.sorted().evidence[0].observations.size() == 2);
}

TEST_CASE("A result of zero or less is set aside, and nothing else is lost") {
    for (const double wrong : {0.0, -999.0}) {
        Tested tested;
        tested.add(2, value(sh, 140));
        tested.add(5, value(sh, wrong));
        tested.add(9, value(sh, 105));
        const auto why = tested.why();
        CHECK(says(why[1], "is not above 0"));
        CHECK(why[0] == "counts");
        CHECK(why[2] == "counts");
    }
}

TEST_CASE("A sample of a place where the lot did not lie is set aside with the reason") {
    Tested tested;
    tested.add(2, value(sh, 140));
    tested.add(9, value(sh, 105)).place = PlaceId{7};
    tested.paths[1].reset();
    CHECK(says(tested.why()[1], "did not lie in that place"));
    const auto elsewhere = stay_from(milled, climate_at(Celsius{30}));
    tested.paths[1] = elsewhere;
    CHECK(tested.why()[1] == "counts");
    REQUIRE(tested.sorted().evidence[0].observations[1].path);
    CHECK(tested.sorted().evidence[0].observations[1].path->front().climate == elsewhere.front().climate);
}

TEST_CASE("A withdrawn retest does not stand, and its method does not count as the newest") {
    Tested tested;
    tested.add(2, value(sh, 140));
    tested.add(9, value(sh, 105));
    tested.add(12, value(sh, 60, at_14, "titration")).is_withdrawn = true;
    CHECK(tested.why() == std::vector<std::string>{"counts", "counts"});
}

TEST_CASE("Several properties of one sample stand each in its own series") {
    Tested tested;
    for (int on : {2, 9})
        tested.add(on, value(sh, 150 - 5 * on)).results.set(value(w, 280 + on, Basis{}));
    const auto sorted = tested.sorted();
    CHECK(sorted.evidence.size() == 2);
    CHECK(sorted.standing.size() == 4);
    CHECK(std::all_of(sorted.standing.begin(), sorted.standing.end(), [](auto& s) { return s.counts; }));
}

TEST_CASE(
    "Glutathione shows its own course, wet gluten and gluten index a drift: none counts for the dough") {
    for (const auto property : {Property::glutathione, Property::wet_gluten, Property::gluten_index}) {
        Tested tested;
        tested.add(2, value(property, 40));
        tested.add(9, value(property, 39));
        const auto sorted = tested.sorted();
        INFO(traits(property).key);
        REQUIRE(sorted.evidence.size() == 1); // shown
        CHECK(sorted.evidence[0].follows == maturing_test(property)->follows);
        CHECK(sorted.evidence[0].follows != Follows::dough);
        for (const auto& standing : sorted.standing) {
            CHECK_FALSE(standing.counts);
            CHECK(says(standing.why, property == Property::glutathione ? "own rate" : "drift"));
        }
    }
    CHECK(maturing_test(Property::glutathione)->own_rate == Lognormal{0.30, 1.5});
}

TEST_CASE("What says nothing about maturing does not stand among the evidence") {
    Tested tested;
    tested.add(2, value(Property::protein, 12));
    tested.add(9, value(Property::falling_number, 320, Basis{}));
    CHECK(tested.sorted().evidence.empty());
    CHECK(tested.sorted().standing.empty());
    CHECK_FALSE(maturing_test(Property::protein));
}

TEST_CASE("What a plant has learned of a property stands in for the published change") {
    Tested tested;
    tested.add(2, value(sh, 140));
    tested.add(9, value(sh, 105));
    const Amplitude own{-0.3, 0.05};
    std::vector<const Retest*> pointers{&tested.retests[0], &tested.retests[1]};
    CHECK(sort_results(tested.lot, pointers, tested.paths, {{{sh, own}}}).evidence[0].amplitude == own);
}
