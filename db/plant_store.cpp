#include "db/plant_store.h"

#include "core/typed_text.h"
#include "db/climate_day_store.h"
#include "db/columns.h"
#include "db/numbering.h"
#include "db/product_rows.h"
#include "db/record_parts.h"
#include "db/taught_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>

namespace mellowbin {
namespace {

std::string_view table_of(PlantKind kind) {
    constexpr std::array<std::string_view, 5> tables{"mill", "flour", "place", "line", "product"};
    return tables[static_cast<std::size_t>(kind)];
}

/// The name as another record of the kind bears it.
std::optional<std::string> borne_by_another(Connection& book, PlantRef record, const std::string& name) {
    std::optional<std::string> borne;
    book.query(fmt::format("SELECT name FROM {} WHERE id <> $1", table_of(record.kind)), {record.number},
               [&](const Row& row) {
                   if (same_words(row.words(0), name))
                       borne = row.words(0);
               });
    return borne;
}

/// Every reason why the record may not bear the name.
Refusals against_name(Connection& book, PlantRef record, const std::string& name) {
    const auto borne = borne_by_another(book, record, name);
    if (!borne)
        return {};
    return {{std::string(name_of(record.kind)),
             *borne == name ? fmt::format("\"{}\" is already in the book", name)
                            : fmt::format("\"{}\" is already in the book, as \"{}\"", name, *borne),
             "Choose another name, or change the one that is there"}};
}

void write_retired(Connection& book, PlantRef record, bool is_retired) {
    if (is_retired)
        book.execute("INSERT INTO retired (record_kind, record_id) VALUES ($1, $2) ON CONFLICT DO NOTHING",
                     {table_of(record.kind), record.number});
    else
        book.execute("DELETE FROM retired WHERE record_kind = $1 AND record_id = $2",
                     {table_of(record.kind), record.number});
}

template <class Record> void mark_retired(Connection& book, PlantKind kind, std::vector<Record>& records) {
    book.query("SELECT record_id FROM retired WHERE record_kind = $1", {table_of(kind)}, [&](const Row& row) {
        const auto at = std::find_if(records.begin(), records.end(), [&](const Record& record) {
            return record.id.number() == row.integer(0);
        });
        if (at != records.end())
            at->is_retired = true;
    });
}

/// Where a record of the plant is named: what there, and the condition by its number.
struct Naming {
    PlantKind kind;
    std::string_view what, table, where;
};
constexpr std::array namings{
    Naming{PlantKind::mill, "lots", "lot", "mill_id = $1"},
    Naming{PlantKind::mill, "deliveries", "expected_delivery", "mill_id = $1"},
    Naming{PlantKind::mill, "complaints", "complaint", "mill_id = $1"},
    Naming{PlantKind::mill, "words of its certificates", "mill_word", "mill_id = $1"},
    Naming{PlantKind::flour, "lots", "lot", "flour_id = $1"},
    Naming{PlantKind::flour, "products", "product", "flour_id = $1 OR second_flour_id = $1"},
    Naming{PlantKind::flour, "deliveries", "expected_delivery", "flour_id = $1"},
    Naming{PlantKind::place, "lots", "lot", "received_into_id = $1"},
    Naming{PlantKind::place, "movements", "movement", "from_place_id = $1 OR to_place_id = $1"},
    Naming{PlantKind::place, "retests", "retest", "place_id = $1"},
    Naming{PlantKind::place, "loggers' files", "climate_log", "place_id = $1"},
    Naming{PlantKind::line, "runs", "run", "line_id = $1"},
    Naming{PlantKind::product, "runs", "run", "product_id = $1"},
    Naming{PlantKind::product, "reservations", "reservation", "product_id = $1"},
    Naming{PlantKind::product, "concessions", "lot_concession_product", "product_id = $1"},
    Naming{PlantKind::product, "keeping records", "keeping_record", "product_id = $1"},
};

/// What belongs to a record and to nothing else.
struct Belonging {
    PlantKind kind;
    std::string_view table, column;
};
constexpr std::array belongings{
    Belonging{PlantKind::flour, "flour_window", "flour_id"},
    Belonging{PlantKind::place, "place_climate", "place_id"},
    Belonging{PlantKind::place, "climate_day", "place_id"},
    Belonging{PlantKind::line, "expected_ice", "line_id"},
    Belonging{PlantKind::product, "product_window", "product_id"},
    Belonging{PlantKind::product, "second_flour_window", "product_id"},
    Belonging{PlantKind::product, "product_ingredient", "product_id"},
    Belonging{PlantKind::product, "expected_offset", "product_id"},
};

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

RecordRef record_of(PlantRef record) {
    constexpr std::array kinds{RecordKind::mill, RecordKind::flour, RecordKind::place, RecordKind::line,
                               RecordKind::product};
    return {kinds[static_cast<std::size_t>(record.kind)], record.number};
}

std::vector<Mill> PlantStore::mills() const {
    std::vector<Mill> mills;
    connection_.query("SELECT id, name FROM mill ORDER BY id", {}, [&](const Row& row) {
        mills.push_back({row.id<MillId>(0), row.words(1)});
    });
    mark_retired(connection_, PlantKind::mill, mills);
    return mills;
}

Result<MillId> PlantStore::save(Change& change, const Mill& mill) {
    auto& book = change.connection();
    if (const auto against = against_name(book, {PlantKind::mill, mill.id.number()}, mill.name);
        !against.empty())
        return change.refuse(against);
    const auto id = number_for(book, "mill", mill.id);
    book.execute(
        "INSERT INTO mill (id, name) VALUES ($1, $2) ON CONFLICT (id) DO UPDATE SET name = excluded.name",
        {id, mill.name});
    write_retired(book, {PlantKind::mill, id.number()}, mill.is_retired);
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
    mark_retired(connection_, PlantKind::flour, flours);
    return flours;
}

Result<FlourId> PlantStore::save(Change& change, const Flour& flour) {
    auto& book = change.connection();
    if (const auto against = against_name(book, {PlantKind::flour, flour.id.number()}, flour.name);
        !against.empty())
        return change.refuse(against);
    const auto id = number_for(book, "flour", flour.id);
    book.execute("INSERT INTO flour (id, name, flour_class) VALUES ($1, $2, $3) "
                 "ON CONFLICT (id) DO UPDATE SET name = excluded.name, flour_class = excluded.flour_class",
                 {id, flour.name, key_of(flour.flour_class)});
    write_windows(book, "flour_window", "flour", id.number(), flour.specification);
    write_retired(book, {PlantKind::flour, id.number()}, flour.is_retired);
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
    mark_retired(connection_, PlantKind::place, places);
    return places;
}

Result<PlaceId> PlantStore::save(Change& change, const Place& place) {
    auto& book = change.connection();
    if (const auto against = against_name(book, {PlantKind::place, place.id.number()}, place.name);
        !against.empty())
        return change.refuse(against);
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
    write_retired(book, {PlantKind::place, id.number()}, place.is_retired);
    change.touches(record_of(id));
    return id;
}

std::vector<Product> PlantStore::products() const {
    auto products = read_products(connection_);
    mark_retired(connection_, PlantKind::product, products);
    return products;
}

Result<ProductId> PlantStore::save(Change& change, const Product& product) {
    auto& book = change.connection();
    if (const auto against = against_name(book, {PlantKind::product, product.id.number()}, product.name);
        !against.empty())
        return change.refuse(against);
    const auto id = number_for(book, "product", product.id);
    write_product(book, id, product);
    write_retired(book, {PlantKind::product, id.number()}, product.is_retired);
    change.touches(record_of(id));
    write_expected(change, id, product);
    return id;
}

std::vector<Line> PlantStore::lines() const {
    auto lines = read_records(connection_, "line", line_columns);
    mark_retired(connection_, PlantKind::line, lines);
    return lines;
}

Result<LineId> PlantStore::save(Change& change, const Line& line) {
    auto& book = change.connection();
    if (const auto against = against_name(book, {PlantKind::line, line.id.number()}, line.name);
        !against.empty())
        return change.refuse(against);
    const auto id = number_for(book, "line", line.id);
    write_record(book, "line", line_columns, id, line);
    write_retired(book, {PlantKind::line, id.number()}, line.is_retired);
    change.touches(record_of(id));
    write_expected(change, id, line);
    return id;
}

std::vector<PlantUse> PlantStore::uses(PlantRef record) const {
    std::vector<PlantUse> uses;
    for (const auto& naming : namings) {
        if (naming.kind != record.kind)
            continue;
        int count = 0;
        connection_.query(fmt::format("SELECT COUNT(*) FROM {} WHERE {}", naming.table, naming.where),
                          {record.number}, [&](const Row& row) { count = static_cast<int>(row.integer(0)); });
        if (count > 0)
            uses.push_back({naming.what, count});
    }
    return uses;
}

Result<Done> PlantStore::remove(Change& change, PlantRef record) {
    auto& book = change.connection();
    std::string named_by;
    for (const auto& use : uses(record))
        named_by += fmt::format("{}{} {}", named_by.empty() ? "" : ", ", use.count, use.what);
    if (!named_by.empty())
        return change.refuse({std::string(name_of(record.kind)),
                              fmt::format("is named by what was: {}", named_by), "Retire it instead"});
    bool is_there = false;
    book.query(fmt::format("SELECT 1 FROM {} WHERE id = $1", table_of(record.kind)), {record.number},
               [&](const Row&) { is_there = true; });
    if (!is_there)
        return change.refuse(
            {std::string(name_of(record.kind)), "is not in the book any more", "Look at the list again"});
    for (const auto& belonging : belongings)
        if (belonging.kind == record.kind)
            book.execute(fmt::format("DELETE FROM {} WHERE {} = $1", belonging.table, belonging.column),
                         {record.number});
    write_retired(book, record, false);
    book.execute(fmt::format("DELETE FROM {} WHERE id = $1", table_of(record.kind)), {record.number});
    change.touches(record_of(record));
    return Done{};
}

} // namespace mellowbin
