#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/lot.h"
#include "core/quantity.h"
#include "db/connection.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin {

/// Flour of one lot in one place, with its names.
struct StockLine {
    LotId lot;
    PlaceId place;
    Grams mass; ///< above 0
    std::string code, mill, flour, place_name;
    Day delivered_on;
    std::optional<Day> best_before; ///< the supplier's
    Grams bag;                      ///< one bag; 0: it came loose
    LotState state{};               ///< as it is now
};

/// Where flour lies and lay. What lies now the book keeps with every movement; what lay at an instant is
/// added up from the movements since, or, where those are more, from the ones before it.
class StockStore {
public:
    explicit StockStore(Connection& connection) : connection_(connection) {}

    [[nodiscard]] Grams lying(LotId lot, PlaceId place) const;
    [[nodiscard]] Grams lying_in(PlaceId place) const; ///< all lots
    /// By place, then lot, as they were entered.
    [[nodiscard]] std::vector<StockLine> now() const;
    /// By the movements that were written up to and with that instant.
    [[nodiscard]] std::vector<StockLine> at(Instant instant) const;

private:
    Connection& connection_;
};

} // namespace mellowbin
