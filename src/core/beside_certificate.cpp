#include "core/beside_certificate.h"

#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin {
namespace {

/// One side that says no method is by no one's same: over many lots, it may be by several.
bool is_same_method(const CertificateValue& mill, const CertificateValue& own,
                    std::span<const TestPrecision> rows) {
    if (mill.method.empty() || own.method.empty())
        return mill.method.empty() && own.method.empty() && !depends_on_method(mill.property);
    return same_method(mill.property, mill.method, own.method, rows);
}

/// Why a lot's own result does not count, the nearest to counting last.
enum class LeftOut { too_old, other_method, no_basis };

struct Compared {
    std::optional<double> difference;
    bool has_method = false;
    LeftOut why = LeftOut::too_old;
};

bool is_young(const Lot& lot, const Retest& test) {
    return lot.milled_on && test.taken_on <= *lot.milled_on + young_enough;
}

Compared compare(const Lot& lot, const Retest& test, const CertificateValue& mill,
                 std::span<const TestPrecision> rows) {
    const auto* own = test.results.find(mill.property);
    Compared compared;
    if (!is_young(lot, test))
        return compared;
    compared.why = LeftOut::other_method;
    if (!is_same_method(mill, *own, rows))
        return compared;
    compared.why = LeftOut::no_basis;
    const auto theirs = comparable_at_14(lot.certificate, mill.property);
    const auto ours = comparable_at_14(test.results, mill.property);
    compared.has_method = !mill.method.empty();
    if (theirs && ours)
        compared.difference = *ours - *theirs;
    return compared;
}

/// Of the first own test that can be compared; nothing where no own test measured the property.
std::optional<Compared> compare(const TestedTwice& both, const CertificateValue& mill,
                                std::span<const TestPrecision> rows) {
    std::optional<Compared> nearest;
    for (const Retest* test : both.own) {
        if (test->is_withdrawn || !test->results.find(mill.property))
            continue;
        const auto compared = compare(*both.lot, *test, mill, rows);
        if (compared.difference)
            return compared;
        if (!nearest || nearest->why < compared.why)
            nearest = compared;
    }
    return nearest;
}

void leave_out(OwnBesideCertificate& row, LeftOut why) {
    ++(why == LeftOut::too_old        ? row.too_old
       : why == LeftOut::other_method ? row.other_method
                                      : row.no_basis);
}

void sum_up(OwnBesideCertificate& row, const std::vector<double>& differences) {
    row.lots = static_cast<int>(differences.size());
    if (differences.empty())
        return;
    const double n = row.lots;
    double sum = 0;
    for (const double d : differences)
        sum += d;
    row.mean = sum / n;
    if (row.lots < 2)
        return;
    double squares = 0;
    for (const double d : differences)
        squares += (d - row.mean) * (d - row.mean);
    row.spread = std::sqrt(squares / (n - 1));
    row.standard_error = *row.spread / std::sqrt(n);
    if (row.lots >= least_lots_to_differ)
        row.differs = std::abs(row.mean) > 2 * *row.standard_error;
}

std::string left_out_words(const OwnBesideCertificate& row) {
    std::string words;
    const auto add = [&](int count, std::string_view why) {
        if (count > 0)
            words += fmt::format("{}{} {}", words.empty() ? "" : ", ", count, why);
    };
    add(row.too_old,
        fmt::format("tested over {} days after milling, or of an unknown day", young_enough.count()));
    add(row.other_method, "by another method, or one not stated");
    add(row.no_basis, "without a common basis");
    return words.empty() ? words : "; left out: " + words;
}

} // namespace

std::vector<OwnBesideCertificate> own_beside_certificates(std::span<const TestedTwice> lots,
                                                          std::span<const TestPrecision> rows) {
    std::vector<OwnBesideCertificate> all;
    for (const auto& kind : all_properties()) {
        OwnBesideCertificate row;
        row.property = kind.property;
        std::vector<double> differences;
        for (const auto& both : lots) {
            const auto* mill = both.lot->certificate.find(kind.property);
            const auto compared = mill ? compare(both, *mill, rows) : std::nullopt;
            if (!compared)
                continue;
            if (!compared->difference) {
                leave_out(row, compared->why);
                continue;
            }
            differences.push_back(*compared->difference);
            row.without_method += compared->has_method ? 0 : 1;
        }
        sum_up(row, differences);
        if (row.lots + row.too_old + row.other_method + row.no_basis > 0)
            all.push_back(row);
    }
    return all;
}

std::string in_words(const OwnBesideCertificate& row) {
    const auto& kind = traits(row.property);
    const int decimals = kind.decimals + 1;
    const auto with_unit = [&](double value) {
        return fixed(value, decimals) + (kind.unit.empty() ? "" : " ") + std::string(kind.unit);
    };
    if (row.lots == 0)
        return "nothing to compare" + left_out_words(row);
    std::string words;
    if (row.differs.value_or(false))
        words = fmt::format("own tests are {} by {}, more than twice the standard error, {}",
                            row.mean < 0 ? "lower" : "higher", with_unit(std::abs(row.mean)),
                            with_unit(*row.standard_error));
    else if (row.differs)
        words =
            fmt::format("no difference beyond twice the standard error, {}", with_unit(*row.standard_error));
    else
        words = fmt::format("too few to say: {} of {} lots", row.lots, least_lots_to_differ);
    if (row.without_method > 0)
        words += fmt::format("; of {} neither side says the method", row.without_method);
    return words + left_out_words(row);
}

} // namespace mellowbin
