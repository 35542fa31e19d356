#include "core/test_precision.h"
#include "support/refusal_words.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <stdexcept>

namespace mellowbin {
namespace {

using testing::all_words;
using testing::says;
using Verdict = ComparedResult::Verdict;

CertificateValue value(Property property, double figure, std::string method = "",
                       Basis basis = Basis::at(Moisture{14})) {
    return {property, figure, traits(property).has_basis ? basis : Basis{}, std::move(method),
            wheat_nitrogen_factor};
}

Certificate of(CertificateValue one) {
    Certificate certificate;
    certificate.set(std::move(one));
    return certificate;
}

TestPrecision protein_row() {
    TestPrecision row;
    row.property = Property::protein;
    row.methods = {"ISO 20483"};
    row.r = 0.2;
    row.R = 0.5;
    row.source = "ring test 4";
    row.confidence = "from memory";
    return row;
}

ComparedResult only(const Certificate& mill, const Certificate& own, const std::vector<TestPrecision>& rows) {
    const auto all = compare(mill, own, rows);
    REQUIRE(all.size() == 1);
    return all.front();
}

ComparedResult proteins(double mill, double own, const TestPrecision& row = protein_row()) {
    return only(of(value(Property::protein, mill)), of(value(Property::protein, own)), {row});
}

} // namespace

TEST_CASE("The critical difference is what the spread between and within two laboratories comes to") {
    // Of results with a spread between laboratories and one within, times the same factor as the limits.
    const double between = 0.13, within = 0.08, factor = 2.8;
    const double r = factor * within, R = factor * std::hypot(between, within);
    for (const int n1 : {1, 2, 5})
        for (const int n2 : {1, 3}) {
            const double sd = std::sqrt(2 * between * between + within * within / n1 + within * within / n2);
            CHECK(critical_difference(r, R, n1, n2) == Approx(factor * sd / std::sqrt(2.0)));
        }
}

TEST_CASE("Up to the limit a difference is chance, beyond it the retest contradicts the certificate") {
    const auto agrees = proteins(12.0, 12.3);
    CHECK(agrees.verdict == Verdict::agrees);
    CHECK(agrees.difference == Approx(0.3));
    CHECK(agrees.allowed == Approx(0.5));
    CHECK(agrees.words == "agrees: differs 0.3 %, up to 0.5 % is chance (R, ring test 4, from memory)");
    CHECK(proteins(12.0, 11.5).verdict == Verdict::agrees); // the limit itself is chance, either way
    CHECK(proteins(12.0, 11.5).difference == Approx(-0.5));
    const auto contradicts = proteins(12.0, 13.4);
    CHECK(contradicts.verdict == Verdict::contradicts);
    CHECK(contradicts.words ==
          "contradicts: differs 1.4 %, only up to 0.5 % is chance (R, ring test 4, from memory)");
    // Never "differs 0.5, only up to 0.5".
    CHECK(says(proteins(12.0, 12.52).words, "contradicts: differs 0.52 %, only up to 0.50 %"));
}

TEST_CASE("Means of several determinations must lie closer, where the repeatability limit is known") {
    auto row = protein_row();
    row.mill_replicates = row.own_replicates = 2;
    CHECK(proteins(12.0, 12.49, row).verdict == Verdict::contradicts); // 0.4796
    CHECK(proteins(12.0, 12.47, row).verdict == Verdict::agrees);
    CHECK(says(proteins(12.0, 12.47, row).words, "critical difference by R and r"));
    row.r.reset();
    CHECK(proteins(12.0, 12.49, row).verdict == Verdict::agrees);
}

TEST_CASE("A limit in per cent goes by the mean of both, and one with a range by where the mean lies") {
    TestPrecision row;
    row.property = Property::falling_number;
    row.given = PrecisionGiven::relative;
    row.R = 10;
    row.source = "a ring test";
    row.confidence = "read";
    const auto judged = [&](double mill, double own) {
        return only(of(value(Property::falling_number, mill)), of(value(Property::falling_number, own)),
                    {row});
    };
    CHECK(judged(300, 330).verdict == Verdict::agrees); // 31.5 of 315
    CHECK(judged(300, 332).verdict == Verdict::contradicts);
    row.high = 310;
    CHECK(judged(300, 319).verdict == Verdict::agrees);
    CHECK(judged(300, 332).verdict == Verdict::not_said);
}

TEST_CASE("Results are compared on one basis") {
    // 11.8 % at 13.5 % moisture is 11.7 % at 14 %, and 13.6 % on dry matter (Canadian Grain Commission).
    const auto dry = value(Property::protein, 13.64, "", Basis::dry_matter());
    const auto at_13_5 = value(Property::protein, 11.8, "", Basis::at(Moisture{13.5}));
    const auto judged = only(of(dry), of(at_13_5), {protein_row()});
    CHECK(judged.verdict == Verdict::agrees);
    CHECK(std::abs(*judged.difference) < 0.02);
    const auto without = only(of(value(Property::protein, 13.6, "", Basis{})), of(at_13_5), {protein_row()});
    CHECK(without.verdict == Verdict::not_said);
    CHECK(without.words == "not compared: the mill's 13.6 % stands without a moisture basis");
}

TEST_CASE("Results of two methods are not compared, and it says which they are") {
    const auto starch = [](double figure, const char* method) {
        return of(value(Property::starch_damage, figure, method));
    };
    TestPrecision row;
    row.property = Property::starch_damage;
    row.R = 1;
    row.source = "a ring test";
    row.confidence = "read";
    // The same flour: 11.7 by 76-30A, 7.2 by 76-31 (Rogers et al. 1994).
    const auto two = only(starch(11.7, "AACC 76-30A"), starch(7.2, "AACC 76-31"), {row});
    CHECK(two.verdict == Verdict::not_said);
    CHECK(two.words == "not compared: the mill's is by AACC 76-30A, ours by AACC 76-31");
    CHECK_FALSE(two.allowed);
    CHECK(only(starch(7.2, "AACC 76-31"), starch(7.3, "AACC 76-31"), {row}).verdict == Verdict::agrees);
    CHECK(says(only(starch(7.2, ""), starch(7.3, "AACC 76-31"), {row}).words, "a method that is not stated"));
    // An edition is the same method, and a row says which names are.
    const auto of_method = [](const char* method) { return of(value(Property::protein, 12, method)); };
    auto of_two_names = protein_row();
    of_two_names.methods = {"ISO 20483", "ICC 105/2"};
    CHECK(only(of_method("ISO 20483:2013"), of_method("icc 105/2"), {of_two_names}).verdict ==
          Verdict::agrees);
    CHECK(only(of_method("ISO 20483"), of_method("ICC 105/2"), {protein_row()}).verdict == Verdict::not_said);
}

TEST_CASE("Without a published R nothing is said of contradiction, however far the results lie apart") {
    const auto far = only(of(value(Property::protein, 9, "Dumas")), of(value(Property::protein, 15, "Dumas")),
                          {protein_row()});
    CHECK(far.verdict == Verdict::not_said);
    CHECK(far.words == "no published R at hand for protein by Dumas");
    CHECK(far.difference == Approx(6));
    CHECK(compare(of(value(Property::protein, 9)), of(value(Property::ash, 0.5)), {}).empty());
}

TEST_CASE("Of what does not repeat nothing is said: the same grain milled twice") {
    // Canadian Grain Commission, composites of 2013 milled for two reports: stability 15.5 and 9.0 min.
    const auto stability = only(of(value(Property::stability, 15.5)), of(value(Property::stability, 9.0)),
                                published_test_precision());
    CHECK(stability.verdict == Verdict::not_said);
    CHECK(says(stability.words, "does not repeat"));
    for (const auto property : {Property::development_time, Property::softening})
        CHECK(only(of(value(property, 5)), of(value(property, 50)), published_test_precision()).verdict ==
              Verdict::not_said);
}

TEST_CASE("A row of the plant's own goes before the published ones") {
    auto rows = published_test_precision();
    TestPrecision own;
    own.id = 1;
    own.property = Property::stability;
    own.R = 20;
    own.source = "our ring test";
    own.confidence = "entered by Ines";
    rows.insert(rows.begin(), own);
    CHECK(only(of(value(Property::stability, 15.5)), of(value(Property::stability, 9.0)), rows).verdict ==
          Verdict::agrees);
}

TEST_CASE("Every published row has its source and says how it was read, and none has r above R") {
    REQUIRE(published_test_precision().size() > 5);
    for (const auto& row : published_test_precision()) {
        INFO(row.source);
        CHECK(row.id == 0);
        CHECK_FALSE(row.source.empty());
        CHECK((row.confidence == "read" || row.confidence == "computed" || row.confidence == "from memory"));
        CHECK((row.given == PrecisionGiven::does_not_repeat || row.r || row.R));
        if (row.r && row.R)
            CHECK(*row.r <= *row.R);
    }
    const char* head = "property,methods,given,r,R,low,high,source,confidence\n";
    CHECK_THROWS_AS(read_test_precision(std::string(head) + "protein,,absolute,0.5,0.2,,,a,read\n"),
                    std::logic_error);
    CHECK_THROWS_AS(read_test_precision(std::string(head) + "gluten,,absolute,,0.2,,,a,read\n"),
                    std::logic_error);
    CHECK_THROWS_AS(read_test_precision(std::string(head) + "protein,,absolute,,0.2,,,,read\n"),
                    std::logic_error);
}

TEST_CASE("A row as typed is read whole, or every reason is given") {
    const TestPrecisionDraft good{
        "Protein", "ISO 20483 | ICC 105/2", "0,2", "0.5", "absolute", "8", "18", "2",
        "",        "ISO 20483, table B.1"};
    const auto row = accept(good);
    REQUIRE(row);
    CHECK(row->property == Property::protein);
    CHECK(row->methods == std::vector<std::string>{"ISO 20483", "ICC 105/2"});
    CHECK(row->r == 0.2);
    CHECK(row->R == 0.5);
    CHECK(row->mill_replicates == 2);
    CHECK(row->own_replicates == 1);
    CHECK(limits_in_words(*row) == "r 0.2 %, R 0.5 %");
    CHECK(accept(draft_of(*row)).value() == *row);

    const auto nothing = accept(TestPrecisionDraft{});
    REQUIRE_FALSE(nothing);
    for (const char* field : {"Property", "R", "Source"})
        CHECK_FALSE(testing::reasons_for(nothing.refusals(), field).empty());

    const auto one_refusal = [&](const std::function<void(TestPrecisionDraft&)>& edit) {
        auto draft = good;
        edit(draft);
        const auto result = accept(draft);
        REQUIRE_FALSE(result);
        CHECK(result.refusals().size() == 1);
        return all_words(result.refusals());
    };
    CHECK(says(one_refusal([](auto& d) { d.r = "0.6"; }), "r: 0.6 was read, which is above R, 0.5"));
    CHECK(says(one_refusal([](auto& d) { d.high = "7"; }), "To: 7 was read, which is below 8"));
    CHECK(says(one_refusal([](auto& d) { d.own_replicates = "1.5"; }), "a whole number is expected"));
    CHECK(says(one_refusal([](auto& d) { d.given = "in per cent"; }), "absolute or relative is expected"));
    CHECK(says(one_refusal([](auto& d) { d.R = "0"; }), "R"));
}

} // namespace mellowbin
