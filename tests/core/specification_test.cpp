#include "core/specification.h"
#include "support/refusal_words.h"

namespace mellowbin {
namespace {

using testing::says;

Certificate with(CertificateValue value) {
    Certificate certificate;
    certificate.set(std::move(value));
    return certificate;
}

Judgement judged(const CertificateValue& value, const Window& window) {
    return judge(with(value), {window}).front();
}

const Basis at_14 = Basis::at(Moisture{14});
const Window protein_window{Property::protein, 11.5, 13.0, ""};

CertificateValue protein(double value, Basis basis = at_14) {
    return {Property::protein, value, basis, "", wheat_nitrogen_factor};
}

} // namespace

TEST_CASE("A result is inside its window up to both ends, below or above it beyond them") {
    CHECK(judged(protein(11.5), protein_window).verdict == Verdict::inside);
    CHECK(judged(protein(13.0), protein_window).verdict == Verdict::inside);
    CHECK(judged(protein(11.4), protein_window).verdict == Verdict::below);
    CHECK(judged(protein(13.1), protein_window).verdict == Verdict::above);
    CHECK(judged(protein(12.4), protein_window).words == "12.4 %, inside 11.5 to 13.0 %");
    const Window at_least{Property::falling_number, 250.0, {}, ""};
    CHECK(judged({Property::falling_number, 249, {}, "", 5.7}, at_least).words ==
          "249 s, below at least 250 s");
    const Window at_most{Property::ash, {}, 0.55, ""};
    CHECK(judged({Property::ash, 0.55, at_14, "", 5.7}, at_most).verdict == Verdict::inside);
}

TEST_CASE("A result stated at 14 % that lies on its limit is inside, for every tenth") {
    for (int tenths = 10; tenths <= 400; ++tenths) {
        const double value = tenths / 10.0;
        REQUIRE(judged(protein(value), {Property::protein, value, value, ""}).verdict == Verdict::inside);
    }
    for (int tenths = 400; tenths <= 900; ++tenths) {
        const double value = tenths / 10.0;
        REQUIRE(
            judged({Property::absorption, value, at_14, "", 5.7}, {Property::absorption, value, value, ""})
                .verdict == Verdict::inside);
    }
}

TEST_CASE("Every judgement compares at 14 % moisture, whatever the certificate's basis") {
    // 14.0 % of protein on dry matter are 12.04 % at 14 %.
    const auto inside = judged(protein(14.0, Basis::dry_matter()), protein_window);
    CHECK(inside.verdict == Verdict::inside);
    CHECK(*inside.value == Approx(12.04));
}

TEST_CASE("The words show as many decimals as the verdict needs") {
    const auto just_above = judged(protein(13.04), protein_window);
    CHECK(just_above.verdict == Verdict::above);
    CHECK(just_above.words == "13.04 %, above 11.5 to 13.0 %");
    const auto just_below = judged(protein(11.4996), protein_window);
    CHECK(says(just_below.words, "11.4996 %, below"));
}

TEST_CASE("A limit is shown whole") {
    CHECK(Window{Property::protein, 11.25, 13.0, ""}.in_words() == "11.25 to 13.0 %");
    CHECK(Window{Property::ash, {}, 0.5, ""}.in_words() == "at most 0.50 %");
    CHECK(Window{Property::gluten_index, 80.0, {}, ""}.in_words() == "at least 80");
    CHECK(Window{Property::protein, {}, {}, ""}.in_words() == "any");
}

TEST_CASE("What was not measured is missing, and says so") {
    const auto judgement = judge(Certificate{}, {protein_window}).front();
    CHECK(judgement.verdict == Verdict::missing);
    CHECK(!judgement.value);
    CHECK(judgement.words == "not measured; 11.5 to 13.0 %");
}

TEST_CASE("A result without a basis, or as is without a moisture, is not comparable") {
    const auto unstated = judged(protein(12.0, Basis{}), protein_window);
    CHECK(unstated.verdict == Verdict::not_comparable);
    CHECK(says(unstated.words, "without a moisture basis"));
    CHECK(judged(protein(12.0, Basis::as_is()), protein_window).verdict == Verdict::not_comparable);
}

TEST_CASE("Damaged starch by another method is not comparable, and neither is one without a method") {
    const Window window{Property::starch_damage, 6.0, 9.0, "AACC 76-31"};
    const auto by = [&](const char* method) {
        return judged({Property::starch_damage, 7.2, at_14, method, wheat_nitrogen_factor}, window);
    };
    CHECK(by("AACC 76-31").verdict == Verdict::inside);
    CHECK(by("aacc 76-31 ").verdict == Verdict::inside);
    CHECK(by("AACC 76-30A").verdict == Verdict::not_comparable);
    CHECK(by("AACC 76-30A").words == "measured by AACC 76-30A, the specification is for AACC 76-31");
    CHECK(says(by("").words, "a method that is not stated"));
    const Window any{Property::starch_damage, 6.0, 9.0, ""};
    CHECK(judged({Property::starch_damage, 7.2, at_14, "AACC 76-31", 5.7}, any).verdict ==
          Verdict::not_comparable);
}

TEST_CASE("Each window gets its judgement, in the order of the specification") {
    Certificate certificate = with(protein(12.0));
    certificate.set({Property::moisture, 14.9, {}, "", wheat_nitrogen_factor});
    const auto judgements = judge(
        certificate, {{Property::moisture, {}, 14.5, ""}, {Property::ash, {}, 0.55, ""}, protein_window});
    REQUIRE(judgements.size() == 3);
    CHECK(judgements[0].verdict == Verdict::above);
    CHECK(judgements[1].verdict == Verdict::missing);
    CHECK(judgements[2].verdict == Verdict::inside);
    CHECK(judge(certificate, {}).empty());
}

TEST_CASE("A window needs an end, its ends in order, and for damaged starch a method") {
    CHECK(accept_window(protein_window));
    CHECK(accept_window({Property::protein, 12.0, 12.0, ""}));
    CHECK(says(accept_window({Property::protein, {}, {}, ""}).refusals().front().what, "neither"));
    CHECK(says(accept_window({Property::protein, 13.0, 11.5, ""}).refusals().front().what,
               "the lowest value 13 is above the highest 11.5"));
    CHECK(says(accept_window({Property::starch_damage, 6.0, 9.0, " "}).refusals().front().what, "method"));
    CHECK(accept_window({Property::starch_damage, 6.0, 9.0, " AACC 76-31 "})->method == "AACC 76-31");
}

TEST_CASE("A miss is measured on half the window, or on a tenth of a single limit") {
    CHECK(protein_window.half_width() == Approx(0.75));
    CHECK(Window{Property::falling_number, 250.0, {}, ""}.half_width() == Approx(25));
    CHECK(Window{Property::ash, {}, 0.5, ""}.half_width() == Approx(0.05));
    CHECK(Window{Property::stability, {}, 0.0, ""}.half_width() > 0);
    CHECK(Window{Property::protein, 12.0, 12.0, ""}.half_width() > 0);
}

} // namespace mellowbin
