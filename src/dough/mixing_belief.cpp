#include "dough/mixing_belief.h"

#include "core/literature/constants.h"
#include "core/promised.h"
#include "dough/normal_filter.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace mellowbin::dough {
namespace {

namespace lit = literature;

constexpr double far_away = 4;      // standard deviations
constexpr int believed_after = 3;   // batches on end that lie far away
constexpr double usual_dough = 100; // kg that the mean is told for; any would do

double squared(double x) { return x * x; }

double size_of(Kilograms dough) {
    promised(dough.value() > 0);
    return std::log(dough.value() / usual_dough);
}

struct Mixer {
    Eigen::Index mean = 0;
    Eigen::Index slope = 0; ///< on the logarithm of the dough's mass
    int far_away = 0;       ///< batches on end
    double scattered = 0;   ///< squares of what batches scattered by, (kJ/kg)^2, summed up
    int batches = 0;        ///< that it was learned from

    /// Variance of a batch: the assumed one counts for so many batches.
    [[nodiscard]] double scatter() const {
        const double worth = lit::dough_mixing_batch_worth.value;
        return (worth * squared(lit::dough_mixing_batch_sd.value) + scattered) / (worth + batches);
    }
};

struct ProductOnMixer {
    Eigen::Index difference = 0;
    int batches = 0;
};

} // namespace

double mixing_heat_of(const MixedDough& batch) {
    const auto& heat = batch.heat;
    promised(heat.water.value() > 0);
    const auto poured = as_one_water(batch.water_temperature, heat.water, batch.ice, batch.ice_temperature);
    double taken_up = heat.water.value() * lit::dough_heat_of_water.value * (heat.dough - poured).value();
    for (const auto& part : heat.parts)
        taken_up += part.mass.value() * part.heat * (heat.dough - part.temperature).value();
    return taken_up / heat.mass().value() - lit::dough_heat_of_hydration.value;
}

struct MixingBelief::Filter {
    NormalFilter unknowns;
    std::map<LineId, Mixer> mixers;
    std::map<std::pair<LineId, ProductId>, ProductOnMixer> products;

    Mixer& mixer(LineId line);
    ProductOnMixer& product(LineId line, ProductId product);
};

Mixer& MixingBelief::Filter::mixer(LineId line) {
    const auto found = mixers.find(line);
    if (found != mixers.end())
        return found->second;
    const auto mean = unknowns.add(lit::dough_mixing_mean.value, squared(lit::dough_mixing_mixer_sd.value));
    return mixers[line] = {mean, unknowns.add(0, squared(lit::dough_mixing_size_sd.value))};
}

ProductOnMixer& MixingBelief::Filter::product(LineId line, ProductId product) {
    const auto found = products.find({line, product});
    if (found != products.end())
        return found->second;
    return products[{line, product}] = {unknowns.add(0, squared(lit::dough_mixing_product_sd.value)), 0};
}

MixingBelief::MixingBelief() : filter_(std::make_unique<Filter>()) {}
MixingBelief::MixingBelief(const MixingState& state) : MixingBelief() {
    filter_->unknowns = NormalFilter(state.unknowns);
    for (const auto& one : state.mixers)
        filter_->mixers[one.line] = {one.mean, one.slope, one.far_away, one.scattered, one.batches};
    for (const auto& one : state.products)
        filter_->products[{one.line, one.product}] = {one.difference, one.batches};
}
MixingBelief::~MixingBelief() = default;
MixingBelief::MixingBelief(const MixingBelief& other) : filter_(std::make_unique<Filter>(*other.filter_)) {}
MixingBelief& MixingBelief::operator=(const MixingBelief& other) {
    if (this != &other)
        filter_ = std::make_unique<Filter>(*other.filter_);
    return *this;
}
MixingBelief::MixingBelief(MixingBelief&&) noexcept = default;
MixingBelief& MixingBelief::operator=(MixingBelief&&) noexcept = default;

bool MixingBelief::observe(LineId line, ProductId product, Kilograms dough, double kj_per_kg) {
    if (!(kj_per_kg >= 0 && kj_per_kg <= lit::dough_mixing_most.value))
        return false;
    auto& filter = *filter_;
    const bool is_first = !filter.mixers.contains(line);
    auto& mixer = filter.mixer(line);
    auto& on_mixer = filter.product(line, product);
    const Terms sum{{mixer.mean}, {mixer.slope, size_of(dough)}, {on_mixer.difference}};
    const double scatter = mixer.scatter();
    if (!is_first)
        filter.unknowns.widen(mixer.mean, squared(lit::dough_mixing_drift_sd.value));
    const double off = kj_per_kg - filter.unknowns.mean(sum);
    if (!is_first && squared(off) > squared(far_away) * (filter.unknowns.variance(sum) + scatter)) {
        if (++mixer.far_away < believed_after)
            return false;
        filter.unknowns.widen(mixer.mean, squared(lit::dough_mixing_mixer_sd.value));
    }
    if (!is_first && mixer.far_away == 0) {
        // Of what it is off by, its own part: the rest is what the mean was not known to.
        mixer.scattered += squared(off) * scatter / (filter.unknowns.variance(sum) + scatter);
        ++mixer.batches;
    }
    mixer.far_away = 0;
    filter.unknowns.observe(sum, kj_per_kg, scatter);
    ++on_mixer.batches;
    return true;
}

MixingState MixingBelief::state() const {
    MixingState state;
    state.unknowns = filter_->unknowns.state();
    for (const auto& [line, one] : filter_->mixers)
        state.mixers.push_back({line, one.mean, one.slope, one.far_away, one.scattered, one.batches});
    for (const auto& [on_mixer, one] : filter_->products)
        state.products.push_back({on_mixer.first, on_mixer.second, one.difference, one.batches});
    return state;
}

std::optional<MixingHeat> MixingBelief::predict(LineId line, ProductId product, Kilograms dough) const {
    const auto& filter = *filter_;
    const auto mixer = filter.mixers.find(line);
    if (mixer == filter.mixers.end())
        return {};
    Terms sum{{mixer->second.mean}, {mixer->second.slope, size_of(dough)}};
    MixingHeat heat;
    double more = 0;
    if (const auto known = filter.products.find({line, product}); known != filter.products.end()) {
        sum.push_back({known->second.difference});
        heat.batches = known->second.batches;
    } else {
        more = squared(lit::dough_mixing_product_sd.value);
    }
    heat.kj_per_kg = std::max(0.0, filter.unknowns.mean(sum));
    const double variance = filter.unknowns.variance(sum) + more;
    heat.sd = std::sqrt(variance);
    heat.reading_sd =
        std::sqrt(variance + squared(lit::dough_mixing_drift_sd.value) + mixer->second.scatter());
    return heat;
}

} // namespace mellowbin::dough
