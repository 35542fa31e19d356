#include "core/decimal.h"
#include "dough/card_parts.h"
#include "dough/levers_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace mellowbin::dough::parts {
namespace {

constexpr std::size_t most_options = 12;

/// The run's own lots of the strength-carrying flour.
int own_lots(const LeverGround& ground) {
    return static_cast<int>(std::count_if(ground.batch.lots.begin(), ground.batch.lots.end(),
                                          [](const CardLot& lot) { return lot.has_target; }));
}

bool is_in_the_run(const LeverGround& ground, const OtherLot& other) {
    return std::any_of(ground.batch.lots.begin(), ground.batch.lots.end(),
                       [&](const CardLot& lot) { return lot.lot->id == other.lot->id; });
}

/// Smallest and largest share that the product, the lot's mass and the number of lots leave; nothing where
/// they leave none. Beside as many lots as a blend may have it can only stand for all of them.
std::optional<std::pair<double, double>> possible_shares(const LeverGround& ground, const OtherLot& other) {
    const auto& product = ground.batch.product;
    const double reach = to_kilograms(other.free) / ground.flour;
    const bool has_room = own_lots(ground) < product.most_lots && !product.one_lot_a_batch;
    const double least = has_room ? std::max(product.least_share, 1e-6) : 1;
    const double most = std::min(1.0, reach);
    // Beside it the run's own lots must keep their least share, or give way.
    if (least > most + 1e-12)
        return {};
    return std::pair{least, most};
}

BlendOption option_of(const LeverGround& ground, const OtherLot& other, double share) {
    const auto mixed = [share](Maturity own, Maturity theirs) {
        return Maturity{(1 - share) * own.value() + share * theirs.value()};
    };
    BlendOption option;
    option.lot = &other;
    option.share = share;
    option.mass = to_grams(ground.flour * share);
    option.maturity = mixed(Maturity{ground.counted}, other.counted);
    option.lowest = mixed(ground.card.lowest, other.lowest);
    option.highest = mixed(ground.card.highest, other.highest);
    option.money = share * ground.flour.value() / 1000 *
                   (static_cast<double>(other.price_per_tonne) - ground.input.prices.flour_per_tonne);
    option.reaches = option.maturity.value() >= ground.target - 1e-9;
    return option;
}

/// The smallest share that reaches inside the windows, else the one that comes nearest.
std::optional<BlendOption> best_share(const LeverGround& ground, const OtherLot& other) {
    const auto possible = possible_shares(ground, other);
    const double gain = other.counted.value() - ground.counted;
    if (!possible || gain <= 1e-9)
        return {};
    const auto [least, most] = *possible;
    const double wanted = std::clamp(ground.missing / gain, least, most);
    // From the wanted share on upwards, then downwards: what is outside at one share may be inside at
    // another.
    constexpr int steps = 8;
    for (int i = 0; i <= steps; ++i)
        if (const double share = wanted + (most - wanted) * i / steps;
            outside_windows(ground, other, share).empty())
            return option_of(ground, other, share);
        else if (most - wanted < 1e-9)
            break;
    for (int i = 1; i <= steps && wanted - least > 1e-9; ++i)
        if (const double share = wanted - (wanted - least) * i / steps;
            outside_windows(ground, other, share).empty())
            return option_of(ground, other, share);
    return {};
}

std::string why_none(const LeverGround& ground, int forbidden, int stronger) {
    if (ground.input.others.empty())
        return "No other lot of this flour is there";
    if (stronger == 0)
        return fmt::format("None of the {} other lots is further than {} % on that day",
                           ground.input.others.size(), fixed(100 * ground.counted, 0));
    if (forbidden == stronger)
        return fmt::format(
            "The {} stronger lots may not go in: {}", stronger,
            std::find_if(ground.input.others.begin(), ground.input.others.end(), [&](const OtherLot& lot) {
                return !lot.forbidden.empty() && lot.counted.value() > ground.counted;
            })->forbidden);
    return "No stronger lot has a share that the plan's limits allow: its flour left, the number of lots, "
           "the "
           "least share, the product's specification";
}

} // namespace

std::string outside_windows(const LeverGround& ground, const OtherLot& lot, double share) {
    const auto& input = ground.batch;
    std::vector<BlendPart> blend;
    double carries = 0;
    for (std::size_t i = 0; i < input.lots.size(); ++i)
        carries += input.lots[i].has_target ? ground.card.flour[i].share : 0;
    for (std::size_t i = 0; i < input.lots.size(); ++i) {
        if (!input.lots[i].has_target)
            continue;
        const double part = ground.card.flour[i].share / carries * (1 - share);
        if (part > 1e-12)
            blend.push_back({&input.lots[i].lot->certificate, Kilograms{part}});
    }
    blend.push_back({&lot.lot->certificate, Kilograms{share}});
    for (const auto& window : input.product.windows) {
        const auto value = blend_value(blend, window.property);
        // What is not known of a lot is the plan's rule to forbid; strength values do not blend.
        if (!value || value->is_estimate)
            continue;
        if ((window.low && value->value < *window.low - 1e-9) ||
            (window.high && value->value > *window.high + 1e-9))
            return fmt::format("{} {} is outside {}", traits(window.property).name,
                               fixed(value->value, traits(window.property).decimals), window.in_words());
    }
    return {};
}

BlendLever weigh_blending(const LeverGround& ground) {
    BlendLever lever;
    lever.looked_at = static_cast<int>(ground.input.others.size());
    if (ground.missing <= 0) {
        lever.reach = Reach::not_needed;
        return lever;
    }
    int forbidden = 0;
    int stronger = 0;
    for (const auto& other : ground.input.others) {
        if (other.counted.value() <= ground.counted || is_in_the_run(ground, other))
            continue;
        ++stronger;
        if (!other.forbidden.empty()) {
            ++forbidden;
            continue;
        }
        if (auto option = best_share(ground, other))
            lever.options.push_back(*option);
    }
    std::sort(lever.options.begin(), lever.options.end(), [](const BlendOption& a, const BlendOption& b) {
        if (a.reaches != b.reaches)
            return a.reaches;
        if (!a.reaches)
            return a.maturity > b.maturity;
        return std::pair{a.money, a.share} < std::pair{b.money, b.share};
    });
    if (lever.options.size() > most_options)
        lever.options.resize(most_options);
    if (lever.options.empty()) {
        lever.why_not = why_none(ground, forbidden, stronger);
        lever.reach = stronger > 0 ? Reach::forbidden : Reach::not_known;
    } else {
        lever.reach = lever.options.front().reaches ? Reach::reaches : Reach::helps;
    }
    return lever;
}

} // namespace mellowbin::dough::parts
