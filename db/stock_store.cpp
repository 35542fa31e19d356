#include "db/stock_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <unordered_map>
#include <utility>

namespace mellowbin {
namespace {

constexpr std::string_view names_of_lines =
    "SELECT s.lot_id, s.place_id, s.mass_g, l.code, m.name, f.name, p.name, l.delivered_on, l.best_before, "
    "l.bag_g, l.state FROM {} s JOIN lot l ON l.id = s.lot_id JOIN mill m ON m.id = l.mill_id "
    "JOIN flour f ON f.id = l.flour_id JOIN place p ON p.id = s.place_id ORDER BY s.place_id, s.lot_id";

StockLine line_of(const Row& row) {
    return {row.id<LotId>(0),
            row.id<PlaceId>(1),
            Grams{row.integer(2)},
            row.words(3),
            row.words(4),
            row.words(5),
            row.words(6),
            row.day(7),
            row.maybe_day(8),
            Grams{row.integer(9)},
            row.key(10, lot_state_from_key)};
}

/// Grams by lot and place, added up by the hundred thousand.
class Sums {
public:
    void add(std::int64_t lot, std::int64_t place, std::int64_t grams) { grams_[{lot, place}] += grams; }
    /// A movement, or with `sign` -1 one that is undone.
    void add_movement(const Row& row, std::int64_t sign) {
        const auto mass = sign * row.integer(3);
        if (!row.is_null(1))
            add(row.integer(0), row.integer(1), -mass);
        if (!row.is_null(2))
            add(row.integer(0), row.integer(2), mass);
    }
    /// Those that are above nothing, by place, then lot.
    [[nodiscard]] std::vector<StockLine> lines(Connection& connection) const {
        std::vector<StockLine> lines;
        for (const auto& [key, grams] : grams_)
            if (grams > 0)
                connection.query(
                    fmt::format(names_of_lines, "(SELECT $1 AS lot_id, $2 AS place_id, $3 AS mass_g)"),
                    {key.first, key.second, grams}, [&](const Row& row) { lines.push_back(line_of(row)); });
        std::ranges::sort(lines, {}, [](const StockLine& line) { return std::pair(line.place, line.lot); });
        return lines;
    }

private:
    using Key = std::pair<std::int64_t, std::int64_t>;
    struct Hash {
        std::size_t operator()(const Key& key) const {
            return std::hash<std::int64_t>()(key.first * 65'537 + key.second);
        }
    };
    std::unordered_map<Key, std::int64_t, Hash> grams_;
};

/// Less was written after the instant than up to it, by the clock from the first movement to the last.
bool is_nearer_now(Connection& connection, Instant instant) {
    bool is_nearer = true;
    connection.query("SELECT (SELECT MIN(at) FROM movement), (SELECT MAX(at) FROM movement)", {},
                     [&](const Row& row) {
                         if (!row.is_null(0))
                             is_nearer = row.instant(1) - instant < instant - row.instant(0);
                     });
    return is_nearer;
}

} // namespace

Grams StockStore::lying(LotId lot, PlaceId place) const {
    Grams mass;
    connection_.query("SELECT mass_g FROM lying WHERE lot_id = $1 AND place_id = $2", {lot, place},
                      [&](const Row& row) { mass = Grams{row.integer(0)}; });
    return mass;
}

Grams StockStore::lying_in(PlaceId place) const {
    Grams mass;
    connection_.query("SELECT COALESCE(SUM(mass_g), 0) FROM lying WHERE place_id = $1", {place},
                      [&](const Row& row) { mass = Grams{row.integer(0)}; });
    return mass;
}

std::vector<StockLine> StockStore::now() const {
    std::vector<StockLine> lines;
    connection_.query(fmt::format(names_of_lines, "lying"), {},
                      [&](const Row& row) { lines.push_back(line_of(row)); });
    return lines;
}

std::vector<StockLine> StockStore::at(Instant instant) const {
    Sums sums;
    const bool from_now = is_nearer_now(connection_, instant);
    if (from_now)
        connection_.query("SELECT lot_id, place_id, mass_g FROM lying", {},
                          [&](const Row& row) { sums.add(row.integer(0), row.integer(1), row.integer(2)); });
    connection_.query(
        fmt::format("SELECT lot_id, from_place_id, to_place_id, mass_g FROM movement WHERE at {} $1",
                    from_now ? ">" : "<="),
        {instant}, [&](const Row& row) { sums.add_movement(row, from_now ? -1 : 1); });
    return sums.lines(connection_);
}

} // namespace mellowbin
