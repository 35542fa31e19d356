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
constexpr std::array half_ways{0.49, 0.45, 0.40, 0.35, 0.30, 0.25, 0.20};
constexpr double least_weight = 0.01; ///< of a scale, to be kept
constexpr double hair = 1e-9;
constexpr int most_steps = 24; ///< between 0 and the highest dose, when the next one is chosen

struct Bend {
    DoseScale scale;
    double weight = 1;
    CommonCurve common;
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

} // namespace

struct DoseResponse::Belief {
    LotLoaves lots;
    double highest = 0;   ///< of all lots, mg/kg
    double mean_size = 1; ///< of all loaves
    double step = 0;      ///< mg/kg
    std::vector<Bend> scales;

    explicit Belief(std::span<const Ladder> ladders);
    void learn();
    void weigh_scales();
    [[nodiscard]] LoafSums sums_of(const std::vector<LadderLoaf>& loaves, const DoseScale& scale) const;
    [[nodiscard]] LotBelief of(LotId lot) const;
    [[nodiscard]] double highest_baked(LotId lot) const;
};

DoseResponse::Belief::Belief(std::span<const Ladder> ladders) : lots(by_lot(ladders)) {
    for (const auto& [lot, loaves] : lots)
        highest = std::max(highest, highest_of(loaves));
    mean_size = mean_size_of(lots);
    step = step_of(lots, highest);
    learn();
    weigh_scales();
}

LoafSums DoseResponse::Belief::sums_of(const std::vector<LadderLoaf>& loaves, const DoseScale& scale) const {
    LoafSums sums;
    for (const auto& loaf : loaves)
        sums.add(scale.along(loaf.dose.value()), loaf.size / mean_size);
    return sums;
}

void DoseResponse::Belief::learn() {
    auto common = assumed_curve();
    for (const double half_way : half_ways) {
        const DoseScale scale(half_way, highest + step); // a step above is asked of
        std::vector<LoafSums> sums;
        for (const auto& [lot, loaves] : lots)
            sums.push_back(sums_of(loaves, scale));
        common = learn_curve(sums, common); // from the neighbour's: it is near
        scales.push_back({scale, 1, common});
    }
}

void DoseResponse::Belief::weigh_scales() {
    double best = scales.front().common.log_evidence;
    for (const auto& on : scales)
        best = std::max(best, on.common.log_evidence);
    for (auto& on : scales)
        on.weight = std::exp(on.common.log_evidence - best);
    std::erase_if(scales, [](const Bend& on) { return on.weight < least_weight; });
    double sum = 0;
    for (const auto& on : scales)
        sum += on.weight;
    for (auto& on : scales)
        on.weight /= sum;
}

LotBelief DoseResponse::Belief::of(LotId lot) const {
    const auto found = lots.find(lot);
    std::vector<CurveBelief> beliefs;
    for (const auto& on : scales) {
        const auto sums = found == lots.end() ? LoafSums{} : sums_of(found->second, on.scale);
        beliefs.push_back(
            {on.scale, on.weight, on.common.of_lot(sums), on.common.spread_of_lot(sums), on.common.scatter});
    }
    return LotBelief(std::move(beliefs));
}

double DoseResponse::Belief::highest_baked(LotId lot) const {
    const auto found = lots.find(lot);
    const double own = found == lots.end() ? 0 : highest_of(found->second);
    return own > 0 ? own : highest;
}

DoseResponse::DoseResponse(std::span<const Ladder> ladders) : belief_(std::make_unique<Belief>(ladders)) {}
DoseResponse::~DoseResponse() = default;
DoseResponse::DoseResponse(DoseResponse&&) noexcept = default;
DoseResponse& DoseResponse::operator=(DoseResponse&&) noexcept = default;

bool DoseResponse::knows_nothing() const { return belief_->lots.empty(); }

BestDose DoseResponse::best_dose(LotId lot, OxidantPpm permitted) const {
    promised(!knows_nothing());
    const auto belief = belief_->of(lot);
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
    return best;
}

std::vector<NextDose> DoseResponse::next_doses(LotId lot, OxidantPpm permitted) const {
    promised(!knows_nothing());
    const auto belief = belief_->of(lot);
    const double baked = belief_->highest_baked(lot);
    const double allowed = std::max(0.0, permitted.value());
    const double above = std::min(allowed, baked + belief_->step);
    const bool is_open = belief.optimum(baked).high >= baked; // then the step above is part of the question
    const double most = is_open ? above : std::min(allowed, baked);
    std::set<double> doses{above};
    for (int i = 0; i * belief_->step / 2 < std::min(above, baked) * (1 + hair); ++i)
        doses.insert(i * belief_->step / 2);
    const auto now = belief.optimum(most);
    std::vector<NextDose> next;
    for (const double dose : doses) {
        const auto lesson = belief.lesson_of(dose, most);
        next.push_back(
            {OxidantPpm{dose}, now.high - now.low, lesson.width, lesson.gain * belief_->mean_size});
    }
    std::stable_sort(next.begin(), next.end(), [](const NextDose& a, const NextDose& b) {
        return a.interval_expected < b.interval_expected;
    });
    return next;
}

std::vector<DosePoint> DoseResponse::curve(LotId lot, int points) const {
    promised(!knows_nothing() && points >= 2);
    const auto belief = belief_->of(lot);
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
    for (const auto& on : belief_->scales)
        variance += on.weight * on.common.scatter;
    return std::sqrt(variance) * belief_->mean_size;
}

} // namespace mellowbin::dough
