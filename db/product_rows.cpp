#include "db/product_rows.h"

#include "db/columns.h"
#include "db/record_parts.h"

namespace mellowbin {
namespace {

// The second flour is one thing in core and two columns here: its flour is read before its share.
Value second_flour(const Product& p) { return p.second_flour ? Value(p.second_flour->flour) : Value(); }
void read_second_flour(Product& p, const Row& row, int at) {
    if (const auto flour = row.maybe_id<FlourId>(at))
        p.second_flour = SecondFlour{*flour, 0, {}};
}
Value second_share(const Product& p) { return p.second_flour ? Value(p.second_flour->share) : Value(); }
void read_second_share(Product& p, const Row& row, int at) {
    if (p.second_flour)
        p.second_flour->share = row.real(at);
}

constexpr std::array product_columns{
    column<&Product::name>("name"),
    column<&Product::flour>("flour_id"),
    column<&Product::market>("market_key"),
    word_column<&Product::food, food_class_from_key>("food"),
    word_column<&Product::sold_as, sold_as_from_key>("sold_as"),
    column<&Product::maturity_target>("maturity_target"),
    column<&Product::most_lots>("most_lots"),
    column<&Product::least_share>("least_share"),
    word_column<&Product::oxidant, substance_from_key>("oxidant"),
    column<&Product::house_maximum>("house_maximum_ppm"),
    column<&Product::water_offset>("water_offset_points"),
    column<&Product::is_offset_assumed>("is_offset_assumed"),
    column<&Product::dough_temperature>("dough_temperature_c"),
    column<&Product::fermentation_minutes>("fermentation_minutes"),
    column<&Product::mixing_minutes>("mixing_minutes"),
    column<&Product::batch_flour>("batch_flour_kg"),
    column<&Product::propionate_percent>("propionate_pct_flour"),
    column<&Product::bread_yield>("bread_yield"),
    column<&Product::one_lot_a_batch>("one_lot_a_batch"),
    Column<Product>{"second_flour_id", second_flour, read_second_flour},
    Column<Product>{"second_flour_share", second_share, read_second_share},
    word_column<&Product::preservative, preservative_from_key>("preservative"),
    column<&Product::cultured_acid_percent>("cultured_acid_pct"),
    column<&Product::enzyme>("enzyme"),
    column<&Product::bread_erh>("bread_erh_pct"),
    word_column<&Product::process, dough_process_from_key>("process"),
    column<&Product::most_fermentation_minutes>("most_fermentation_minutes"),
    column<&Product::maturity_per_hour>("maturity_per_hour"),
};

} // namespace

std::vector<Product> read_products(Connection& connection) {
    auto products = read_records(connection, "product", product_columns);
    add_parts(
        connection,
        "SELECT product_id, property, low, high, method FROM product_window ORDER BY product_id, position",
        products, [](Product& product, const Row& row) { product.windows.push_back(window_from(row)); });
    add_parts(connection,
              "SELECT product_id, property, low, high, method FROM second_flour_window "
              "ORDER BY product_id, position",
              products, [](Product& product, const Row& row) {
                  if (product.second_flour)
                      product.second_flour->windows.push_back(window_from(row));
              });
    add_parts(connection,
              "SELECT product_id, name, pct_flour, water_pct, temperature_c FROM product_ingredient "
              "ORDER BY product_id, position",
              products, [](Product& product, const Row& row) {
                  product.ingredients.push_back(
                      {row.words(1), row.real(2), row.real(3),
                       row.is_null(4) ? std::nullopt : std::optional(Celsius{row.real(4)})});
              });
    return products;
}

void write_product(Connection& connection, ProductId id, const Product& product) {
    write_record(connection, "product", product_columns, id, product);
    write_windows(connection, "product_window", "product", id.number(), product.windows);
    write_windows(connection, "second_flour_window", "product", id.number(),
                  product.second_flour ? product.second_flour->windows : Specification{});
    connection.execute("DELETE FROM product_ingredient WHERE product_id = $1", {id});
    int position = 0;
    for (const auto& i : product.ingredients)
        connection.execute(
            "INSERT INTO product_ingredient (product_id, position, name, pct_flour, water_pct, "
            "temperature_c) VALUES ($1, $2, $3, $4, $5, $6)",
            {id, position++, i.name, i.percent_of_flour, i.water_percent,
             i.temperature ? Value(*i.temperature) : Value()});
}

} // namespace mellowbin
