#include "book_support.h"
#include "db/plant_store.h"

namespace mellowbin {
namespace {

template <class Record> auto saved(Connection& book, const Record& record) {
    Change change(book, line("The plant was changed"));
    auto id = PlantStore(book).save(change, record);
    if (id)
        change.commit();
    return id;
}

Flour full_flour() {
    return {{},
            "Strong flour",
            FlourClass::high_extraction,
            {{Property::starch_damage, 6, 9, "AACC 76-31"},
             {Property::protein, 11.5, {}, ""},
             {Property::starch_damage, {}, 24, "Audidier"}}};
}

Product full_product(FlourId flour) {
    Product p;
    p.name = "Hearth loaf";
    p.flour = flour;
    p.market = "US-CA";
    p.food = FoodClass::whole_wheat_bread;
    p.sold_as = SoldAs::prepacked_other;
    p.windows = {{Property::protein, 12, 13.5, ""}, {Property::falling_number, 250, {}, "ISO 3093"}};
    p.maturity_target = Maturity{0.85};
    p.most_lots = 2;
    p.least_share = 0.15;
    p.oxidant = Substance::ascorbic_acid;
    p.house_maximum = OxidantPpm{60};
    p.water_offset = AbsorptionPoints{-1.5};
    p.is_offset_assumed = false;
    p.dough_temperature = Celsius{25.5};
    p.fermentation_minutes = 240;
    p.mixing_minutes = 6.5;
    p.batch_flour = Kilograms{120.5};
    p.ingredients = {{"Salt", 2}, {"Fresh yeast", 0.8, 70}, {"Whole egg", 12, 76.2, Celsius{4.5}}};
    p.propionate_percent = 0.3;
    p.bread_yield = 1.52;
    return p;
}

Line full_line() {
    Line l;
    l.name = "Line 2";
    l.friction_factor = CelsiusStep{14.5};
    l.mixing_energy_kj_per_kg = 32.5;
    l.room = Celsius{24};
    l.tap_water = Celsius{12};
    l.coldest_water = Celsius{3};
    l.most_ice = 0.4;
    l.oxidant_scale_step_g = 0.01;
    l.oxidant_scale_error_g = 0.02;
    l.stock_solution_g_per_l = 20;
    l.water_step_kg = 0.5;
    l.ice_temperature = Celsius{-6};
    return l;
}

} // namespace

TEST_CASE("The plant's records come back as they went in") {
    SqliteConnection book(":memory:");
    PlantStore plant(book);

    Mill mill{{}, "Upper mill"};
    mill.id = *saved(book, mill);
    CHECK(plant.mills() == std::vector{mill});

    Flour flour = full_flour();
    flour.id = *saved(book, flour);
    CHECK(plant.flours() == std::vector{flour});

    Place place{
        {},
        "Silo 3",
        PlaceKind::silo,
        Air::inert,
        Celsius{19.5},
        RelativeHumidity{0.55},
        {{date::sys_days{2026_y / 6 / 1}, Celsius{24}}, {date::sys_days{2026_y / 9 / 1}, Celsius{20}}}};
    place.id = *saved(book, place);
    CHECK(plant.places() == std::vector{place});

    Flour rye{{}, "Rye", FlourClass::wholemeal, {}};
    rye.id = *saved(book, rye);
    Product product = full_product(flour.id);
    product.one_lot_a_batch = true;
    product.preservative = Preservative::cultured_wheat;
    product.cultured_acid_percent = 9.5;
    product.enzyme = "maltogenic amylase";
    product.bread_erh = 95.5;
    product.process = DoughProcess::sponge;
    product.most_fermentation_minutes = 300;
    product.maturity_per_hour = 0.04;
    product.second_flour = SecondFlour{
        rye.id, 0.3, {{Property::falling_number, 120, 250, "ISO 3093"}, {Property::ash, {}, 1.8, ""}}};
    product.id = *saved(book, product);
    CHECK(plant.products() == std::vector{product});
    product.second_flour.reset();
    product.one_lot_a_batch = false;
    REQUIRE(saved(book, product));
    CHECK(plant.products() == std::vector{product}); // nothing of the second flour is left behind
    CHECK(count_of(book, "second_flour_window") == 0);

    Line full = full_line();
    full.id = *saved(book, full);
    CHECK(plant.lines() == std::vector{full});
}

TEST_CASE("A record that is saved again is changed in place, with all its parts") {
    SqliteConnection book(":memory:");
    PlantStore plant(book);
    Flour flour = full_flour();
    flour.id = *saved(book, flour);
    Flour other{{}, "Soft flour", FlourClass::white, {{Property::ash, {}, 0.5, ""}}};
    other.id = *saved(book, other);
    flour.name = "Very strong flour";
    flour.specification.erase(flour.specification.begin());
    CHECK(*saved(book, flour) == flour.id);
    CHECK(plant.flours() == std::vector{flour, other});

    Product product = full_product(flour.id);
    product.id = *saved(book, product);
    product.oxidant.reset();
    product.ingredients = {{"Salt", 1.8}};
    product.windows.clear();
    CHECK(*saved(book, product) == product.id);
    CHECK(plant.products() == std::vector{product});

    Line changed = full_line();
    changed.id = *saved(book, changed);
    changed.mixing_energy_kj_per_kg.reset();
    changed.name = "Line 2 b";
    CHECK(*saved(book, changed) == changed.id);
    CHECK(plant.lines() == std::vector{changed});

    Place place{{},
                "Bay 1",
                PlaceKind::bay,
                Air::breathable_bag,
                Celsius{18},
                RelativeHumidity{0.7},
                {{date::sys_days{2026_y / 1 / 1}, Celsius{12}}}};
    place.id = *saved(book, place);
    place.climate.clear();
    place.humidity.reset();
    place.air = Air::sealed_liner;
    CHECK(*saved(book, place) == place.id);
    CHECK(plant.places() == std::vector{place});
}

TEST_CASE("A name that is taken is refused") {
    SqliteConnection book(":memory:");
    add_small_plant(book);
    Product product;
    product.name = "Pan bread";
    product.flour = FlourId{1};
    Line second;
    second.name = "Line 1";
    CHECK(saved(book, Mill{{}, "Upper mill"}).refusals().at(0).field == "Mill");
    CHECK(saved(book, Flour{{}, "Bread flour", FlourClass::white, {}}).refusals().at(0).field == "Flour");
    CHECK(saved(book, Place{{}, "Bay 1", PlaceKind::bay, Air::inert, Celsius{18}, {}, {}})
              .refusals()
              .at(0)
              .field == "Place");
    CHECK(saved(book, product).refusals().at(0).field == "Product");
    CHECK(saved(book, second).refusals().at(0).field == "Line");
    CHECK(count_of(book, "mill") == 1);
}

TEST_CASE("Every word that core knows is known to the book") {
    SqliteConnection book(":memory:");
    int number = 0;
    for (const auto kind : {PlaceKind::bay, PlaceKind::rack, PlaceKind::tote, PlaceKind::silo})
        for (const auto air : {Air::breathable_bag, Air::moved_silo, Air::sealed_liner, Air::inert})
            CHECK(
                saved(book, Place{{}, "Place " + std::to_string(++number), kind, air, Celsius{18}, {}, {}}));
    for (const auto flour_class : {FlourClass::white, FlourClass::high_extraction, FlourClass::wholemeal})
        CHECK(saved(book, Flour{{}, "Flour " + std::to_string(++number), flour_class, {}}));
    for (const auto food : {FoodClass::white_flour, FoodClass::whole_wheat_flour, FoodClass::bread,
                            FoodClass::whole_wheat_bread}) {
        Product product = full_product(FlourId{1});
        product.name = "Product " + std::to_string(++number);
        product.food = food;
        CHECK(saved(book, product));
    }
    for (const auto substance : all_substances()) {
        Product product = full_product(FlourId{1});
        product.name = "Product " + std::to_string(++number);
        product.oxidant = substance;
        CHECK(saved(book, product));
    }
    CHECK(PlantStore(book).products().back().oxidant == all_substances().back());
}

TEST_CASE("A name that is taken in other letters is refused, and says how the book has it") {
    SqliteConnection book(":memory:");
    add_small_plant(book);
    const auto refused = saved(book, Place{{}, "bay 1", PlaceKind::bay, Air::inert, Celsius{18}, {}, {}});
    REQUIRE_FALSE(refused);
    CHECK(refused.refusals().at(0).what == "\"bay 1\" is already in the book, as \"Bay 1\"");
    auto bay = PlantStore(book).places().at(0);
    bay.name = "BAY 1"; // its own name it may write otherwise
    CHECK(saved(book, bay));
}

TEST_CASE("A record is retired and brought back, and is read so") {
    SqliteConnection book(":memory:");
    add_small_plant(book);
    const PlantStore plant(book);
    for (const bool is_retired : {true, false}) {
        auto mill = plant.mills().at(0);
        auto flour = plant.flours().at(0);
        auto place = plant.places().at(0);
        auto line = plant.lines().at(0);
        auto product = plant.products().at(0);
        mill.is_retired = flour.is_retired = place.is_retired = line.is_retired = product.is_retired =
            is_retired;
        REQUIRE(saved(book, mill));
        REQUIRE(saved(book, flour));
        REQUIRE(saved(book, place));
        REQUIRE(saved(book, line));
        REQUIRE(saved(book, product));
        CHECK(plant.mills().at(0) == mill);
        CHECK(plant.flours().at(0) == flour);
        CHECK(plant.places().at(0) == place);
        CHECK(plant.lines().at(0) == line);
        CHECK(plant.products().at(0) == product);
        CHECK(count_of(book, "retired") == (is_retired ? 5 : 0));
    }
}

TEST_CASE("Only a record that nothing ever named is taken off, with all that belongs to it") {
    SqliteConnection book(":memory:");
    const auto small = add_small_plant(book);
    take_in(book, small, "W26-118");
    add_run(book, good_run(small, "R1"));
    Flour flour = full_flour();
    flour.id = *saved(book, flour);
    Place place{{},
                "Loft",
                PlaceKind::bay,
                Air::breathable_bag,
                Celsius{18},
                {},
                {{date::sys_days{2026_y / 1 / 1}, Celsius{12}}}};
    place.is_retired = true;
    place.id = *saved(book, place);
    PlantStore plant(book);
    const auto windows = count_of(book, "flour_window");
    const auto removed = [&](PlantRef record) {
        Change change(book, line("Taken off"));
        auto done = PlantStore(book).remove(change, record);
        if (done)
            change.commit();
        return done;
    };
    for (const auto& named :
         {PlantRef{PlantKind::mill, small.mill.number()}, PlantRef{PlantKind::flour, small.flour.number()},
          PlantRef{PlantKind::place, small.bay.number()}, PlantRef{PlantKind::line, small.line.number()},
          PlantRef{PlantKind::product, small.product.number()}}) {
        INFO(name_of(named.kind));
        CHECK_FALSE(plant.uses(named).empty());
        const auto refused = removed(named);
        REQUIRE_FALSE(refused);
        CHECK(refused.refusals().at(0).field == name_of(named.kind));
        CHECK(refused.refusals().at(0).remedy == "Retire it instead");
    }
    CHECK(plant.uses({PlantKind::flour, flour.id.number()}).empty());
    CHECK(removed({PlantKind::flour, flour.id.number()}));
    CHECK(removed({PlantKind::place, place.id.number()}));
    CHECK(count_of(book, "flour_window") == windows - static_cast<std::int64_t>(flour.specification.size()));
    CHECK(count_of(book, "place_climate") == 0);
    CHECK(count_of(book, "retired") == 0);
    CHECK_FALSE(removed({PlantKind::place, place.id.number()})); // it is gone already
}

} // namespace mellowbin
