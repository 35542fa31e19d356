#pragma once

#include "core/day.h"
#include "core/id.h"

#include <optional>
#include <string>
#include <vector>

/// What lies where, now or at any instant of the past, and how old it is.
namespace mellowbin::app {

/// Flour of one lot in one place.
struct StockRow {
    LotId lot;
    std::string place, code, mill, flour;
    std::string state; ///< as it is now
    double kg = 0;
    std::optional<double> bags; ///< nothing: it came loose, or lies in a silo
    int age_days = 0;           ///< since it was delivered, on the day looked at
    std::optional<Day> last_day;
    std::optional<int> days_left; ///< until then; below 0: past
};

/// How much of it is how old.
struct StockAge {
    std::string words; ///< "8 to 14 days"
    double kg = 0;
};

/// All that lies there of a flour.
struct StockOfFlour {
    std::string flour;
    double kg = 0;
};

struct StockModel {
    std::string as_of;          ///< "As of 2026-11-25", "As of 2026-11-20, 08:00"
    std::vector<StockRow> rows; ///< by place, then lot
    std::vector<StockOfFlour> flours;
    std::vector<StockAge> ages; ///< of all; those of which nothing lies there, too
    double kg = 0;
};

struct Station;

/// Nothing: now. States and last days are those of now: they are judgements, no movements.
StockModel make_stock(const Station& station, std::optional<Instant> at);

} // namespace mellowbin::app
