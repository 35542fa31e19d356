#include "dough/keeping.h"

#include "core/decimal.h"
#include "core/literature/constants.h"
#include "dough/law.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::dough {
namespace {

constexpr double lowest_ph = 3;
constexpr double highest_ph = 8;
constexpr double mg_per_kg_of_percent = 10000;

std::string cited(const PropionateRow& row) {
    return row.source_date.empty() ? row.source : fmt::format("{}, {}", row.source, row.source_date);
}

KeepingJudged prohibited(const PropionateRow& row) {
    return {Keeping::forbidden,
            fmt::format("{}, {}: propionate is not permitted{} ({})", row.market, row.bread,
                        row.status == LimitStatus::unclear ? ": the source does not settle it" : "",
                        cited(row)),
            row};
}

KeepingJudged within_figure(const PropionateRow& row, const PropionateInBread& content) {
    const bool acid = row.counted_as == PropionateCount::acid;
    const double counted = acid ? content.as_acid : content.as_salt;
    const auto reading = acid                                      ? "as acid"
                         : row.counted_as == PropionateCount::salt ? "as salt"
                                                                   : "as salt, the stricter reading";
    if (row.mg_per_kg && counted > *row.mg_per_kg)
        return {Keeping::forbidden,
                fmt::format("{}, {}: {:.0f} mg/kg {} is more than {:g} ({})", row.market, row.bread, counted,
                            reading, *row.mg_per_kg, cited(row)),
                row};
    const auto limit = row.mg_per_kg ? fmt::format("of {:g}", *row.mg_per_kg)
                                     : std::string{"no figure, good manufacturing practice"};
    return {Keeping::permitted,
            fmt::format("{}, {}: {:.0f} mg/kg {}, {} ({})", row.market, row.bread, counted, reading, limit,
                        cited(row)),
            row};
}

KeepingJudged without_content(const PropionateRow& row) {
    if (row.mg_per_kg)
        return {
            Keeping::not_known,
            fmt::format("{}, {}: what the bread carries is not known, so the {:g} mg/kg of the law cannot "
                        "be judged ({})",
                        row.market, row.bread, *row.mg_per_kg, cited(row)),
            row};
    return {
        Keeping::permitted,
        fmt::format("{}, {}: no figure, good manufacturing practice ({})", row.market, row.bread, cited(row)),
        row};
}

KeepingJudged judged_by(const PropionateRow& row, const std::optional<PropionateInBread>& content) {
    if (row.status == LimitStatus::not_permitted || row.status == LimitStatus::unclear)
        return prohibited(row);
    auto judged = content ? within_figure(row, *content) : without_content(row);
    if (row.is_confirmed || judged.keeping == Keeping::forbidden)
        return judged;
    judged.keeping = std::max(judged.keeping, Keeping::unconfirmed);
    judged.words += ": not confirmed, read the source first";
    return judged;
}

KeepingJudged no_row(const std::string& market, const std::string& of) {
    return {Keeping::forbidden, fmt::format("{}: no row permits propionate{}: leave it out", market, of), {}};
}

/// By the rows of one market: that of the bread as it is sold, or of any; the strictest where both are there.
KeepingJudged judged_in(const std::string& market, const std::vector<const PropionateRow*>& rows,
                        std::optional<SoldAs> sold_as, const std::optional<PropionateInBread>& content) {
    const bool tells_apart = std::any_of(rows.begin(), rows.end(),
                                         [](const PropionateRow* row) { return row->sold_as.has_value(); });
    if (tells_apart && !sold_as)
        return {Keeping::forbidden,
                fmt::format("{}: how much propionate is permitted depends on how the bread is sold: say what "
                            "the product is sold as",
                            market),
                {}};
    std::optional<KeepingJudged> strictest;
    for (const auto* row : rows) {
        if (row->sold_as && row->sold_as != sold_as)
            continue;
        auto judged = judged_by(*row, content);
        if (!strictest || judged.keeping > strictest->keeping)
            strictest = std::move(judged);
    }
    if (strictest)
        return *std::move(strictest);
    return no_row(market, fmt::format(" in what is sold as \"{}\"", name_of(*sold_as)));
}

} // namespace

Result<double> undissociated_share(double bread_ph) {
    if (!(bread_ph >= lowest_ph && bread_ph <= highest_ph))
        return Refusal{
            "pH",
            fmt::format("{:g} was read; from {:g} to {:g} is expected", bread_ph, lowest_ph, highest_ph),
            "Measure a slurry of the crumb"};
    return 1 / (1 + std::pow(10, bread_ph - literature::dough_propionate_pka.value));
}

double trades_ph() { return literature::dough_preservative_ph.value; }

Result<AcidAtWork> acid_at_work(double ph) {
    const auto share = undissociated_share(ph);
    if (!share)
        return share.refusals();
    return AcidAtWork{ph, *share, *dose_at_other_ph(1, trades_ph(), ph)};
}

std::string in_words(const AcidAtWork& acid) {
    return fmt::format("{} % of the acid works at pH {}; as much effect as at pH {} takes {} times the dose",
                       fixed(100 * acid.share, 1), fixed(acid.ph, 2), fixed(trades_ph(), 2),
                       fixed(acid.times_the_dose, 2));
}

Result<double> dose_at_other_ph(double dose, double from_ph, double to_ph) {
    const auto from = undissociated_share(from_ph);
    const auto to = undissociated_share(to_ph);
    if (!from)
        return from.refusals();
    if (!to)
        return to.refusals();
    return dose * *from / *to;
}

double acid_in(PropionateSalt salt) {
    const double acid = literature::dough_molar_propionic_acid.value;
    return salt == PropionateSalt::calcium ? 2 * acid / literature::dough_molar_calcium_propionate.value
                                           : acid / literature::dough_molar_sodium_propionate.value;
}

Result<PropionateInBread> propionate_in_bread(PropionateSalt salt, double percent_of_flour,
                                              double bread_yield) {
    Refusals refusals;
    if (!(percent_of_flour >= 0 && percent_of_flour <= 100))
        refusals.push_back(
            {"Propionate", fmt::format("{:g} % was read; 0 or more is expected", percent_of_flour), ""});
    if (!(bread_yield >= 1 && bread_yield <= 2))
        refusals.push_back(
            {"Bread yield",
             fmt::format("{:g} was read; from 1 to 2 kg of bread per kg of flour is expected", bread_yield),
             "Weigh the bread of a batch"});
    if (!refusals.empty())
        return refusals;
    const double salt_mass = percent_of_flour * mg_per_kg_of_percent / bread_yield;
    return PropionateInBread{salt_mass, salt_mass * acid_in(salt)};
}

std::vector<KeepingJudged> judge_propionate(std::span<const PropionateRow> rows,
                                            std::span<const Market> markets, const std::string& market,
                                            std::optional<SoldAs> sold_as,
                                            const std::optional<PropionateInBread>& content) {
    std::vector<KeepingJudged> all;
    for (const auto& holding : with_wider(markets, market)) {
        std::vector<const PropionateRow*> of_market;
        for (const auto& row : rows)
            if (row.market == holding)
                of_market.push_back(&row);
        if (!of_market.empty())
            all.push_back(judged_in(holding, of_market, sold_as, content));
    }
    if (all.empty())
        all.push_back(no_row(market, ""));
    return all;
}

Result<double> mould_free_days(MouldLine line, double erh_percent) {
    const double low = literature::dough_mould_erh_low.value;
    const double high = literature::dough_mould_erh_high.value;
    if (!(erh_percent >= low && erh_percent <= high))
        return Refusal{"ERH",
                       fmt::format("{:g} % was read; the published lines hold from {:g} to {:g} %",
                                   erh_percent, low, high),
                       "Keep the plant's own record of mould-free days"};
    const bool cool = line == MouldLine::at_21;
    const double constant =
        cool ? literature::dough_mould_21_constant.value : literature::dough_mould_27_constant.value;
    const double slope =
        cool ? literature::dough_mould_21_slope.value : literature::dough_mould_27_slope.value;
    return std::pow(10, constant - slope * erh_percent);
}

} // namespace mellowbin::dough
