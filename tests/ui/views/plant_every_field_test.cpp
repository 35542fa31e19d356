#include "app/book/settings.h"
#include "core/plant_field.h"
#include "exchange/plant_file.h"
#include "support/catch.h"
#include "support/iso.h"
#include "ui/views/plant_window.h"

#include <nlohmann/json.hpp>

#include <set>

using namespace mellowbin;
using tests::PlantWindow;

// All that a plant file can say is looked at and changed in the window.

namespace {

using Words = std::set<std::string>;

Specification windows() { return {{Property::starch_damage, 6, 9, "AACC 76-31"}}; }

Place full_place() {
    Place place;
    place.name = "Bay 1";
    place.kind = PlaceKind::tote;
    place.air = Air::sealed_liner;
    place.temperature = Celsius{18};
    place.humidity = RelativeHumidity{0.6};
    place.climate = {{day_from_iso("2026-06-01"), Celsius{23}}};
    return place;
}

Line full_line() {
    Line line;
    line.name = "Line 1";
    line.friction_factor = CelsiusStep{24};
    line.mixing_energy_kj_per_kg = 18;
    line.room = Celsius{23};
    line.tap_water = Celsius{14};
    line.coldest_water = Celsius{3};
    line.most_ice = 0.4;
    line.ice_temperature = Celsius{-5};
    line.water_step_kg = 0.5;
    line.oxidant_scale_step_g = 0.2;
    line.oxidant_scale_error_g = 0.2;
    line.stock_solution_g_per_l = 7.5;
    return line;
}

Product full_product() {
    Product p;
    p.name = "Pan bread";
    p.market = "Canada";
    p.sold_as = SoldAs::prepacked_sliced;
    p.windows = windows();
    p.maturity_target = Maturity{0.8};
    p.most_lots = 2;
    p.least_share = 0.2;
    p.one_lot_a_batch = true;
    p.second_flour = SecondFlour{{}, 0.3, windows()};
    p.oxidant = Substance::ascorbic_acid;
    p.house_maximum = OxidantPpm{40};
    p.water_offset = AbsorptionPoints{1};
    p.is_offset_assumed = false;
    p.dough_temperature = Celsius{25};
    p.mixing_minutes = 9;
    p.process = DoughProcess::sponge;
    p.fermentation_minutes = 50;
    p.most_fermentation_minutes = 90;
    p.maturity_per_hour = 0.05;
    p.batch_flour = Kilograms{120};
    p.ingredients = {{"Whole egg", 12, 76, Celsius{4}}};
    p.preservative = Preservative::sodium_propionate;
    p.propionate_percent = 0.2;
    p.cultured_acid_percent = 10;
    p.enzyme = "maltogenic amylase";
    p.bread_erh = 95;
    p.bread_yield = 1.5;
    return p;
}

/// Of every kind one record with all it can have, each otherwise than where nobody says, and a retired one.
exchange::PlantDescription full_plant() {
    exchange::PlantDescription plant;
    plant.plant = "Full plant";
    plant.mills = {{{}, "Sorrel Mill"}, {{}, "Old mill", true}};
    plant.flours = {{{}, "Strong white", FlourClass::white, windows()},
                    {{}, "Rye", FlourClass::wholemeal, {}},
                    {{}, "Old flour", FlourClass::white, {}, true}};
    auto place = full_place();
    auto line = full_line();
    exchange::PlantDescription::Baked baked{full_product(), "Strong white", "Rye"};
    plant.places = {place};
    plant.lines = {line};
    plant.products = {baked};
    place.name = "Old place";
    line.name = "Old line";
    baked.product.name = "Old product";
    place.is_retired = line.is_retired = baked.product.is_retired = true;
    plant.places.push_back(place);
    plant.lines.push_back(line);
    plant.products.push_back(baked);
    plant.door_checks = {"Seal whole", "Flour below [temperature]"};
    for (const auto& setting : app::setting_table()) {
        const std::string key(setting.key);
        constexpr std::string_view of_test = "test_error_";
        if (key.starts_with(of_test))
            plant.test_errors[key.substr(of_test.size())] = "3";
        else if (key == "time_zone")
            plant.settings[key] = "UTC";
        else if (key != "plant" && key != "door_checks")
            plant.settings[key] = setting.otherwise;
    }
    return plant;
}

/// "products.second_flour.windows.low": the places at which a value stands.
void gather(const nlohmann::json& value, const std::string& path, Words& keys) {
    if (value.is_object())
        for (const auto& [name, member] : value.items())
            gather(member, path.empty() ? name : path + "." + name, keys);
    else if (value.is_array())
        for (const auto& element : value)
            gather(element, path, keys);
    else
        keys.insert(path);
}

Words keys_of(const std::string& plant_file) {
    Words keys;
    gather(nlohmann::json::parse(plant_file), "", keys);
    if (keys.erase("mills") > 0) // one that says nothing but its name is that name
        keys.insert("mills.name");
    return keys;
}

/// The rest of those that begin so: "mills.name" -> "name".
Words rests_of(const Words& keys, const std::string& begin) {
    Words rests;
    for (const auto& key : keys)
        if (key.starts_with(begin))
            rests.insert(key.substr(begin.size()));
    return rests;
}

std::string capital(std::string_view words) {
    std::string all(words);
    all.front() = static_cast<char>(all.front() - 'a' + 'A');
    return all;
}

/// What stands on the form for a key of a record: "Temperature", "Climate/From".
std::string on_form(PlantKind kind, const std::string& key) {
    for (const auto& field : plant_fields(kind))
        if (field.key == key)
            return std::string(field.label);
    for (const auto& list : plant_lists(kind))
        for (const auto& member : list.members)
            if (key == fmt::format("{}.{}", list.key, member.key))
                return fmt::format("{}/{}", list.label, capital(member.name));
    return "nothing for " + key;
}

/// The same of all that can be typed or chosen in the form that is open: of a list by its first line.
Words words_of_form(const testing::Screen& screen) {
    Words all;
    constexpr std::string_view before = "/Fields/";
    for (const auto& note : screen.probe().notes()) {
        const auto at = note.path.find(before);
        if (at == std::string::npos || (note.kind != ui::Kind::field && note.kind != ui::Kind::choice))
            continue;
        const auto rest = note.path.substr(at + before.size());
        const auto first = rest.substr(0, rest.find('/'));
        if (first == note.label)
            all.insert(note.label);
        else
            all.insert(fmt::format("{}/{}", first.substr(0, first.find_last_of(' ')), note.label));
    }
    return all;
}

} // namespace

TEST_CASE("Every field of every record of a plant file has its field on the form, and no other is there") {
    const auto file = exchange::write_plant_file(full_plant());
    const auto keys = keys_of(file);
    PlantWindow at(file);
    const std::pair<PlantKind, const char*> records[]{{PlantKind::mill, "Sorrel Mill"},
                                                      {PlantKind::flour, "Strong white"},
                                                      {PlantKind::place, "Bay 1"},
                                                      {PlantKind::line, "Line 1"},
                                                      {PlantKind::product, "Pan bread"}};
    for (const auto& [kind, name] : records) {
        INFO(name);
        auto members = rests_of(keys, std::string(key_of(kind)) + ".");
        CHECK(members.erase("retired") == 1);
        Words expected;
        for (const auto& member : members)
            expected.insert(on_form(kind, member));
        at.open(many_of(kind), name);
        CHECK(words_of_form(at.screen) == expected);
        CHECK(at.screen.offers("Retire"));
    }
}

TEST_CASE("A full plant file says every field of every record") {
    const auto keys = keys_of(exchange::write_plant_file(full_plant()));
    for (const auto kind : all_plant_kinds()) {
        for (const auto& field : plant_fields(kind)) {
            INFO(key_of(kind) << "." << field.key);
            CHECK(keys.contains(fmt::format("{}.{}", key_of(kind), field.key)));
        }
        for (const auto& list : plant_lists(kind))
            for (const auto& member : list.members) {
                INFO(list.key << "." << member.key);
                CHECK(keys.contains(fmt::format("{}.{}.{}", key_of(kind), list.key, member.key)));
            }
    }
}

TEST_CASE("What a plant file says beside the records is on a page of its own, or on Settings") {
    const auto file = exchange::write_plant_file(full_plant());
    const auto keys = keys_of(file);
    PlantWindow at(file);
    const auto label = [&](const std::string& key) {
        for (const auto& row : at.plant.app().settings().settings)
            if (row.key == key)
                return row.label;
        return "nothing for " + key;
    };
    CHECK(keys.contains("plant"));
    CHECK(keys.contains("door_checks"));
    at.screen.click("At the door");
    CHECK(at.screen.offers("Check 1"));
    at.screen.click("Laboratory");
    CHECK_FALSE(rests_of(keys, "test_errors.").empty());
    for (const auto& test : rests_of(keys, "test_errors.")) {
        INFO(test);
        CHECK(at.screen.offers(label("test_error_" + test)));
    }
    at.screen.click("The plant");
    CHECK(at.screen.offers("plant/" + label("plant")));
    CHECK(at.screen.offers(label("time_zone")));
    at.screen.click("Settings: the plant's choices");
    CHECK(rests_of(keys, "settings.").size() > 10);
    for (const auto& setting : rests_of(keys, "settings.")) {
        INFO(setting);
        CHECK(at.screen.offers(label(setting)));
    }
}
