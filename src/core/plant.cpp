#include "core/plant.h"

#include "core/names.h"
#include "core/promised.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin {
namespace {

constexpr std::array flour_classes{
    Named<FlourClass>{FlourClass::white, "white", "White"},
    Named<FlourClass>{FlourClass::high_extraction, "high_extraction", "High extraction"},
    Named<FlourClass>{FlourClass::wholemeal, "wholemeal", "Wholemeal"},
};
constexpr std::array airs{
    Named<Air>{Air::breathable_bag, "breathable_bag", "Paper or woven bags"},
    Named<Air>{Air::moved_silo, "moved_silo", "Silo, moved or blown"},
    Named<Air>{Air::sealed_liner, "sealed_liner", "Sealed liner"},
    Named<Air>{Air::inert, "inert", "Vacuum, nitrogen or absorber"},
};
constexpr std::array place_kinds{
    Named<PlaceKind>{PlaceKind::bay, "bay", "Bay"},
    Named<PlaceKind>{PlaceKind::rack, "rack", "Rack"},
    Named<PlaceKind>{PlaceKind::tote, "tote", "Tote"},
    Named<PlaceKind>{PlaceKind::silo, "silo", "Silo"},
};

constexpr std::array dough_processes{
    Named<DoughProcess>{DoughProcess::straight, "straight", "Straight dough"},
    Named<DoughProcess>{DoughProcess::sponge, "sponge", "Sponge and dough"},
    Named<DoughProcess>{DoughProcess::no_time, "no_time", "No-time dough"},
};
constexpr std::array preservatives{
    Named<Preservative>{Preservative::calcium_propionate, "calcium_propionate", "Calcium propionate"},
    Named<Preservative>{Preservative::sodium_propionate, "sodium_propionate", "Sodium propionate"},
    Named<Preservative>{Preservative::cultured_wheat, "cultured_wheat", "Cultured wheat"},
};

} // namespace

std::string_view key_of(FlourClass flour_class) { return row_of(flour_classes, flour_class).key; }
std::string_view name_of(FlourClass flour_class) { return row_of(flour_classes, flour_class).name; }
std::optional<FlourClass> flour_class_from_key(std::string_view key) { return from_key(flour_classes, key); }

std::string_view key_of(Air air) { return row_of(airs, air).key; }
std::string_view name_of(Air air) { return row_of(airs, air).name; }
std::optional<Air> air_from_key(std::string_view key) { return from_key(airs, key); }

std::string_view key_of(PlaceKind kind) { return row_of(place_kinds, kind).key; }
std::string_view name_of(PlaceKind kind) { return row_of(place_kinds, kind).name; }
std::optional<PlaceKind> place_kind_from_key(std::string_view key) { return from_key(place_kinds, key); }

std::string_view key_of(DoughProcess process) { return row_of(dough_processes, process).key; }
std::string_view name_of(DoughProcess process) { return row_of(dough_processes, process).name; }
std::optional<DoughProcess> dough_process_from_key(std::string_view key) {
    return from_key(dough_processes, key);
}

std::string_view key_of(Preservative preservative) { return row_of(preservatives, preservative).key; }
std::string_view name_of(Preservative preservative) { return row_of(preservatives, preservative).name; }
std::optional<Preservative> preservative_from_key(std::string_view key) {
    return from_key(preservatives, key);
}

Result<Product> accept_product(Product product) {
    Refusals refusals;
    if (product.most_lots < 1)
        refusals.push_back({"Most lots", fmt::format("{} was read; 1 or more is expected", product.most_lots),
                            "Say of how many lots a blend may be"});
    if (const auto& second = product.second_flour) {
        if (!(second->share > 0 && second->share < 1))
            refusals.push_back(
                {"Second flour",
                 fmt::format("a share of {:g} was read; above 0 and below 1 is expected", second->share),
                 "Enter its part of all the flour, or leave the second flour out"});
        if (second->flour == product.flour)
            refusals.push_back({"Second flour", "is the first one again", "Choose another kind of flour"});
    }
    append(refusals, why_not(product.ingredients));
    for (const auto part : {FlourPart::main, FlourPart::second}) {
        if (part == FlourPart::second && !product.second_flour)
            continue;
        for (const auto& window : windows_of(product, part))
            if (const auto accepted = accept_window(window); !accepted)
                append(refusals, accepted.refusals());
    }
    if (!refusals.empty())
        return refusals;
    return product;
}

FlourId flour_of(const Product& product, FlourPart part) {
    promised(part == FlourPart::main || product.second_flour);
    return part == FlourPart::main ? product.flour : product.second_flour->flour;
}

const Specification& windows_of(const Product& product, FlourPart part) {
    promised(part == FlourPart::main || product.second_flour);
    return part == FlourPart::main ? product.windows : product.second_flour->windows;
}

std::optional<FlourPart> part_of(const Product& product, FlourId flour) {
    if (flour == product.flour)
        return FlourPart::main;
    if (product.second_flour && flour == product.second_flour->flour)
        return FlourPart::second;
    return {};
}

Product as_baked(Product product, const Run& run) {
    product.fermentation_minutes += run.longer_fermentation_minutes;
    const double gained = product.maturity_per_hour.value_or(0) * run.longer_fermentation_minutes / 60;
    product.maturity_target = Maturity{std::max(0.0, product.maturity_target.value() - gained)};
    return product;
}

int whole_minutes(double minutes) {
    constexpr double rounding = 1e-9; // of a sum that comes to a whole number
    return std::max(0, static_cast<int>(std::ceil(minutes - rounding)));
}

Refusals why_not_fermented_longer(const Product& product, int minutes) {
    constexpr const char* field = "Longer fermentation";
    Refusals refusals;
    if (product.process == DoughProcess::no_time)
        refusals.push_back({field,
                            fmt::format("{} is a no-time dough, without bulk fermentation", product.name),
                            "Wait, blend or dose instead"});
    if (!product.maturity_per_hour)
        refusals.push_back({field,
                            fmt::format("what an hour more does is not calibrated for {}", product.name),
                            "Bake the same flour at two times and enter the gain an hour"});
    else if (*product.maturity_per_hour <= 0)
        refusals.push_back({field, fmt::format("an hour more was found to do nothing for {}", product.name),
                            "Wait, blend or dose instead"});
    if (product.fermentation_minutes + minutes > product.most_fermentation_minutes)
        refusals.push_back(
            {field,
             fmt::format("{} min was read; {} ferments {} min and may ferment at most {}", minutes,
                         product.name, product.fermentation_minutes,
                         std::max(product.fermentation_minutes, product.most_fermentation_minutes)),
             "Enter fewer minutes, or change the product's longest fermentation"});
    return refusals;
}

Grams grams_of(const Product& product, FlourPart part, Grams flour) {
    const double share = product.second_flour ? product.second_flour->share : 0;
    const Grams second{std::llround(share * static_cast<double>(flour.count()))};
    return part == FlourPart::second ? second : flour - second;
}

} // namespace mellowbin
