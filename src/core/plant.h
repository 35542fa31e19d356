#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/ingredient.h"
#include "core/limit.h"
#include "core/quantity.h"
#include "core/result.h"
#include "core/specification.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// How far the miller went into the grain; it sets how fast a flour matures and how long it keeps.
enum class FlourClass { white, high_extraction, wholemeal };
std::string_view key_of(FlourClass flour_class);
std::string_view name_of(FlourClass flour_class);
std::optional<FlourClass> flour_class_from_key(std::string_view key);

/// How the air reaches the flour where it lies.
enum class Air { breathable_bag, moved_silo, sealed_liner, inert };
std::string_view key_of(Air air);
std::string_view name_of(Air air);
std::optional<Air> air_from_key(std::string_view key);

enum class PlaceKind { bay, rack, tote, silo };
std::string_view key_of(PlaceKind kind);
std::string_view name_of(PlaceKind kind);
std::optional<PlaceKind> place_kind_from_key(std::string_view key);

struct Mill {
    MillId id;
    std::string name;
    bool is_retired = false; ///< kept for what was; nothing new may name it
    friend bool operator==(const Mill&, const Mill&) = default;
};

/// A kind of flour the plant buys: what products ask for and lots are.
struct Flour {
    FlourId id;
    std::string name;
    FlourClass flour_class{};
    Specification specification; ///< what a delivery is judged by
    bool is_retired = false;     ///< kept for what was; nothing new may name it
    friend bool operator==(const Flour&, const Flour&) = default;
};

/// A temperature that holds from a day on, until the next one.
struct ClimateStep {
    Day from;
    Celsius temperature;
    friend bool operator==(const ClimateStep&, const ClimateStep&) = default;
};

struct Place {
    PlaceId id;
    std::string name;
    PlaceKind kind{};
    Air air{};
    Celsius temperature{20};                  ///< holds where no step does
    std::optional<RelativeHumidity> humidity; ///< of its air where no log says; not known: nobody says
    std::vector<ClimateStep> climate;         ///< in order of days
    bool is_retired = false;                  ///< kept for what was; nothing new may name it

    friend bool operator==(const Place&, const Place&) = default;
};

/// The part of a formula's flour that is of another kind than the rest, such as the rye of a mixed loaf. It
/// is a need of its own: lots of its own flour, windows of its own.
struct SecondFlour {
    FlourId flour;
    double share = 0;      ///< of the formula's flour, above 0 and below 1
    Specification windows; ///< of the lots that go into this part
    friend bool operator==(const SecondFlour&, const SecondFlour&) = default;
};

/// How the dough comes about; it decides what is published about its fermentation.
enum class DoughProcess { straight, sponge, no_time };
std::string_view key_of(DoughProcess process);
std::string_view name_of(DoughProcess process);
std::optional<DoughProcess> dough_process_from_key(std::string_view key);

/// What holds mould off in a product's bread.
enum class Preservative { calcium_propionate, sodium_propionate, cultured_wheat };
std::string_view key_of(Preservative preservative);
std::string_view name_of(Preservative preservative);
std::optional<Preservative> preservative_from_key(std::string_view key);

struct Product {
    ProductId id;
    std::string name;
    FlourId flour;
    std::string market; ///< key of the market whose limits it must meet
    FoodClass food = FoodClass::bread;
    std::optional<SoldAs> sold_as; ///< nothing: nobody said, and where the law tells breads apart it is asked
    Specification windows;         ///< of the blend that goes into it
    Maturity maturity_target{0.9};
    int most_lots = 3;            ///< in one blend
    double least_share = 0.1;     ///< of a lot in a blend
    bool one_lot_a_batch = false; ///< a batch takes one lot alone: whole batches, each lot inside the windows
    std::optional<SecondFlour> second_flour;
    std::optional<Substance> oxidant; ///< the one this bakery would dose; none: the product goes without
    OxidantPpm house_maximum{0};      ///< the bakery's own cap on it, mill and bakery together
    AbsorptionPoints water_offset{0}; ///< dough water against the farinograph's, points on flour at 14 %
    bool is_offset_assumed = true;    ///< not yet learned from this plant's own batches
    Celsius dough_temperature{26};
    int fermentation_minutes = 60;
    double mixing_minutes = 8;
    Kilograms batch_flour{100};
    std::vector<Ingredient> ingredients;
    double propionate_percent = 0; ///< of the preservative, % of flour; 0 for none
    double bread_yield = 1.45;     ///< kg of bread per kg of flour
    Preservative preservative = Preservative::calcium_propionate;
    double cultured_acid_percent =
        0;              ///< propionic acid in the cultured wheat, % by its supplier; 0: not known
    std::string enzyme; ///< for softness, in words; empty: none
    std::optional<double> bread_erh; ///< equilibrium relative humidity of the crumb, %, as measured
    DoughProcess process = DoughProcess::straight;
    int most_fermentation_minutes = 0; ///< how long it may ferment where flour is weak; 0: never longer
    /// Maturity that an hour more of fermentation stands for, by this plant's own bakes; nothing: not
    /// calibrated.
    std::optional<double> maturity_per_hour;
    bool is_retired = false; ///< kept for what was; nothing new may name it
    friend bool operator==(const Product&, const Product&) = default;
};

/// The product as it may be baked, or every reason why not: the second flour's share lies above 0 and below 1
/// and is another flour than the first; its windows can be kept; at least one lot goes into a blend.
Result<Product> accept_product(Product product);

/// Which of a formula's flours: the one the product is known by, or the second one.
enum class FlourPart { main, second };
/// The kind of flour of the part. The product has a second flour where that is asked for.
FlourId flour_of(const Product& product, FlourPart part);
/// What its lots must keep to.
const Specification& windows_of(const Product& product, FlourPart part);
/// The part that takes this flour; none: the product does without it.
std::optional<FlourPart> part_of(const Product& product, FlourId flour);

/// A line and the mixer at its head.
struct Line {
    LineId id;
    std::string name;
    CelsiusStep friction_factor{0}; ///< of the three-factor method: 3 dough - (room + flour + water)
    std::optional<double>
        mixing_energy_kj_per_kg; ///< net heat into the dough; known: the heat balance is used
    Celsius room{22};
    Celsius tap_water{15};
    Celsius coldest_water{2}; ///< what the chiller can do
    double most_ice = 0.5;    ///< share of the water that may be ice
    double oxidant_scale_step_g = 0.1;
    double oxidant_scale_error_g = 0.1;
    double stock_solution_g_per_l = 0; ///< 0: the oxidant is weighed dry
    double water_step_kg = 0.1;
    Celsius ice_temperature{0}; ///< as it is poured, 0 or below
    bool is_retired = false;    ///< kept for what was; nothing new may name it
    friend bool operator==(const Line&, const Line&) = default;
};

/// A product on a line on a day.
struct Run {
    RunId id;
    std::string code; ///< "R-1125-2"
    ProductId product;
    LineId line;
    Day day;
    int sequence = 1; ///< on its line and day
    int batches = 1;
    Grams flour; ///< what the run needs in all
    /// Minutes its dough ferments beyond the product's, for strength its flour lacks; 0: none.
    int longer_fermentation_minutes = 0;
    friend bool operator==(const Run&, const Run&) = default;
};

/// The product as this run bakes it: fermented longer by the run's minutes, and asking so much less maturity
/// of its flour as an hour more stands for, never less than none. Nothing less is asked where that was not
/// calibrated. Of the product as the book has it, not of one that this has been done to.
Product as_baked(Product product, const Run& run);

/// Whole minutes that are enough where so many are missing; at least 0.
int whole_minutes(double minutes);

/// Every reason why the product's dough may not ferment so many minutes (1 or more) beyond its own to make up
/// for strength; empty: it may. Where nobody calibrated an hour more, minutes make up for nothing.
Refusals why_not_fermented_longer(const Product& product, int minutes);

/// What the part of the product takes of this flour of a run or a batch, in whole grams: both parts add up
/// to it. Nothing of a second flour that the product does not have.
Grams grams_of(const Product& product, FlourPart part, Grams flour);

/// Flour that was ordered and has not come yet: the plan may count on it from its arrival on.
struct ExpectedDelivery {
    ExpectedId id;
    std::string code; ///< "E-3"
    MillId mill;
    FlourId flour;
    Grams mass;
    Day arrives;
    Day milled; ///< as the mill says; without its word the day of arrival, which ages the flour least
    bool has_come = false;  ///< taken in or called off; the plan counts on it no more
    std::string order = {}; ///< number of the order, as a label may say it; empty: none was said
    friend bool operator==(const ExpectedDelivery&, const ExpectedDelivery&) = default;
};

/// Flour of an expected delivery that a plan has for a run.
struct Promise {
    RunId run;
    ExpectedId delivery;
    Grams mass;
    std::string reason; ///< in words
    friend bool operator==(const Promise&, const Promise&) = default;
};

/// Flour of a lot that is spoken for: so much kept back from every plan, or, with a product, the whole lot
/// for the runs of that product alone.
struct Reservation {
    ReservationId id;
    LotId lot;
    std::optional<ProductId> product;
    Grams kept_back; ///< 0 with a product
    std::string reason;
    friend bool operator==(const Reservation&, const Reservation&) = default;
};

/// kg of a lot for a run.
struct Assignment {
    RunId run;
    LotId lot;
    Grams mass;
    bool is_locked = false;
    std::string reason; ///< in words
    friend bool operator==(const Assignment&, const Assignment&) = default;
};

} // namespace mellowbin
