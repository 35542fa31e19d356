#include "dough/keeping.h"

#include "core/literature/constants.h"
#include "dough/law.h"

#include <fmt/format.h>

#include <cmath>

namespace mellowbin::dough {
namespace {

constexpr double lowest_ph = 3;
constexpr double highest_ph = 8;
constexpr double mg_per_kg_of_percent = 10000;

KeepingJudged judged_by(const PropionateRow& row, PropionateInBread content) {
    const bool acid = row.counted_as == PropionateCount::acid;
    const double counted = acid ? content.as_acid : content.as_salt;
    const auto where = fmt::format("{}, {}", row.market, row.bread);
    const auto source =
        row.source_date.empty() ? row.source : fmt::format("{}, {}", row.source, row.source_date);
    if (row.status == LimitStatus::not_permitted || row.status == LimitStatus::unclear) {
        return {Keeping::forbidden,
                fmt::format("{}: propionate is not permitted{} ({})", where,
                            row.status == LimitStatus::unclear ? ": the source does not settle it" : "",
                            source),
                row};
    }
    const auto reading = acid                                      ? "as acid"
                         : row.counted_as == PropionateCount::salt ? "as salt"
                                                                   : "as salt, the stricter reading";
    if (row.mg_per_kg && counted > *row.mg_per_kg) {
        return {Keeping::forbidden,
                fmt::format("{}: {:.0f} mg/kg {} is more than {:g} ({})", where, counted, reading,
                            *row.mg_per_kg, source),
                row};
    }
    const auto limit = row.mg_per_kg ? fmt::format("of {:g}", *row.mg_per_kg)
                                     : std::string{"no figure, good manufacturing practice"};
    auto words = fmt::format("{}: {:.0f} mg/kg {}, {} ({})", where, counted, reading, limit, source);
    if (!row.is_confirmed)
        words += ": not confirmed, read the source first";
    return {row.is_confirmed ? Keeping::permitted : Keeping::unconfirmed, words, row};
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

bool is_above_working_range(double ph) { return ph > literature::dough_preservative_ph.value; }

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
                                            PropionateInBread content) {
    std::vector<KeepingJudged> all;
    for (const auto& holding : with_wider(markets, market))
        for (const auto& row : rows)
            if (row.market == holding)
                all.push_back(judged_by(row, content));
    if (all.empty())
        all.push_back(
            {Keeping::forbidden,
             fmt::format("{}: no row permits propionate: enter one with its source, or leave it out", market),
             {}});
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
