#include "db/plant_store.h"

#include "db/climate_day_store.h"
#include "db/columns.h"
#include "db/numbering.h"
#include "db/product_rows.h"
#include "db/record_parts.h"
#include "db/taught_store.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

Refusals taken(Change& change, std::string_view field, const std::string& name) {
    return change.refuse({std::string(field), fmt::format("\"{}\" is already in the book", name),
                          "Choose another name, or change the one that is there"});
}

constexpr std::array line_columns{
    column<&Line::name>("name"),
    column<&Line::friction_factor>("friction_factor_k"),
    column<&Line::mixing_energy_kj_per_kg>("mixing_energy_kj_per_kg"),
    column<&Line::room>("room_c"),
    column<&Line::tap_water>("tap_water_c"),
    column<&Line::coldest_water>("coldest_water_c"),
    column<&Line::most_ice>("most_ice_share"),
    column<&Line::oxidant_scale_step_g>("oxidant_scale_step_g"),
    column<&Line::oxidant_scale_error_g>("oxidant_scale_error_g"),
    column<&Line::stock_solution_g_per_l>("stock_solution_g_per_l"),
    column<&Line::water_step_kg>("water_step_kg"),
    column<&Line::ice_temperature>("ice_c"),
};

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
    change.touches(record_of(id));
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
                 {id, flour.name, key_of(flour.flour_class)});
    write_windows(book, "flour_window", "flour", id.number(), flour.specification);
    change.touches(record_of(id));
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
        {id, place.name, key_of(place.kind), key_of(place.air), place.temperature, place.humidity});
    book.execute("DELETE FROM place_climate WHERE place_id = $1", {id});
    for (const auto& step : place.climate)
        book.execute("INSERT INTO place_climate (place_id, from_day, temperature_c) VALUES ($1, $2, $3)",
                     {id, step.from, step.temperature});
    ClimateDayStore(book).forget(id); // what is assumed of it went into its days
    change.touches(record_of(id));
    return id;
}

std::vector<Product> PlantStore::products() const { return read_products(connection_); }

Result<ProductId> PlantStore::save(Change& change, const Product& product) {
    auto& book = change.connection();
    if (is_taken(book, "product", "name", product.name, product.id.number()))
        return taken(change, "Product", product.name);
    const auto id = number_for(book, "product", product.id);
    write_product(book, id, product);
    change.touches(record_of(id));
    write_expected(change, id, product);
    return id;
}

std::vector<Line> PlantStore::lines() const { return read_records(connection_, "line", line_columns); }

Result<LineId> PlantStore::save(Change& change, const Line& line) {
    auto& book = change.connection();
    if (is_taken(book, "line", "name", line.name, line.id.number()))
        return taken(change, "Line", line.name);
    const auto id = number_for(book, "line", line.id);
    write_record(book, "line", line_columns, id, line);
    change.touches(record_of(id));
    write_expected(change, id, line);
    return id;
}

} // namespace mellowbin
