#include "dough/dose_response.h"

#include "core/literature/constants.h"
#include "core/promised.h"
#include "dough/dose_belief.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

namespace mellowbin::dough {
namespace {

/// Where half of the bent scale of doses is reached, as a share of the highest dose: 0.5 were a straight
/// scale. Which one it is, the loaves say; none is preferred before.
constexpr std::array half_ways{0.49, 0.38, 0.28, 0.20, 0.13};
/// Standard deviations of the logarithm from the fall that is likely beforehand.
constexpr std::array falls_away{-2.1, -1.4, -0.7, 0.0, 0.7, 1.4, 2.1};
constexpr double no_difference = 0.02; ///< of maturity: loaves so near in it say nothing of the fall
constexpr double weight_kept = 0.98;   ///< of all ways to see the loaves, the likeliest first
constexpr double hair = 1e-9;
constexpr int most_steps = 24; ///< between 0 and the highest dose, when the next one is chosen

/// All lots' loaves on one scale of doses.
struct Scaled {
    DoseScale scale;
    std::map<LotId, LoafSums> lots;
};

/// One way to see the loaves of all lots.
struct Way {
    std::size_t on = 0;  ///< which scale
    std::size_t fit = 0; ///< which fit: those of loaves alike in maturity fit each fall alike
    double fall = 0;     ///< mg/kg from fresh to mature
    double weight = 1;
};

using LotLoaves = std::map<LotId, std::vector<LadderLoaf>>;

LotLoaves by_lot(std::span<const Ladder> ladders) {
    LotLoaves lots;
    for (const auto& ladder : ladders)
        for (const auto& loaf : ladder.loaves) {
            promised(loaf.size > 0 && loaf.dose.value() >= 0);
            lots[ladder.lot].push_back(loaf);
        }
    return lots;
}

double highest_of(const std::vector<LadderLoaf>& loaves) {
    double highest = 0;
    for (const auto& loaf : loaves)
        highest = std::max(highest, loaf.dose.value());
    return highest;
}

double mean_size_of(const LotLoaves& lots) {
    double sum = 0;
    double count = 0;
    for (const auto& [lot, loaves] : lots)
        for (const auto& loaf : loaves) {
            sum += loaf.size;
            ++count;
        }
    return count > 0 ? sum / count : 1;
}

/// The usual step of the ladders: the middle of all steps from a dose to the next in a lot.
double step_of(const LotLoaves& lots, double highest) {
    std::vector<double> steps;
    for (const auto& [lot, loaves] : lots) {
        std::set<double> doses;
        for (const auto& loaf : loaves)
            doses.insert(loaf.dose.value());
        for (auto dose = doses.begin(); dose != doses.end() && std::next(dose) != doses.end(); ++dose)
            steps.push_back(*std::next(dose) - *dose);
    }
    if (steps.empty())
        return highest > 0 ? highest / 4 : literature::dough_bake_first_step.value;
    const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
    std::nth_element(steps.begin(), middle, steps.end());
    double step = *middle;
    while (highest / step > most_steps)
        step *= 2;
    return step;
}

/// 10, 50 and 90 % of a figure above 0 that is weighed at a few places, even on its logarithm: straight
/// between the middles of the steps.
Within within(const std::map<double, double>& weights) {
    const auto at = [&](double share) {
        double below = 0;
        for (auto place = weights.begin(); place != weights.end(); ++place) {
            const double here = place->second;
            if (below + here < share && std::next(place) != weights.end()) {
                below += here;
                continue;
            }
            const double step = weights.size() < 2
                                    ? 0
                                    : std::log(weights.rbegin()->first / weights.begin()->first) /
                                          static_cast<double>(weights.size() - 1);
            const double into = here > 0 ? std::clamp((share - below) / here, 0.0, 1.0) - 0.5 : 0;
            return place->first * std::exp(step * into);
        }
        return 0.0;
    };
    return {at(0.1), at(0.5), at(0.9)};
}

} // namespace

struct DoseResponse::Belief {
    LotLoaves lots;
    double highest = 0;   ///< of all lots, mg/kg
    double mean_size = 1; ///< of all loaves
    double step = 0;      ///< mg/kg
    double youngest = 0;  ///< maturity that is known of a loaf; scales begin there
    double oldest = 0;
    double usual = 0; ///< maturity of a loaf of which it is not known
    std::vector<Scaled> scales;
    std::vector<CommonCurve> fits;
    std::vector<Way> ways; ///< with the scales and fits that they are of

    Belief(std::span<const Ladder> ladders, const DoseFall& before);
    void find_maturities();
    [[nodiscard]] std::vector<Way> fitted(double fall);
    void learn(double likely, double spread);
    void weigh();
    [[nodiscard]] double gained(const LadderLoaf& loaf) const;
    [[nodiscard]] LoafSums sums_of(const std::vector<LadderLoaf>& loaves, const DoseScale& scale,
                                   double fall) const;
    [[nodiscard]] const LadderLoaf* newest(LotId lot) const;
    [[nodiscard]] Band when_baked(LotId lot) const;
    [[nodiscard]] Band when(LotId lot, const std::optional<MaturityRange>& now) const;
    [[nodiscard]] LotBelief of(LotId lot, const Band& maturity) const;
    [[nodiscard]] double highest_baked(LotId lot) const;
};

DoseResponse::Belief::Belief(std::span<const Ladder> ladders, const DoseFall& before)
    : lots(by_lot(ladders)) {
    for (const auto& [lot, loaves] : lots)
        highest = std::max(highest, highest_of(loaves));
    mean_size = mean_size_of(lots);
    step = step_of(lots, highest);
    find_maturities();
    const bool is_told = before.likely > 0;
    const double likely = is_told ? before.likely : literature::dough_bake_fall_share.value * highest;
    const double spread = is_told ? before.spread : literature::dough_bake_fall_share_sd.value;
    learn(likely, spread);
    weigh();
}

void DoseResponse::Belief::find_maturities() {
    double sum = 0;
    double count = 0;
    for (const auto& [lot, loaves] : lots)
        for (const auto& loaf : loaves)
            if (loaf.maturity) {
                const double maturity = loaf.maturity->value();
                youngest = count > 0 ? std::min(youngest, maturity) : maturity;
                oldest = count > 0 ? std::max(oldest, maturity) : maturity;
                sum += maturity;
                ++count;
            }
    usual = count > 0 ? sum / count : 0;
}

/// Maturity beyond the youngest loaf's.
double DoseResponse::Belief::gained(const LadderLoaf& loaf) const {
    return (loaf.maturity ? loaf.maturity->value() : usual) - youngest;
}

LoafSums DoseResponse::Belief::sums_of(const std::vector<LadderLoaf>& loaves, const DoseScale& scale,
                                       double fall) const {
    std::map<Day, LoafSums> days;
    for (const auto& loaf : loaves)
        days[loaf.baked_on].add(scale.along(loaf.dose.value() + fall * gained(loaf)), loaf.size / mean_size);
    LoafSums sums;
    for (const auto& [day, of_day] : days)
        sums.add_day(of_day);
    return sums;
}

/// All ways in which the loaves fit where the dose falls so far, each with its log evidence.
std::vector<Way> DoseResponse::Belief::fitted(double fall) {
    std::vector<Way> found;
    auto common = assumed_curve();
    for (const double half_way : half_ways) {
        Scaled on{{half_way, highest + step + fall * (oldest - youngest)}, {}}; // a step above is asked of
        std::vector<LoafSums> sums;
        for (const auto& [lot, loaves] : lots)
            sums.push_back(on.lots[lot] = sums_of(loaves, on.scale, fall));
        common = learn_curve(sums, common); // from the neighbour's: it is near
        for (const auto& around : curves_around(sums, common)) {
            found.push_back({scales.size(), fits.size(), fall, around.log_evidence});
            fits.push_back(around);
        }
        scales.push_back(std::move(on));
    }
    return found;
}

void DoseResponse::Belief::learn(double likely, double spread) {
    // Where all loaves were of flour alike in maturity, they fit each fall alike.
    const bool is_told = oldest - youngest > no_difference;
    const auto alike = is_told ? std::vector<Way>{} : fitted(0);
    for (const double away : falls_away) {
        const double fall = likely * std::exp(spread * away);
        for (auto way : is_told ? fitted(fall) : alike) {
            way.fall = fall;
            way.weight -= away * away / 2;
            ways.push_back(way);
        }
    }
}

/// From logarithms to shares; what is hardly believed is left out.
void DoseResponse::Belief::weigh() {
    std::sort(ways.begin(), ways.end(), [](const Way& a, const Way& b) { return a.weight > b.weight; });
    const double best = ways.front().weight;
    double all = 0;
    for (auto& way : ways)
        all += way.weight = std::exp(way.weight - best);
    double kept = 0;
    std::size_t count = 0;
    while (count < ways.size() && kept < weight_kept * all)
        kept += ways[count++].weight;
    ways.erase(ways.begin() + static_cast<std::ptrdiff_t>(count), ways.end());
    for (auto& way : ways)
        way.weight /= kept;
}

LotBelief DoseResponse::Belief::of(LotId lot, const Band& maturity) const {
    struct OfLot {
        CurveFigures figures;
        CurveSpread spread;
    };
    std::map<std::size_t, OfLot> by_fit;
    std::vector<CurveBelief> beliefs;
    beliefs.reserve(ways.size());
    for (const auto& way : ways) {
        const auto& common = fits[way.fit];
        auto found = by_fit.find(way.fit);
        if (found == by_fit.end()) {
            const auto& loaves = scales[way.on].lots;
            const auto own = loaves.find(lot);
            const auto sums = own == loaves.end() ? LoafSums{} : own->second;
            found = by_fit.emplace(way.fit, OfLot{common.of_lot(sums), common.spread_of_lot(sums)}).first;
        }
        beliefs.push_back({scales[way.on].scale, way.fall, way.weight, found->second.figures,
                           found->second.spread, common.scatter});
    }
    return {std::move(beliefs), maturity, {when_baked(lot).likely, highest_baked(lot)}};
}

double DoseResponse::Belief::highest_baked(LotId lot) const {
    const auto found = lots.find(lot);
    const double own = found == lots.end() ? 0 : highest_of(found->second);
    return own > 0 ? own : highest;
}

const LadderLoaf* DoseResponse::Belief::newest(LotId lot) const {
    const auto found = lots.find(lot);
    if (found == lots.end())
        return nullptr;
    return &*std::max_element(
        found->second.begin(), found->second.end(),
        [](const LadderLoaf& a, const LadderLoaf& b) { return a.baked_on < b.baked_on; });
}

/// From the youngest on, as the beliefs count it.
Band DoseResponse::Belief::when_baked(LotId lot) const {
    const auto* loaf = newest(lot);
    const double at = loaf ? gained(*loaf) : usual - youngest;
    return {at, at, at};
}

Band DoseResponse::Belief::when(LotId lot, const std::optional<MaturityRange>& now) const {
    const auto* loaf = newest(lot);
    if (!now || (loaf && !loaf->maturity))
        return when_baked(lot); // of a change of which the beginning is not known nothing is said
    return {now->low.value() - youngest, now->likely.value() - youngest, now->high.value() - youngest};
}

DoseFall assumed_fall(Substance substance) {
    if (substance != Substance::ascorbic_acid)
        return {};
    constexpr double to_95 = 1.959964;
    const auto& fall = literature::dough_ascorbic_all_aging;
    return {fall.value, std::log(fall.high / fall.low) / (2 * to_95)};
}

DoseResponse::DoseResponse(std::span<const Ladder> ladders, const DoseFall& fall)
    : belief_(std::make_unique<Belief>(ladders, fall)) {}
DoseResponse::~DoseResponse() = default;
DoseResponse::DoseResponse(DoseResponse&&) noexcept = default;
DoseResponse& DoseResponse::operator=(DoseResponse&&) noexcept = default;

bool DoseResponse::knows_nothing() const { return belief_->lots.empty(); }

BestDose DoseResponse::best_dose(LotId lot, OxidantPpm permitted,
                                 const std::optional<MaturityRange>& now) const {
    promised(!knows_nothing());
    const Band as_baked = belief_->when_baked(lot);
    const auto belief = belief_->of(lot, belief_->when(lot, now));
    const double baked = belief_->highest_baked(lot);
    const double most = std::min(baked, std::max(0.0, permitted.value()));
    const double dose = belief.best(most);
    const auto optimum = belief.optimum(most);
    const auto gain = belief.gain_of(dose);
    const auto own = belief_->lots.find(lot);
    BestDose best;
    best.dose = OxidantPpm{dose};
    best.low = OxidantPpm{std::min(optimum.low, dose)};
    best.high = OxidantPpm{std::max(optimum.high, dose)};
    best.highest_baked = OxidantPpm{baked};
    best.gain = gain.likely * belief_->mean_size;
    best.gain_low = gain.low * belief_->mean_size;
    best.gain_high = gain.high * belief_->mean_size;
    best.loaves = own == belief_->lots.end() ? 0 : static_cast<int>(own->second.size());
    best.lots = static_cast<int>(belief_->lots.size());
    best.is_at_the_end = belief.optimum(baked).high >= baked;
    best.is_cut_by_law = most < baked && belief.best(baked) > most * (1 + hair);
    best.when_baked = best.dose;
    best.baked_at = baked_at(lot);
    if (now && best.baked_at) {
        best.dosed_at = now->likely;
        best.when_baked = OxidantPpm{belief_->of(lot, as_baked).best(most)};
        const auto fallen = belief.fallen(most);
        const double likely = (best.when_baked - best.dose).value();
        best.fallen = {std::min(fallen.low, likely), likely, std::max(fallen.high, likely)};
    }
    return best;
}

std::vector<NextDose> DoseResponse::next_doses(LotId lot, OxidantPpm permitted,
                                               const std::optional<MaturityRange>& now) const {
    promised(!knows_nothing());
    const auto belief = belief_->of(lot, belief_->when(lot, now)).rough();
    const double baked = belief_->highest_baked(lot);
    const double allowed = std::max(0.0, permitted.value());
    const double above = std::min(allowed, baked + belief_->step);
    const bool is_open = belief.optimum(baked).high >= baked; // then the step above is part of the question
    const double most = is_open ? above : std::min(allowed, baked);
    std::set<double> doses{above};
    for (int i = 0; i * belief_->step / 2 < std::min(above, baked) * (1 + hair); ++i)
        doses.insert(i * belief_->step / 2);
    const auto band = belief.optimum(most);
    std::vector<NextDose> next;
    for (const double dose : doses) {
        const auto lesson = belief.lesson_of(dose, most);
        next.push_back(
            {OxidantPpm{dose}, band.high - band.low, lesson.width, lesson.gain * belief_->mean_size});
    }
    std::stable_sort(next.begin(), next.end(), [](const NextDose& a, const NextDose& b) {
        return a.interval_expected < b.interval_expected;
    });
    return next;
}

std::vector<DosePoint> DoseResponse::curve(LotId lot, int points) const {
    promised(!knows_nothing() && points >= 2);
    const auto belief = belief_->of(lot, belief_->when_baked(lot));
    const double baked = belief_->highest_baked(lot);
    std::vector<DosePoint> curve;
    for (int i = 0; i < points; ++i) {
        const double dose = baked * i / (points - 1);
        const auto size = belief.size_at(dose);
        curve.push_back({OxidantPpm{dose}, size.low * belief_->mean_size, size.likely * belief_->mean_size,
                         size.high * belief_->mean_size});
    }
    return curve;
}

double DoseResponse::loaf_scatter() const {
    double variance = 0;
    for (const auto& way : belief_->ways)
        variance += way.weight * belief_->fits[way.fit].scatter;
    return std::sqrt(variance) * belief_->mean_size;
}

Within DoseResponse::fall() const {
    std::map<double, double> weights;
    for (const auto& way : belief_->ways)
        weights[way.fall] += way.weight;
    return within(weights);
}

double DoseResponse::maturity_baked_over() const {
    const double over = belief_->oldest - belief_->youngest;
    return over > no_difference ? over : 0;
}

std::optional<Maturity> DoseResponse::baked_at(LotId lot) const {
    const auto* loaf = belief_->newest(lot);
    return loaf ? loaf->maturity : std::nullopt;
}

} // namespace mellowbin::dough
