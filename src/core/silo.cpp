#include "core/silo.h"

#include "core/decimal.h"
#include "core/promised.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace mellowbin {
namespace {

constexpr Bounds zones{0, 1'000'000, "kg"};

/// Grams of each lot, in the order in which the lots lie there.
class ByLot {
public:
    double& of(LotId lot) {
        for (auto& [known, mass] : parts_)
            if (known == lot)
                return mass;
        return parts_.emplace_back(lot, 0.0).second;
    }
    [[nodiscard]] const std::vector<std::pair<LotId, double>>& parts() const { return parts_; }

private:
    std::vector<std::pair<LotId, double>> parts_;
};

double grams_of(const Layer& layer) { return static_cast<double>(layer.mass.count()); }

Grams total_of(std::span<const Layer> layers) {
    Grams total;
    for (const auto& layer : layers)
        total += layer.mass;
    return total;
}

/// First in, first out: the layers as they lie, the last one as far as it is needed.
ByLot plug_flow(std::span<const Layer> layers, double mass) {
    ByLot out;
    for (const auto& layer : layers) {
        if (mass <= 0)
            break;
        const double taken = std::min(grams_of(layer), mass);
        out.of(layer.lot) += taken;
        mass -= taken;
    }
    return out;
}

/// The zone while it is drawn from: what is in it, and what left.
struct Zone {
    ByLot held, left;
    double size = 0;

    /// So much falls in from above, of one lot, and as much leaves: the zone stays as large as it is. Of what
    /// was in it a share of exp(-m/Z) is left; of what fell in, Z (1 - exp(-m/Z)).
    void pass(LotId lot, double mass) {
        const double leaves = -std::expm1(-mass / size);
        held.of(lot); // in the order in which it lies there
        for (const auto& [known, before] : std::vector(held.parts())) {
            const double fell_in = known == lot ? mass : 0;
            const double stays = before * (1 - leaves) + (known == lot ? size * leaves : 0);
            held.of(known) = stays;
            left.of(known) += before + fell_in - stays;
        }
    }
    /// Nothing lies above any more.
    void empty(double mass) {
        const double share = size > 0 ? std::min(1.0, mass / size) : 0;
        for (const auto& [known, before] : held.parts())
            left.of(known) += before * share;
    }
};

/// Of each layer, the grams that lie in the lowest `size`.
std::vector<double> lowest(std::span<const Layer> layers, double size) {
    std::vector<double> in_zone;
    for (const auto& layer : layers) {
        in_zone.push_back(std::min(grams_of(layer), size));
        size -= in_zone.back();
    }
    return in_zone;
}

ByLot mixed(std::span<const Layer> layers, double size, double mass) {
    const auto in_zone = lowest(layers, size);
    Zone zone;
    zone.size = size;
    for (std::size_t i = 0; i < layers.size(); ++i)
        if (in_zone[i] > 0)
            zone.held.of(layers[i].lot) += in_zone[i];
    for (std::size_t i = 0; i < layers.size() && mass > 0; ++i) {
        const double falls = std::min(grams_of(layers[i]) - in_zone[i], mass);
        if (falls > 0)
            zone.pass(layers[i].lot, falls);
        mass -= falls;
    }
    if (mass > 0)
        zone.empty(mass);
    return zone.left;
}

} // namespace

std::string in_words(const MixingZone& zone) {
    if (!zone.mass)
        return "all of it is one mixture";
    if (*zone.mass == Grams{0})
        return "first in, first out";
    const auto kg = to_kilograms(*zone.mass).value();
    return fmt::format("its lowest {:g} kg are one mixture", kg);
}

Result<MixingZone> read_mixing_zone(std::string_view typed) {
    const auto words = trimmed(typed);
    if (same_words(words, "all"))
        return MixingZone{};
    if (same_words(words, "none"))
        return MixingZone{Grams{0}};
    const auto kg = read_required_decimal("Mixing zone", words, zones);
    if (kg)
        return MixingZone{to_grams(Kilograms{*kg})};
    return Refusal{"Mixing zone", fmt::format("\"{}\" was read", excerpt(words)),
                   "Enter kg, \"none\" for first in, first out, or \"all\" for one mixture"};
}

std::string_view key_of(Certainty certainty) {
    return certainty == Certainty::contains ? "contains" : "may_contain";
}
std::string_view in_words(Certainty certainty) {
    return certainty == Certainty::contains ? "contains" : "may contain";
}

std::vector<Grams> shared_out(Grams whole, std::span<const double> weights, std::span<const Grams> most) {
    promised(weights.size() == most.size());
    const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
    std::vector<Grams> shares(weights.size());
    std::vector<double> rest(weights.size());
    Grams given;
    for (std::size_t i = 0; i < weights.size(); ++i) {
        const double exact = sum > 0 ? static_cast<double>(whole.count()) * weights[i] / sum : 0;
        shares[i] = std::min(Grams{static_cast<std::int64_t>(std::floor(exact))}, most[i]);
        rest[i] = exact - static_cast<double>(shares[i].count());
        given += shares[i];
    }
    std::vector<std::size_t> order(weights.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return rest[a] > rest[b]; });
    while (given < whole) { // more than once around only where some have no more to give
        const Grams before = given;
        for (const auto i : order) {
            if (given < whole && shares[i] < most[i]) {
                shares[i] += Grams{1};
                given += Grams{1};
            }
        }
        promised(given > before);
    }
    return shares;
}

Result<std::vector<DrawnPart>> drawn(std::span<const Layer> layers, const MixingZone& zone, Grams mass) {
    const Grams total = total_of(layers);
    if (mass < Grams{0} || mass > total)
        return Refusal{"Weight",
                       fmt::format("{} kg was read, but {} kg lies there",
                                   fixed(to_kilograms(mass).value(), 3),
                                   fixed(to_kilograms(total).value(), 3)),
                       "Draw no more than lies there"};
    std::vector<DrawnPart> parts;
    if (mass == Grams{0})
        return parts;
    const double wanted = static_cast<double>(mass.count());
    const double size = static_cast<double>(std::min(zone.mass.value_or(total), total).count());
    const auto left = (size > 0 ? mixed(layers, size, wanted) : plug_flow(layers, wanted)).parts();
    std::vector<double> weights;
    std::vector<Grams> most;
    int lots = 0;
    for (const auto& [lot, grams] : left) {
        weights.push_back(grams);
        Grams there;
        for (const auto& layer : layers)
            if (layer.lot == lot)
                there += layer.mass;
        most.push_back(there);
        lots += grams > 0 ? 1 : 0;
    }
    const auto shares = shared_out(mass, weights, most);
    const auto certainty = size > 0 && lots > 1 ? Certainty::may_contain : Certainty::contains;
    for (std::size_t i = 0; i < shares.size(); ++i)
        if (shares[i] > Grams{0})
            parts.push_back({left[i].first, shares[i], certainty});
    return parts;
}

void take_out(std::vector<Layer>& layers, std::span<const DrawnPart> parts) {
    for (const auto& part : parts) {
        Grams rest = part.mass;
        for (auto& layer : layers) {
            if (layer.lot != part.lot)
                continue;
            const Grams taken = std::min(layer.mass, rest);
            layer.mass = layer.mass - taken;
            rest = rest - taken;
        }
        promised(rest == Grams{0});
    }
    std::erase_if(layers, [](const Layer& layer) { return layer.mass <= Grams{0}; });
}

} // namespace mellowbin
