#include "dough/card_parts.h"
#include "dough/levers_parts.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace mellowbin::dough::parts {
namespace {

constexpr std::size_t most_mixes = 6;

/// What may be pulled beside a blend, each linear in what it is given.
struct Pull {
    double gain = 0;  ///< maturity a unit
    double most = 0;  ///< units
    double price = 0; ///< minor units a unit
};

Pull oxidant_pull(const LeverGround& ground, const Levers& levers) {
    const auto& oxidant = levers.oxidant;
    if (!oxidant.dose || oxidant.reach == Reach::forbidden || oxidant.reach == Reach::not_known)
        return {};
    const double flour = to_kilograms(ground.batch.run.flour).value();
    return {maturity_per_ppm(ground), oxidant.dose->room.room.value(),
            flour / 1e6 * ground.input.prices.oxidant_per_kg};
}

Pull ferment_pull(const LeverGround& ground, const Levers& levers) {
    if (!levers.ferment.is_calibrated)
        return {};
    return {levers.ferment.maturity_per_hour / 60, static_cast<double>(levers.ferment.most),
            ground.input.prices.line_per_minute * ground.batch.run.batches};
}

/// What the mill has put in counts first: it acts on every mix alike.
double from_the_mill(const LeverGround& ground) {
    std::vector<MillAddition> doses = ground.card.carried;
    for (auto& dose : doses)
        dose.dose = OxidantPpm{dose.dose.value() / ground.card.strength_share};
    return effect_of(Maturity{0}, doses, protein_of(ground.batch, ground.card), ground.card.all_aging)
        .maturity.value();
}

enum class First { oxidant, fermentation };

/// Fills up what the blend leaves missing, by one lever as far as it goes and then by the other.
std::optional<LeverMix> filled(const LeverGround& ground, std::optional<BlendOption> blend,
                               const std::array<Pull, 2>& pulls, First first) {
    LeverMix mix;
    double reached = from_the_mill(ground) + (blend ? blend->maturity.value() : ground.counted);
    mix.money = blend ? blend->money : 0;
    mix.blend = std::move(blend);
    std::array<double, 2> taken{};
    const std::size_t order = first == First::oxidant ? 0 : 1;
    for (const std::size_t i : {order, 1 - order}) {
        const double missing = ground.target - reached;
        if (missing <= 1e-9 || pulls[i].gain <= 0 || pulls[i].most <= 0)
            continue;
        taken[i] = std::min(pulls[i].most, missing / pulls[i].gain);
        reached += taken[i] * pulls[i].gain;
        mix.money += taken[i] * pulls[i].price;
    }
    if (reached < ground.target - 1e-9)
        return {};
    mix.dose = OxidantPpm{taken[0]};
    mix.minutes = taken[1];
    mix.maturity = Maturity{std::min(1.0, reached)};
    return mix;
}

/// The dose of the card is the one lever of oxidant alone: by bakes where there are any, and as it can be
/// measured. Nothing where that does not do.
std::optional<LeverMix> oxidant_alone(const Levers& levers) {
    if (levers.oxidant.reach != Reach::reaches || !levers.oxidant.dose)
        return {};
    LeverMix mix;
    mix.dose = levers.oxidant.dose->resulting;
    mix.maturity = levers.oxidant.maturity;
    mix.money = levers.oxidant.money;
    return mix;
}

bool is_oxidant_alone(const LeverMix& mix) { return !mix.blend && mix.minutes <= 0 && mix.dose.value() > 0; }

/// An option with less of its lot: as little as the product allows.
std::optional<BlendOption> least_of(const LeverGround& ground, const BlendOption& option) {
    const double least = ground.batch.product.least_share;
    if (option.share >= 1 - 1e-9 || option.share <= least + 1e-9 ||
        !outside_windows(ground, *option.lot, least).empty())
        return {};
    BlendOption small = option;
    const double part = least / option.share;
    small.share = least;
    small.mass = to_grams(ground.flour * least);
    small.money *= part;
    const auto nearer = [part](Maturity whole, double own) {
        return Maturity{own + part * (whole.value() - own)};
    };
    small.maturity = nearer(option.maturity, ground.counted);
    small.lowest = nearer(option.lowest, ground.card.lowest.value());
    small.highest = nearer(option.highest, ground.card.highest.value());
    small.reaches = small.maturity.value() >= ground.target - 1e-9;
    return small;
}

bool is_same_kind(const LeverMix& a, const LeverMix& b) {
    const bool same_lot =
        a.blend.has_value() == b.blend.has_value() && (!a.blend || a.blend->lot == b.blend->lot);
    return same_lot && (a.dose.value() > 0) == (b.dose.value() > 0) && (a.minutes > 0) == (b.minutes > 0);
}

} // namespace

std::vector<LeverMix> mix_levers(const LeverGround& ground, const Levers& levers) {
    const std::array pulls{oxidant_pull(ground, levers), ferment_pull(ground, levers)};
    std::vector<std::optional<BlendOption>> blends{std::nullopt};
    for (const auto& option : levers.blend.options) {
        blends.emplace_back(option);
        if (auto less = least_of(ground, option))
            blends.emplace_back(std::move(less));
    }
    std::vector<LeverMix> all;
    const std::array without_oxidant{Pull{}, pulls[1]};
    for (const auto& blend : blends)
        for (const auto& allowed : {pulls, without_oxidant})
            for (const First first : {First::oxidant, First::fermentation})
                if (auto mix = filled(ground, blend, allowed, first); mix && !is_oxidant_alone(*mix))
                    all.push_back(std::move(*mix));
    if (auto mix = oxidant_alone(levers))
        all.push_back(std::move(*mix));
    std::stable_sort(all.begin(), all.end(), [](const LeverMix& a, const LeverMix& b) {
        return std::pair{a.money, a.levers()} < std::pair{b.money, b.levers()};
    });
    // One of a kind is enough; and one of them does without additives, where any does.
    std::vector<LeverMix> mixes;
    for (const auto& mix : all)
        if (std::none_of(mixes.begin(), mixes.end(),
                         [&](const LeverMix& other) { return is_same_kind(mix, other); }))
            mixes.push_back(mix);
    if (mixes.size() <= most_mixes)
        return mixes;
    const auto clean =
        std::find_if(mixes.begin(), mixes.end(), [](const LeverMix& mix) { return mix.dose.value() <= 0; });
    if (clean != mixes.end() && clean - mixes.begin() >= static_cast<std::ptrdiff_t>(most_mixes))
        std::iter_swap(clean, mixes.begin() + static_cast<std::ptrdiff_t>(most_mixes) - 1);
    mixes.resize(most_mixes);
    return mixes;
}

} // namespace mellowbin::dough::parts
