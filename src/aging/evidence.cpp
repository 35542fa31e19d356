#include "aging/evidence.h"

#include "core/literature/constants.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::aging {
namespace {

namespace lit = literature;

// Glutathione goes its own way: through in ten days, while dough is best after three to seven weeks. One
// study followed both, in one flour, and there the dough went as fast as the glutathione, far from where the
// others found it: that says nothing of whether a flour whose glutathione goes fast is one whose dough does.
// So no correlation is assumed between the two rates: they share the flour's course through its places, its
// temperature factor and its air, and nothing else; a lot's glutathione is no evidence of its dough. Only a
// plant that measures both on many lots could show a tie.
constexpr std::array tests{
    MaturingTest{Property::glutathione,
                 ChangeKind::share,
                 {lit::aging_change_glutathione.value, lit::aging_change_glutathione_sd.value},
                 lit::aging_error_glutathione.value,
                 Follows::own_rate,
                 {lit::aging_glutathione_k20.value, lit::aging_glutathione_k20_gsd.value}},
    MaturingTest{Property::free_sulfhydryl,
                 ChangeKind::share,
                 {lit::aging_change_free_sulfhydryl.value, lit::aging_change_free_sulfhydryl_sd.value},
                 lit::aging_error_free_sulfhydryl.value},
    MaturingTest{
        Property::extensograph_resistance,
        ChangeKind::share,
        {lit::aging_change_extensograph_resistance.value, lit::aging_change_extensograph_resistance_sd.value},
        lit::aging_error_extensograph_resistance.value},
    MaturingTest{Property::extensibility,
                 ChangeKind::share,
                 {lit::aging_change_extensibility.value, lit::aging_change_extensibility_sd.value},
                 lit::aging_error_extensibility.value},
    MaturingTest{Property::alveograph_p,
                 ChangeKind::share,
                 {lit::aging_change_alveograph_p.value, lit::aging_change_alveograph_p_sd.value},
                 lit::aging_error_alveograph_p.value},
    MaturingTest{Property::alveograph_l,
                 ChangeKind::share,
                 {lit::aging_change_alveograph_l.value, lit::aging_change_alveograph_l_sd.value},
                 lit::aging_error_alveograph_l.value},
    MaturingTest{Property::alveograph_w,
                 ChangeKind::share,
                 {lit::aging_change_alveograph_w.value, lit::aging_change_alveograph_w_sd.value},
                 lit::aging_error_alveograph_w.value},
    MaturingTest{Property::stability,
                 ChangeKind::share,
                 {lit::aging_change_stability.value, lit::aging_change_stability_sd.value},
                 lit::aging_error_stability.value},
    MaturingTest{Property::gluten_index,
                 ChangeKind::share,
                 {lit::aging_change_gluten_index.value, lit::aging_change_gluten_index_sd.value},
                 lit::aging_error_gluten_index.value,
                 Follows::drift},
    MaturingTest{Property::wet_gluten,
                 ChangeKind::share,
                 {lit::aging_change_wet_gluten.value, lit::aging_change_wet_gluten_sd.value},
                 lit::aging_error_wet_gluten.value,
                 Follows::drift},
    MaturingTest{Property::absorption,
                 ChangeKind::points,
                 {lit::aging_change_absorption.value, lit::aging_change_absorption_sd.value},
                 lit::aging_error_absorption.value},
};

/// One result on its way into a series.
struct Found {
    Standing standing;
    CertificateValue reported;
    std::string method; ///< plain
    Observation observation;
};

Found read(const Certificate& results, const CertificateValue& value, const MaturingTest& test) {
    Found found;
    found.standing.property = test.property;
    found.reported = value;
    found.method = plain_method(value.method);
    const auto comparable = value_at_14(results, test.property);
    if (!comparable || !*comparable) {
        found.standing.why =
            "set aside: " + (comparable ? std::string("no figure") : comparable.refusals().front().what);
        return found;
    }
    found.observation.value = **comparable;
    if (test.change == ChangeKind::share && found.observation.value <= 0) {
        found.standing.why = fmt::format("set aside: {:g} is not above 0", found.observation.value);
        return found;
    }
    found.standing.counts = true;
    return found;
}

void set_aside(Found& found, std::string why) {
    found.standing.counts = false;
    found.standing.why = "set aside: " + std::move(why);
}

std::string named(const std::string& method) { return method.empty() ? "a method not named" : method; }

/// What there is of one property: the certificate's first, then the retests in their order.
std::vector<Found> results_of(const Lot& lot, std::span<const Retest* const> retests,
                              std::span<const std::optional<StoragePath>> paths, const MaturingTest& test) {
    std::vector<Found> found;
    if (const auto* value = lot.certificate.find(test.property)) {
        found.push_back(read(lot.certificate, *value, test));
        found.back().observation.is_fresh = true;
        found.back().observation.at = days_of(lot.milled_on.value_or(lot.delivered_on));
    }
    for (std::size_t i = 0; i < retests.size(); ++i) {
        const Retest& retest = *retests[i];
        const auto* value = retest.is_withdrawn ? nullptr : retest.results.find(test.property);
        if (!value)
            continue;
        auto one = read(retest.results, *value, test);
        one.standing.retest = retest.id;
        one.observation.at = days_of(retest.taken_on);
        one.observation.path = i < paths.size() ? paths[i] : std::nullopt;
        if (one.standing.counts && lot.milled_on && retest.taken_on < *lot.milled_on)
            set_aside(one, "before the milling on " + iso(*lot.milled_on));
        if (one.standing.counts && retest.place && i < paths.size() && !paths[i])
            set_aside(one, "the lot did not lie in that place on that day");
        found.push_back(std::move(one));
    }
    return found;
}

/// The plant's newest retest says by which method it measures now; a certificate must name that one.
void set_other_methods_aside(std::vector<Found>& found) {
    const Found* newest = nullptr; // by the day it was taken: an old result may be entered late
    for (const auto& one : found)
        if (one.standing.counts && one.standing.retest &&
            (!newest || one.observation.at >= newest->observation.at))
            newest = &one;
    if (!newest)
        return;
    const std::string method = newest->method, words = named(newest->reported.method);
    for (auto& one : found) {
        if (!one.standing.counts)
            continue;
        if (!one.standing.retest && one.method.empty())
            set_aside(one, "the certificate names no method");
        else if (one.method != method)
            set_aside(one, "another method than the newest retest: " + words);
    }
}

std::string standing_of(Follows follows) {
    switch (follows) {
    case Follows::dough:
        return "counts";
    case Follows::own_rate:
        return "shows its own course, at its own rate: says nothing of the dough's";
    case Follows::drift:
        return "shows a drift, no evidence of maturity";
    }
    return {};
}

} // namespace

std::string plain_method(std::string_view method) {
    std::string plain;
    for (const char c : method)
        if (c != ' ' && c != '-')
            plain += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return plain;
}

std::span<const MaturingTest> maturing_tests() { return tests; }

const MaturingTest* maturing_test(Property property) {
    const auto found = std::find_if(tests.begin(), tests.end(),
                                    [&](const MaturingTest& t) { return t.property == property; });
    return found == tests.end() ? nullptr : &*found;
}

Amplitude AmplitudePriors::of(const MaturingTest& test) const {
    for (const auto& [property, amplitude] : learned)
        if (property == test.property)
            return amplitude;
    return test.published;
}

double AmplitudePriors::error_of(const MaturingTest& test) const {
    for (const auto& [property, error] : own_errors)
        if (property == test.property)
            return error;
    return test.error;
}

SortedResults sort_results(const Lot& lot, std::span<const Retest* const> retests,
                           std::span<const std::optional<StoragePath>> paths, const AmplitudePriors& priors) {
    SortedResults sorted;
    for (const auto& test : maturing_tests()) {
        auto found = results_of(lot, retests, paths, test);
        set_other_methods_aside(found);
        Series series{test.property, priors.of(test), priors.error_of(test), {}, test.follows, test.own_rate};
        for (const auto& one : found)
            if (one.standing.counts)
                series.observations.push_back(one.observation);
        const bool is_evidence = series.observations.size() > 1;
        for (auto& one : found) {
            if (one.standing.counts) {
                one.standing.stands = true;
                one.standing.counts = is_evidence && test.follows == Follows::dough;
                one.standing.why = is_evidence ? standing_of(test.follows)
                                               : "the first of its kind: a second one shows the change";
            }
            sorted.standing.push_back(std::move(one.standing));
        }
        std::stable_sort(series.observations.begin(), series.observations.end(),
                         [](const Observation& a, const Observation& b) { return a.at < b.at; });
        if (!series.observations.empty())
            sorted.evidence.push_back(std::move(series));
    }
    return sorted;
}

} // namespace mellowbin::aging
