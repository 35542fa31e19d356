#pragma once

#include "core/plant.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::dough {

/// What a dose is judged by: the plant's rows of law, and which market lies in which.
struct Law {
    std::span<const LimitRow> rows;
    std::span<const Market> markets;
};

/// Where, as what and on which day the product is made and sold. The market is the product's destination, not
/// the bakery's address.
struct Sale {
    std::string market; ///< key
    FoodClass food{};
    Day day;
};

/// In rising order of strictness.
enum class Permission {
    permitted,
    needs_house_maximum, ///< the law gives no figure (good manufacturing practice): the bakery must set its
                         ///< own
    unconfirmed, ///< only rows that nobody has read in their source permit it: counts as not permitted
    forbidden,
};

/// A judgement with its words ("US-federal, bread: …") and every row it rests on.
struct Judged {
    Permission permission = Permission::permitted;
    std::string words;
    std::vector<LimitRow> rows;

    [[nodiscard]] bool is_permitted() const { return permission == Permission::permitted; }
};

/// What the bakery may still add of a substance.
struct Room {
    Permission permission = Permission::forbidden;
    std::optional<OxidantPpm>
        by_law;                     ///< most of the substance in all, after what others take of a common sum
    std::optional<OxidantPpm> most; ///< the same with the house maximum, mill and bakery together
    OxidantPpm carried;             ///< of the substance itself, from the mill
    OxidantPpm room;                ///< most less carried, never below zero; zero unless permitted
    std::string words;
    std::vector<LimitRow> rows;
};

/// One lot's part of the flour, for what the mill already put in.
struct FlourPart {
    std::span<const MillAddition> additions;
    Kilograms mass;
};

/// What the mill put into the blend, mg per kg of all the flour: mean by mass, one entry a substance.
std::vector<MillAddition> carried_over(std::span<const FlourPart> parts);

/// What the bakery may add: the strictest of the market and of every wider one it lies in. Salts that share a
/// sum share it as the sum of dose/limit, which is the sum by mass where the limits are one figure. No row at
/// all is not permitted; a row that is not confirmed may tighten and forbid, never permit. A house maximum of
/// zero is one that is not set.
Room room_for(const Law& law, const Sale& sale, Substance substance, std::span<const MillAddition> carried,
              OxidantPpm house_maximum);

/// A dose of the bakery judged with what the flour carries.
Judged judge_dose(const Law& law, const Sale& sale, MillAddition dose, std::span<const MillAddition> carried,
                  OxidantPpm house_maximum);

/// The highest figure that any market's row gives for the substance, of those that were read in their source;
/// nothing where one such row permits it without a figure (good manufacturing practice); zero where none
/// permits it.
std::optional<OxidantPpm> highest_read(std::span<const LimitRow> rows, Substance substance);

/// Whether a lot, with what the mill put into it, may go into a product sold so: its own limits as flour, and
/// a prohibition in the finished food. Bread rows permit what no flour row speaks of, and the other way
/// round.
Judged judge_lot(const Law& law, const Sale& sale, FlourClass flour, std::span<const MillAddition> additions);

/// What the blend carries held against the limits of the finished food, sums included.
Judged judge_carried(const Law& law, const Sale& sale, std::span<const MillAddition> carried);

/// Which grade of the hydrochloride is on the scale.
enum class Hydrate { anhydrous, monohydrate };
/// The mass of L-cysteine hydrochloride that holds this much L-cysteine, by molar mass, and back.
OxidantPpm cysteine_as_hydrochloride(OxidantPpm cysteine, Hydrate hydrate);

/// The market and every wider one it lies in, the narrowest first; a market that nobody knows stands alone.
std::vector<std::string> with_wider(std::span<const Market> markets, const std::string& market);

/// "45 mg/kg", "117.1 mg/kg"
std::string in_words(OxidantPpm dose);

} // namespace mellowbin::dough
