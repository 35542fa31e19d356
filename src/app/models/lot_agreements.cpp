#include "app/models/lot_agreements.h"

#include "aging/expected_change.h"
#include "aging/retest_worth.h"
#include "app/book/book.h"
#include "app/book/station.h"
#include "app/models/lot_results.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::app {
namespace {

using Verdict = ComparedResult::Verdict;

constexpr double in_95_of_100 = 1.96; // normal deviates

std::string with_unit(double value, Property property) {
    const auto& kind = traits(property);
    return fmt::format("{:+.{}f}{}{}", value, kind.decimals, kind.unit.empty() ? "" : " ", kind.unit);
}

std::string days_words(Days days) {
    return days.count() == 1 ? std::string("1 day") : fmt::format("{} days", days.count());
}

/// What moves while flour lies, and is no maturing: a later sample shows it.
std::string lying_words(const Lot& lot, const AgreementRow& row) {
    const auto lay = row.taken_on - lot.delivered_on;
    if (lay <= Days{0})
        return {};
    if (row.property == Property::moisture)
        return fmt::format("flour draws and loses moisture where it lies: {} after it came the difference "
                           "is no word against the mill",
                           days_words(lay));
    if (row.property == Property::fat_acidity)
        return fmt::format("it rises while flour lies: {} after it came the difference is no word against "
                           "the mill",
                           days_words(lay));
    return {};
}

/// The aging of one lot, worked out where the first row asks for it.
class Aging {
public:
    Aging(const Station& s, const Lot& lot)
        : lot_(lot), estimate_(s.estimates.of(lot.id)), made_(s.estimates.evidence(s.book, lot)) {}

    void tell(AgreementRow& row, double mill) {
        const auto* test = aging::maturing_test(row.property);
        if (!test) {
            row.aging = lying_words(lot_, row);
            row.aging_explains = !row.aging.empty();
            return;
        }
        if (row.difference)
            tell_change(*test, row, mill);
        add(row.aging, rule_words(row));
    }

private:
    static void add(std::string& words, const std::string& more) {
        if (!more.empty())
            words += (words.empty() ? "" : "; ") + more;
    }

    /// What aging alone is expected to make of the mill's figure, and whether chance and it reach so far.
    void tell_change(const aging::MaturingTest& test, AgreementRow& row, double mill) const {
        const auto* series = series_of(row.property);
        const auto change = aging::expected_change(
            estimate_, test, series ? series->amplitude : test.published, mill, row.taken_on);
        const auto old = row.taken_on - lot_.milled_on.value_or(lot_.delivered_on);
        row.aging = fmt::format("flour ages: {} of {} is what {} are expected to make, an estimate",
                                with_unit(change.mean, row.property),
                                with_unit(*row.difference, row.property), days_words(old));
        if (row.verdict != Verdict::contradicts)
            return;
        const double reach = std::hypot(row.allowed.value_or(0), in_95_of_100 * change.sd);
        row.aging_explains = std::abs(*row.difference - change.mean) <= reach;
        row.aging += row.aging_explains ? "; with chance that explains it, and it is not the mill's error"
                                        : "; that does not explain it";
    }

    /// The rule of the evidence on aging: another one, told beside.
    std::string rule_words(const AgreementRow& row) {
        const auto& standing = made_.results.standing;
        const auto at = std::find_if(standing.begin(), standing.end(), [&](const aging::Standing& one) {
            return one.retest == row.retest && one.property == row.property;
        });
        if (at == standing.end())
            return {};
        const auto off = standard_errors(row);
        if (!off || !at->stands)
            return "for the estimate of its aging: " + at->why;
        const bool asks = std::abs(*off) > aging::check_from();
        return fmt::format("for the estimate of its aging: {}, {} standard errors from what the others "
                           "predict{}",
                           at->why, fixed(std::abs(*off), 1),
                           asks ? fmt::format(", over {:g}: check it", aging::check_from()) : std::string());
    }

    std::optional<double> standard_errors(const AgreementRow& row) {
        const auto* series = series_of(row.property);
        if (!series || series->observations.size() < 2)
            return {};
        if (!surprises_)
            surprises_ = aging::surprises(made_.flour, made_.priors, made_.results.evidence);
        for (const auto& surprise : *surprises_) {
            const auto& observation =
                series->observations[surprise.property == row.property ? surprise.observation : 0];
            if (surprise.property == row.property && !observation.is_fresh &&
                observation.at == aging::days_of(row.taken_on))
                return surprise.standard_errors;
        }
        return {};
    }

    [[nodiscard]] const aging::Series* series_of(Property property) const {
        const auto& all = made_.results.evidence;
        const auto at = std::find_if(all.begin(), all.end(),
                                     [&](const aging::Series& one) { return one.property == property; });
        return at == all.end() ? nullptr : &*at;
    }

    const Lot& lot_;
    const aging::Estimate& estimate_;
    LotEvidence made_;
    std::optional<std::vector<aging::Surprise>> surprises_;
};

} // namespace

std::vector<AgreementRow> lot_agreements(const Station& s, const Lot& lot) {
    std::vector<AgreementRow> rows;
    const auto limits = before_published(s.book.precision);
    std::optional<Aging> aging;
    for (const Retest* retest : standing_retests(s.book, lot.id))
        for (auto& agreement : compare(lot.certificate, retest->results, limits)) {
            AgreementRow row{
                retest->id,           retest->taken_on,  agreement.property,        agreement.verdict,
                agreement.difference, agreement.allowed, std::move(agreement.words)};
            if (!aging)
                aging.emplace(s, lot);
            aging->tell(row, comparable_at_14(lot.certificate, row.property).value_or(0));
            rows.push_back(std::move(row));
        }
    return rows;
}

std::vector<Finding> findings_of(const std::vector<AgreementRow>& rows) {
    std::vector<Finding> findings;
    for (const auto& row : rows) {
        const auto weight = row.verdict == Verdict::agrees ? Finding::Weight::well
                            : row.verdict == Verdict::contradicts && !row.aging_explains
                                ? Finding::Weight::against
                                : Finding::Weight::mind;
        findings.push_back({weight, fmt::format("{}, retest of {}, against the certificate: {}{}{}",
                                                traits(row.property).name, iso(row.taken_on), row.words,
                                                row.aging.empty() ? "" : ". Beside it: ", row.aging)});
    }
    return findings;
}

} // namespace mellowbin::app
