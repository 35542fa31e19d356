#include "dough/law.h"

#include "core/literature/constants.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::dough {
namespace {

/// A dose that meets the limit to the last digit is within it: doses are sums of products of doubles.
constexpr double hair = 1e-9;

std::string_view food_words(FoodClass food) {
    switch (food) {
    case FoodClass::white_flour:
        return "white flour";
    case FoodClass::whole_wheat_flour:
        return "whole wheat flour";
    case FoodClass::bread:
        return "bread";
    case FoodClass::whole_wheat_bread:
        return "whole wheat bread";
    }
    return {};
}

FoodClass as_food(FlourClass flour) {
    return flour == FlourClass::wholemeal ? FoodClass::whole_wheat_flour : FoodClass::white_flour;
}

/// A substance's name within a sentence: "potassium bromate", "L-Cysteine".
std::string inner_name(Substance substance) {
    std::string name{name_of(substance)};
    if (name.size() > 1 && name[1] != '-')
        name.front() = static_cast<char>(name.front() + ('a' - 'A'));
    return name;
}

std::vector<LimitRow> rows_for(const Law& law, const std::string& market, Substance substance, FoodClass food,
                               Day day) {
    std::vector<LimitRow> found;
    std::copy_if(law.rows.begin(), law.rows.end(), std::back_inserter(found), [&](const LimitRow& row) {
        return row.market == market && row.substance == substance && row.food == food && row.holds_on(day);
    });
    return found;
}

std::string place(const std::string& market, FoodClass food) {
    return fmt::format("{}, {}", market, food_words(food));
}

std::string cited(const LimitRow& row) {
    return row.source_date.empty() ? row.source : fmt::format("{}, {}", row.source, row.source_date);
}

bool forbids(const LimitRow& row) {
    return row.status == LimitStatus::not_permitted || row.status == LimitStatus::unclear;
}

/// The part of a common sum that other substances have taken already, 0 for none.
double taken_by_others(const Law& law, const LimitRow& row, Day day, std::span<const MillAddition> doses) {
    if (row.sum_group.empty())
        return 0;
    double taken = 0;
    for (const auto& dose : doses) {
        if (dose.substance == row.substance)
            continue;
        for (const auto& other : rows_for(law, row.market, dose.substance, row.food, day))
            if (other.sum_group == row.sum_group && other.limit && other.limit->value() > 0)
                taken += dose.dose / *other.limit;
    }
    return taken;
}

/// What the rows of the whole chain say of a substance in a food.
struct Reading {
    Permission permission = Permission::permitted;
    bool has_rows = false;
    std::optional<OxidantPpm> most;    ///< by law; nothing where no row has a figure
    std::optional<LimitRow> strictest; ///< the row that sets it, or that forbids
    std::string words;                 ///< why it is not permitted; empty when it is
    std::vector<LimitRow> rows;
};

void read_market(const Law& law, const std::vector<LimitRow>& rows, Day day,
                 std::span<const MillAddition> doses, Reading& reading) {
    const bool is_confirmed = std::any_of(
        rows.begin(), rows.end(), [](const LimitRow& row) { return row.is_confirmed && !forbids(row); });
    for (const auto& row : rows) {
        reading.rows.push_back(row);
        if (forbids(row)) {
            if (reading.permission != Permission::forbidden) {
                reading.strictest = row;
                reading.words = fmt::format(
                    "{}: {} is not permitted{}{} ({})", place(row.market, row.food),
                    inner_name(row.substance), row.valid_from ? " from " + iso(*row.valid_from) : "",
                    row.status == LimitStatus::unclear ? ": the source does not settle it" : "", cited(row));
            }
            reading.permission = Permission::forbidden;
            continue;
        }
        if (row.limit) {
            const double left = std::max(0.0, 1 - taken_by_others(law, row, day, doses));
            const OxidantPpm most = *row.limit * left;
            if (!reading.most || most < *reading.most) {
                reading.most = most;
                if (reading.permission != Permission::forbidden)
                    reading.strictest = row;
            }
        } else if (!reading.strictest) {
            reading.strictest = row;
        }
        if (!is_confirmed && reading.permission < Permission::unconfirmed) {
            reading.permission = Permission::unconfirmed;
            reading.words = fmt::format("{}: {} is not confirmed: read {} and confirm the row first ({})",
                                        place(row.market, row.food), inner_name(row.substance), row.source,
                                        row.source_date);
        }
    }
}

Reading read_law(const Law& law, const Sale& sale, Substance substance, std::span<const MillAddition> doses) {
    Reading reading;
    for (const auto& market : with_wider(law.markets, sale.market)) {
        const auto rows = rows_for(law, market, substance, sale.food, sale.day);
        if (rows.empty())
            continue;
        reading.has_rows = true;
        read_market(law, rows, sale.day, doses, reading);
    }
    if (!reading.has_rows) {
        reading.permission = Permission::forbidden;
        reading.words = fmt::format("{}: no row permits {}: enter one with its source, or leave it out",
                                    place(sale.market, sale.food), inner_name(substance));
    }
    return reading;
}

OxidantPpm dose_of(Substance substance, std::span<const MillAddition> doses) {
    OxidantPpm sum;
    for (const auto& dose : doses)
        if (dose.substance == substance)
            sum += dose.dose;
    return sum;
}

void keep_stricter(Judged& all, Permission permission, const std::string& words) {
    if (permission < all.permission || (permission == all.permission && permission == Permission::permitted))
        return;
    if (permission > all.permission)
        all.words.clear();
    all.permission = permission;
    all.words += (all.words.empty() ? "" : "; ") + words;
}

/// "is more than 75 mg/kg with what shares its sum (21 CFR …)", or nothing when the total is within.
std::string excess(const Reading& reading, Substance substance, OxidantPpm total) {
    if (!reading.most || total.value() <= reading.most->value() + hair)
        return {};
    const auto& row = *reading.strictest;
    const bool shared = row.limit && *reading.most < *row.limit;
    return fmt::format(
        "{}: {} of {} is more than the {} that {} ({})", place(row.market, row.food), in_words(total),
        inner_name(substance), in_words(*reading.most),
        shared ? fmt::format("others leave of the common {} for {}", in_words(*row.limit), row.sum_group)
               : "the law allows",
        cited(row));
}

/// Doses as they lie in the food, each substance against its rows, sums included.
Judged judge_all(const Law& law, const Sale& sale, std::span<const MillAddition> doses) {
    Judged all;
    for (const auto& dose : doses) {
        if (dose.dose.value() <= 0)
            continue;
        const auto reading = read_law(law, sale, dose.substance, doses);
        if (!reading.has_rows)
            continue; // the other food's rows speak for it, see judge_lot()
        all.rows.insert(all.rows.end(), reading.rows.begin(), reading.rows.end());
        if (reading.permission == Permission::forbidden) {
            keep_stricter(all, reading.permission, reading.words);
            continue;
        }
        if (const auto words = excess(reading, dose.substance, dose.dose); !words.empty())
            keep_stricter(all, Permission::forbidden, words);
        else
            keep_stricter(all, reading.permission, reading.words);
    }
    return all;
}

} // namespace

std::vector<std::string> with_wider(std::span<const Market> markets, const std::string& market) {
    std::vector<std::string> chain;
    std::string key = market;
    while (!key.empty() && std::find(chain.begin(), chain.end(), key) == chain.end()) {
        chain.push_back(key);
        const auto found = std::find_if(markets.begin(), markets.end(),
                                        [&](const Market& candidate) { return candidate.key == key; });
        key = found == markets.end() ? std::string{} : found->lies_in;
    }
    return chain;
}

std::string in_words(OxidantPpm dose) {
    return fmt::format("{:g} mg/kg", std::round(dose.value() * 100) / 100);
}

std::vector<MillAddition> carried_over(std::span<const FlourPart> parts) {
    std::vector<MillAddition> carried;
    Kilograms flour;
    for (const auto& part : parts)
        flour += part.mass;
    if (flour.value() <= 0)
        return carried;
    for (const auto& part : parts) {
        for (const auto& addition : part.additions) {
            auto found = std::find_if(carried.begin(), carried.end(), [&](const MillAddition& known) {
                return known.substance == addition.substance;
            });
            if (found == carried.end())
                found = carried.insert(carried.end(), {addition.substance, OxidantPpm{0}});
            found->dose += addition.dose * (part.mass / flour);
        }
    }
    return carried;
}

Room room_for(const Law& law, const Sale& sale, Substance substance, std::span<const MillAddition> carried,
              OxidantPpm house_maximum) {
    const auto reading = read_law(law, sale, substance, carried);
    Room room;
    room.permission = reading.permission;
    room.by_law = reading.most;
    room.most = reading.most;
    room.carried = dose_of(substance, carried);
    room.rows = reading.rows;
    room.words = reading.words;
    const bool house_sets = house_maximum.value() > 0 && (!room.most || house_maximum < *room.most);
    if (house_sets)
        room.most = house_maximum;
    if (room.permission != Permission::permitted)
        return room;
    const auto& row = *reading.strictest;
    if (!room.most) {
        room.permission = Permission::needs_house_maximum;
        room.words =
            fmt::format("{}: the law gives no figure for {} (good manufacturing practice, {}): set a house "
                        "maximum for the product",
                        place(row.market, row.food), inner_name(substance), cited(row));
        return room;
    }
    room.room = std::max(OxidantPpm{0}, *room.most - room.carried);
    auto in_law = room.by_law ? in_words(*room.by_law) : "no figure, good manufacturing practice";
    if (room.by_law && row.limit && *room.by_law < *row.limit)
        in_law += fmt::format(" left of the common {} for {}", in_words(*row.limit), row.sum_group);
    room.words =
        fmt::format("{}: {} {} ({})", place(row.market, row.food), inner_name(substance), in_law, cited(row));
    if (house_sets)
        room.words += fmt::format("; house maximum {}", in_words(*room.most));
    if (room.carried.value() > 0)
        room.words += fmt::format("; {} of it is in the flour", in_words(room.carried));
    return room;
}

std::optional<OxidantPpm> highest_read(std::span<const LimitRow> rows, Substance substance) {
    OxidantPpm highest;
    for (const auto& row : rows) {
        if (row.substance != substance || !row.is_confirmed || forbids(row))
            continue;
        if (!row.limit)
            return {};
        highest = std::max(highest, *row.limit);
    }
    return highest;
}

Judged judge_dose(const Law& law, const Sale& sale, MillAddition dose, std::span<const MillAddition> carried,
                  OxidantPpm house_maximum) {
    const auto room = room_for(law, sale, dose.substance, carried, house_maximum);
    Judged judged{room.permission, room.words, room.rows};
    if (!judged.is_permitted() || dose.dose.value() <= room.room.value() + hair)
        return judged;
    judged.permission = Permission::forbidden;
    const auto reading = read_law(law, sale, dose.substance, carried);
    const auto total = dose.dose + room.carried;
    const auto by_law = excess(reading, dose.substance, total);
    const auto shares = room.carried.value() > 0 ? fmt::format(" ({} here and {} in the flour)",
                                                               in_words(dose.dose), in_words(room.carried))
                                                 : std::string{};
    judged.words =
        (by_law.empty() ? fmt::format("{} of {} is more than the house maximum of {}", in_words(total),
                                      inner_name(dose.substance), in_words(*room.most))
                        : by_law) +
        shares;
    return judged;
}

Judged judge_lot(const Law& law, const Sale& sale, FlourClass flour,
                 std::span<const MillAddition> additions) {
    const Sale as_flour{sale.market, as_food(flour), sale.day};
    Judged all = judge_all(law, as_flour, additions);
    for (const auto& addition : additions) {
        if (addition.dose.value() <= 0)
            continue;
        const auto in_flour = read_law(law, as_flour, addition.substance, additions);
        const auto in_food = read_law(law, sale, addition.substance, {});
        if (!in_flour.has_rows && !in_food.has_rows)
            keep_stricter(all, Permission::forbidden, in_flour.words);
        else if (in_food.has_rows && (in_food.permission == Permission::forbidden || !in_flour.has_rows))
            keep_stricter(all, in_food.permission, in_food.words);
        all.rows.insert(all.rows.end(), in_food.rows.begin(), in_food.rows.end());
    }
    return all;
}

Judged judge_carried(const Law& law, const Sale& sale, std::span<const MillAddition> carried) {
    return judge_all(law, sale, carried);
}

OxidantPpm cysteine_as_hydrochloride(OxidantPpm cysteine, Hydrate hydrate) {
    const auto& salt = hydrate == Hydrate::anhydrous ? literature::dough_molar_cysteine_hydrochloride
                                                     : literature::dough_molar_cysteine_hydrochloride_hydrate;
    return cysteine * (salt.value / literature::dough_molar_cysteine.value);
}

} // namespace mellowbin::dough
