#include "db/plant_store.h"

#include "db/numbering.h"

#include <fmt/format.h>

#include <unordered_map>

namespace mellowbin {
namespace {

/// Adds what belongs to a record: rows that begin with the record's number, in the record's own order.
template <class Record, class Add>
void add_parts(Connection& connection, std::string_view sql, std::vector<Record>& records, Add add) {
    std::unordered_map<std::int64_t, Record*> by_number;
    for (auto& record : records)
        by_number[record.id.number()] = &record;
    connection.query(sql, {}, [&](const Row& row) {
        if (const auto at = by_number.find(row.integer(0)); at != by_number.end())
            add(*at->second, row);
    });
}

Window window_from(const Row& row) {
    return {row.key(1, property_from_key), row.maybe_real(2), row.maybe_real(3), row.words(4)};
}

/// `table` of windows, each the `owner`'s.
void write_windows(Connection& connection, std::string_view table, std::string_view owner, std::int64_t id,
                   const Specification& windows) {
    connection.execute(fmt::format("DELETE FROM {} WHERE {}_id = $1", table, owner), {id});
    const auto insert = fmt::format("INSERT INTO {} ({}_id, position, property, low, high, method) "
                                    "VALUES ($1, $2, $3, $4, $5, $6)",
                                    table, owner);
    int position = 0;
    for (const auto& w : windows)
        connection.execute(insert, {id, position++, traits(w.property).key, w.low, w.high, w.method});
}

Refusals taken(Change& change, std::string_view field, const std::string& name) {
    return change.refuse({std::string(field), fmt::format("\"{}\" is already in the book", name),
                          "Choose another name, or change the one that is there"});
}

Value flour_of(const std::optional<SecondFlour>& second) {
    if (!second)
        return {};
    return second->flour;
}

Value share_of(const std::optional<SecondFlour>& second) {
    if (!second)
        return {};
    return second->share;
}

std::optional<std::string_view> key_of(std::optional<Substance> substance) {
    return substance ? std::optional(key_of(*substance)) : std::nullopt;
}

} // namespace

std::vector<Mill> PlantStore::mills() const {
    std::vector<Mill> mills;
    connection_.query("SELECT id, name FROM mill ORDER BY id", {}, [&](const Row& row) {
        mills.push_back({row.id<MillId>(0), row.words(1)});
    });
    return mills;
}

Result<MillId> PlantStore::save(Change& change, const Mill& mill) {
    auto& book = change.connection();
    if (is_taken(book, "mill", "name", mill.name, mill.id.number()))
        return taken(change, "Mill", mill.name);
    const auto id = number_for(book, "mill", mill.id);
    book.execute(
        "INSERT INTO mill (id, name) VALUES ($1, $2) ON CONFLICT (id) DO UPDATE SET name = excluded.name",
        {id, mill.name});
    return id;
}

std::vector<Flour> PlantStore::flours() const {
    std::vector<Flour> flours;
    connection_.query("SELECT id, name, flour_class FROM flour ORDER BY id", {}, [&](const Row& row) {
        flours.push_back({row.id<FlourId>(0), row.words(1), row.key(2, flour_class_from_key), {}});
    });
    add_parts(connection_,
              "SELECT flour_id, property, low, high, method FROM flour_window ORDER BY flour_id, position",
              flours, [](Flour& flour, const Row& row) { flour.specification.push_back(window_from(row)); });
    return flours;
}

Result<FlourId> PlantStore::save(Change& change, const Flour& flour) {
    auto& book = change.connection();
    if (is_taken(book, "flour", "name", flour.name, flour.id.number()))
        return taken(change, "Flour", flour.name);
    const auto id = number_for(book, "flour", flour.id);
    book.execute("INSERT INTO flour (id, name, flour_class) VALUES ($1, $2, $3) "
                 "ON CONFLICT (id) DO UPDATE SET name = excluded.name, flour_class = excluded.flour_class",
                 {id, flour.name, mellowbin::key_of(flour.flour_class)});
    write_windows(book, "flour_window", "flour", id.number(), flour.specification);
    return id;
}

std::vector<Place> PlantStore::places() const {
    std::vector<Place> places;
    connection_.query("SELECT id, name, kind, air, temperature_c, humidity FROM place ORDER BY id", {},
                      [&](const Row& row) {
                          auto& place = places.emplace_back();
                          place.id = row.id<PlaceId>(0);
                          place.name = row.words(1);
                          place.kind = row.key(2, place_kind_from_key);
                          place.air = row.key(3, air_from_key);
                          place.temperature = Celsius{row.real(4)};
                          if (const auto humidity = row.maybe_real(5))
                              place.humidity = RelativeHumidity{*humidity};
                      });
    add_parts(connection_,
              "SELECT place_id, from_day, temperature_c FROM place_climate ORDER BY place_id, from_day",
              places, [](Place& place, const Row& row) {
                  place.climate.push_back({row.day(1), Celsius{row.real(2)}});
              });
    return places;
}

Result<PlaceId> PlantStore::save(Change& change, const Place& place) {
    auto& book = change.connection();
    if (is_taken(book, "place", "name", place.name, place.id.number()))
        return taken(change, "Place", place.name);
    const auto id = number_for(book, "place", place.id);
    book.execute(
        "INSERT INTO place (id, name, kind, air, temperature_c, humidity) VALUES ($1, $2, $3, $4, $5, $6) "
        "ON CONFLICT (id) DO UPDATE SET name = excluded.name, kind = excluded.kind, air = excluded.air, "
        "temperature_c = excluded.temperature_c, humidity = excluded.humidity",
        {id, place.name, mellowbin::key_of(place.kind), mellowbin::key_of(place.air), place.temperature,
         place.humidity});
    book.execute("DELETE FROM place_climate WHERE place_id = $1", {id});
    for (const auto& step : place.climate)
        book.execute("INSERT INTO place_climate (place_id, from_day, temperature_c) VALUES ($1, $2, $3)",
                     {id, step.from, step.temperature});
    return id;
}

std::vector<Product> PlantStore::products() const {
    std::vector<Product> products;
    connection_.query(
        "SELECT id, name, flour_id, market_key, food, maturity_target, most_lots, least_share, oxidant, "
        "house_maximum_ppm, water_offset_points, is_offset_assumed, dough_temperature_c, "
        "fermentation_minutes, "
        "mixing_minutes, batch_flour_kg, propionate_pct_flour, bread_yield, one_lot_a_batch, "
        "second_flour_id, second_flour_share, preservative, cultured_acid_pct, enzyme, bread_erh_pct, "
        "process, "
        "most_fermentation_minutes, maturity_per_hour FROM product ORDER BY id",
        {}, [&](const Row& row) {
            auto& p = products.emplace_back();
            p.id = row.id<ProductId>(0);
            p.name = row.words(1);
            p.flour = row.id<FlourId>(2);
            p.market = row.words(3);
            p.food = row.key(4, food_class_from_key);
            p.maturity_target = Maturity{row.real(5)};
            p.most_lots = static_cast<int>(row.integer(6));
            p.least_share = row.real(7);
            p.oxidant = row.maybe_key(8, substance_from_key);
            p.house_maximum = OxidantPpm{row.real(9)};
            p.water_offset = AbsorptionPoints{row.real(10)};
            p.is_offset_assumed = row.integer(11) != 0;
            p.dough_temperature = Celsius{row.real(12)};
            p.fermentation_minutes = static_cast<int>(row.integer(13));
            p.mixing_minutes = row.real(14);
            p.batch_flour = Kilograms{row.real(15)};
            p.propionate_percent = row.real(16);
            p.bread_yield = row.real(17);
            p.one_lot_a_batch = row.integer(18) != 0;
            if (const auto second = row.maybe_id<FlourId>(19))
                p.second_flour = SecondFlour{*second, row.real(20), {}};
            p.preservative = row.key(21, preservative_from_key);
            p.cultured_acid_percent = row.real(22);
            p.enzyme = row.words(23);
            p.bread_erh = row.maybe_real(24);
            p.process = row.key(25, dough_process_from_key);
            p.most_fermentation_minutes = static_cast<int>(row.integer(26));
            p.maturity_per_hour = row.maybe_real(27);
        });
    add_parts(
        connection_,
        "SELECT product_id, property, low, high, method FROM product_window ORDER BY product_id, position",
        products, [](Product& product, const Row& row) { product.windows.push_back(window_from(row)); });
    add_parts(connection_,
              "SELECT product_id, property, low, high, method FROM second_flour_window "
              "ORDER BY product_id, position",
              products, [](Product& product, const Row& row) {
                  if (product.second_flour)
                      product.second_flour->windows.push_back(window_from(row));
              });
    add_parts(connection_,
              "SELECT product_id, name, pct_flour FROM product_ingredient ORDER BY product_id, position",
              products, [](Product& product, const Row& row) {
                  product.ingredients.push_back({row.words(1), row.real(2)});
              });
    return products;
}

Result<ProductId> PlantStore::save(Change& change, const Product& p) {
    auto& book = change.connection();
    if (is_taken(book, "product", "name", p.name, p.id.number()))
        return taken(change, "Product", p.name);
    const auto id = number_for(book, "product", p.id);
    book.execute(
        "INSERT INTO product (id, name, flour_id, market_key, food, maturity_target, most_lots, least_share, "
        "oxidant, "
        "house_maximum_ppm, water_offset_points, is_offset_assumed, dough_temperature_c, "
        "fermentation_minutes, "
        "mixing_minutes, batch_flour_kg, propionate_pct_flour, bread_yield, one_lot_a_batch, "
        "second_flour_id, "
        "second_flour_share, preservative, cultured_acid_pct, enzyme, bread_erh_pct, process, "
        "most_fermentation_minutes, maturity_per_hour) "
        "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19, $20, "
        "$21, $22, $23, $24, $25, $26, $27, $28) "
        "ON CONFLICT (id) DO UPDATE SET name = excluded.name, flour_id = excluded.flour_id, "
        "market_key = excluded.market_key, food = excluded.food, maturity_target = excluded.maturity_target, "
        "most_lots = excluded.most_lots, least_share = excluded.least_share, oxidant = excluded.oxidant, "
        "house_maximum_ppm = excluded.house_maximum_ppm, water_offset_points = excluded.water_offset_points, "
        "is_offset_assumed = excluded.is_offset_assumed, dough_temperature_c = excluded.dough_temperature_c, "
        "fermentation_minutes = excluded.fermentation_minutes, mixing_minutes = excluded.mixing_minutes, "
        "batch_flour_kg = excluded.batch_flour_kg, propionate_pct_flour = excluded.propionate_pct_flour, "
        "bread_yield = excluded.bread_yield, one_lot_a_batch = excluded.one_lot_a_batch, "
        "second_flour_id = excluded.second_flour_id, second_flour_share = excluded.second_flour_share, "
        "preservative = excluded.preservative, cultured_acid_pct = excluded.cultured_acid_pct, "
        "enzyme = excluded.enzyme, bread_erh_pct = excluded.bread_erh_pct, process = excluded.process, "
        "most_fermentation_minutes = excluded.most_fermentation_minutes, "
        "maturity_per_hour = excluded.maturity_per_hour",
        {id,
         p.name,
         p.flour,
         p.market,
         mellowbin::key_of(p.food),
         p.maturity_target,
         p.most_lots,
         p.least_share,
         key_of(p.oxidant),
         p.house_maximum,
         p.water_offset,
         p.is_offset_assumed ? 1 : 0,
         p.dough_temperature,
         p.fermentation_minutes,
         p.mixing_minutes,
         p.batch_flour,
         p.propionate_percent,
         p.bread_yield,
         p.one_lot_a_batch ? 1 : 0,
         flour_of(p.second_flour),
         share_of(p.second_flour),
         mellowbin::key_of(p.preservative),
         p.cultured_acid_percent,
         p.enzyme,
         p.bread_erh,
         mellowbin::key_of(p.process),
         p.most_fermentation_minutes,
         p.maturity_per_hour});
    write_windows(book, "product_window", "product", id.number(), p.windows);
    write_windows(book, "second_flour_window", "product", id.number(),
                  p.second_flour ? p.second_flour->windows : Specification{});
    book.execute("DELETE FROM product_ingredient WHERE product_id = $1", {id});
    int position = 0;
    for (const auto& i : p.ingredients)
        book.execute(
            "INSERT INTO product_ingredient (product_id, position, name, pct_flour) VALUES ($1, $2, $3, $4)",
            {id, position++, i.name, i.percent_of_flour});
    return id;
}

std::vector<Line> PlantStore::lines() const {
    std::vector<Line> lines;
    connection_.query("SELECT id, name, friction_factor_k, mixing_energy_kj_per_kg, room_c, tap_water_c, "
                      "coldest_water_c, most_ice_share, oxidant_scale_step_g, oxidant_scale_error_g, "
                      "stock_solution_g_per_l, water_step_kg, ice_c FROM line ORDER BY id",
                      {}, [&](const Row& row) {
                          lines.push_back({row.id<LineId>(0), row.words(1), CelsiusStep{row.real(2)},
                                           row.maybe_real(3), Celsius{row.real(4)}, Celsius{row.real(5)},
                                           Celsius{row.real(6)}, row.real(7), row.real(8), row.real(9),
                                           row.real(10), row.real(11), Celsius{row.real(12)}});
                      });
    return lines;
}

Result<LineId> PlantStore::save(Change& change, const Line& line) {
    auto& book = change.connection();
    if (is_taken(book, "line", "name", line.name, line.id.number()))
        return taken(change, "Line", line.name);
    const auto id = number_for(book, "line", line.id);
    book.execute(
        "INSERT INTO line (id, name, friction_factor_k, mixing_energy_kj_per_kg, room_c, tap_water_c, "
        "coldest_water_c, most_ice_share, oxidant_scale_step_g, oxidant_scale_error_g, "
        "stock_solution_g_per_l, "
        "water_step_kg, ice_c) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13) "
        "ON CONFLICT (id) DO UPDATE SET name = excluded.name, friction_factor_k = "
        "excluded.friction_factor_k, "
        "mixing_energy_kj_per_kg = excluded.mixing_energy_kj_per_kg, room_c = excluded.room_c, "
        "tap_water_c = excluded.tap_water_c, coldest_water_c = excluded.coldest_water_c, "
        "most_ice_share = excluded.most_ice_share, oxidant_scale_step_g = excluded.oxidant_scale_step_g, "
        "oxidant_scale_error_g = excluded.oxidant_scale_error_g, "
        "stock_solution_g_per_l = excluded.stock_solution_g_per_l, water_step_kg = excluded.water_step_kg, "
        "ice_c = excluded.ice_c",
        {id, line.name, line.friction_factor, line.mixing_energy_kj_per_kg, line.room, line.tap_water,
         line.coldest_water, line.most_ice, line.oxidant_scale_step_g, line.oxidant_scale_error_g,
         line.stock_solution_g_per_l, line.water_step_kg, line.ice_temperature});
    return id;
}

} // namespace mellowbin
