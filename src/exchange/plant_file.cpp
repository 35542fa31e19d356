#include "exchange/plant_file.h"

#include "core/ingredient.h"
#include "core/typed_text.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <initializer_list>
#include <set>

namespace mellowbin::exchange {
namespace {

using nlohmann::json;

/// Reads members of one object, collecting every fault under the object's path.
class Reader {
public:
    Reader(const json& object, std::string path, Refusals& refusals)
        : object_(object), path_(std::move(path)), refusals_(refusals) {
        if (!object_.is_object())
            refuse("", "an object {…} is expected");
    }

    std::string text(const char* name) {
        const json* member = find(name);
        if (!member || !member->is_string() || member->get_ref<const std::string&>().empty()) {
            refuse(name, "a text is expected");
            return {};
        }
        return member->get<std::string>();
    }
    std::string text_or(const char* name, std::string otherwise) {
        return find(name) ? text(name) : std::move(otherwise);
    }
    std::optional<double> number_if_any(const char* name, double low, double high) {
        const json* member = find(name);
        if (!member)
            return {};
        if (!member->is_number() || member->get<double>() < low || member->get<double>() > high) {
            refuse(name, fmt::format("{} was read; a number from {:g} to {:g} is expected", member->dump(),
                                     low, high));
            return {};
        }
        return member->get<double>();
    }
    double number_or(const char* name, double low, double high, double otherwise) {
        return number_if_any(name, low, high).value_or(otherwise);
    }
    /// true or false; what it is otherwise where nothing is said.
    bool yes_or_no(const char* name, bool otherwise) {
        const json* member = find(name);
        if (!member)
            return otherwise;
        if (!member->is_boolean())
            refuse(name, fmt::format("{} was read; true or false is expected", member->dump()));
        return member->is_boolean() && member->get<bool>();
    }
    /// A member that is an object of its own.
    template <class Read> void object(const char* name, Read&& read) {
        if (const json* member = find(name))
            read(*member, path_.empty() ? std::string(name) : path_ + "." + name);
    }
    template <class T> T word(const char* name, std::optional<T> (*from_key)(std::string_view), T otherwise) {
        const std::string key = text(name);
        const auto value = from_key(key);
        if (!value && !key.empty())
            refuse(name, fmt::format("\"{}\" is not a word it takes", key));
        return value.value_or(otherwise);
    }
    /// A word that need not be there.
    template <class T>
    T word_or(const char* name, std::optional<T> (*from_key)(std::string_view), T otherwise) {
        return find(name) ? word(name, from_key, otherwise) : otherwise;
    }
    /// Each element of a list, with its path.
    template <class Each> void each(const char* name, Each&& read_one) {
        const json* list = find(name);
        if (!list)
            return;
        if (!list->is_array())
            return refuse(name, "a list […] is expected");
        for (std::size_t i = 0; i < list->size(); ++i)
            read_one((*list)[i], fmt::format("{}{}[{}]", path_.empty() ? "" : path_ + ".", name, i));
    }
    void refuse(const char* name, std::string what) {
        std::string field = path_;
        if (*name != '\0')
            field += (field.empty() ? "" : ".") + std::string(name);
        refusals_.push_back(
            {field.empty() ? "Plant file" : field, std::move(what), "Correct the plant file"});
    }
    /// The text stands where a number could.
    [[nodiscard]] bool is_word(const char* name, std::string_view word) const {
        const json* member = find(name);
        return member && member->is_string() && member->get_ref<const std::string&>() == word;
    }
    /// A member of another name is a slip of the pen.
    void takes_only(std::initializer_list<std::string_view> names) {
        if (!object_.is_object())
            return;
        for (const auto& [name, value] : object_.items())
            if (std::find(names.begin(), names.end(), name) == names.end())
                refuse(excerpt(name).c_str(), "is no member it takes");
    }
    [[nodiscard]] std::string field(const char* name) const { return path_ + "." + name; }
    Refusals& refusals() { return refusals_; }

private:
    [[nodiscard]] const json* find(const char* name) const {
        if (!object_.is_object())
            return nullptr;
        const auto at = object_.find(name);
        return at == object_.end() || at->is_null() ? nullptr : &*at;
    }
    const json& object_;
    std::string path_;
    Refusals& refusals_;
};

Specification read_windows(Reader& owner) {
    Specification windows;
    owner.each("windows", [&](const json& element, const std::string& path) {
        Reader in(element, path, owner.refusals());
        Window window;
        window.property = in.word("property", &property_from_key, Property::protein);
        window.low = in.number_if_any("low", 0, 5000);
        window.high = in.number_if_any("high", 0, 5000);
        window.method = in.text_or("method", "");
        if (auto accepted = accept_window(window))
            windows.push_back(*accepted);
        else
            for (const auto& r : accepted.refusals())
                in.refuse("", r.what);
    });
    return windows;
}

Flour read_flour(Reader& in) {
    Flour flour;
    flour.name = in.text("name");
    flour.flour_class = in.word("class", &flour_class_from_key, FlourClass::white);
    flour.specification = read_windows(in);
    return flour;
}

Place read_place(Reader& in) {
    Place place;
    place.name = in.text("name");
    place.kind = in.word("kind", &place_kind_from_key, PlaceKind::bay);
    place.air = in.word("air", &air_from_key, Air::breathable_bag);
    place.temperature = Celsius{in.number_or("temperature_c", -20, 50, 20)};
    if (const auto percent = in.number_if_any("humidity_percent", 0, 100))
        place.humidity = RelativeHumidity{*percent / 100};
    in.each("climate", [&](const json& element, const std::string& path) {
        Reader step(element, path, in.refusals());
        const auto from = read_day("from", step.text("from"));
        if (!from || !*from)
            return step.refuse("from", "a date such as 2026-11-25 is expected");
        place.climate.push_back({**from, Celsius{step.number_or("temperature_c", -20, 50, 20)}});
    });
    std::sort(place.climate.begin(), place.climate.end(), [](auto& a, auto& b) { return a.from < b.from; });
    return place;
}

Line read_line(Reader& in) {
    Line line;
    line.name = in.text("name");
    line.friction_factor = CelsiusStep{in.number_or("friction_factor_c", -20, 120, 0)};
    line.mixing_energy_kj_per_kg = in.number_if_any("mixing_energy_kj_per_kg", 0, 100);
    line.room = Celsius{in.number_or("room_c", -5, 50, 22)};
    line.tap_water = Celsius{in.number_or("tap_water_c", 0, 40, 15)};
    line.coldest_water = Celsius{in.number_or("coldest_water_c", 0, 40, 2)};
    line.most_ice = in.number_or("most_ice_share", 0, 1, 0.5);
    line.oxidant_scale_step_g = in.number_or("oxidant_scale_step_g", 0.001, 100, 0.1);
    line.oxidant_scale_error_g = in.number_or("oxidant_scale_error_g", 0.001, 100, 0.1);
    line.stock_solution_g_per_l = in.number_or("stock_solution_g_per_l", 0, 300, 0);
    line.water_step_kg = in.number_or("water_step_kg", 0.01, 10, 0.1);
    line.ice_temperature = Celsius{in.number_or("ice_c", -30, 0, 0)};
    return line;
}

void read_oxidant(Reader& in, Product& product) {
    const std::string key = in.text_or("oxidant", "");
    if (key.empty())
        return;
    product.oxidant = substance_from_key(key);
    if (!product.oxidant)
        in.refuse("oxidant", fmt::format("\"{}\" is not a word it takes", key));
    product.house_maximum = OxidantPpm{in.number_or("house_maximum_ppm", 0, 1000, 0)};
}

void read_sold_as(Reader& in, Product& product) {
    const std::string key = in.text_or("sold_as", "");
    if (key.empty())
        return;
    product.sold_as = sold_as_from_key(key);
    if (product.sold_as)
        return;
    std::string keys;
    for (const auto one : all_sold_as())
        keys += (keys.empty() ? "" : ", ") + std::string(key_of(one));
    in.refuse("sold_as", fmt::format("\"{}\" was read; one of {} is expected", key, keys));
}

/// The second flour's name; its share and windows go into the product.
std::string read_second_flour(Reader& in, Product& product) {
    std::string name;
    in.object("second_flour", [&](const json& element, const std::string& path) {
        Reader second(element, path, in.refusals());
        name = second.text("flour");
        const auto share = second.number_if_any("share", 0, 1);
        if (!share || *share <= 0 || *share >= 1)
            second.refuse("share", "its part of all the flour is expected, above 0 and below 1");
        product.second_flour = SecondFlour{{}, share.value_or(0.5), read_windows(second)};
    });
    return name;
}

/// How its dough may be helped and its bread is kept.
void read_helps(Reader& in, Product& p) {
    p.process = in.word_or("process", &dough_process_from_key, DoughProcess::straight);
    p.most_fermentation_minutes = static_cast<int>(in.number_or("most_fermentation_minutes", 0, 2880, 0));
    p.maturity_per_hour = in.number_if_any("maturity_per_hour", 0, 1);
    p.preservative = in.word_or("preservative", &preservative_from_key, Preservative::calcium_propionate);
    p.cultured_acid_percent = in.number_or("cultured_acid_percent", 0, 100, 0);
    p.enzyme = in.text_or("enzyme", "");
    p.bread_erh = in.number_if_any("bread_erh_percent", 50, 100);
}

/// "usual" stands for the water that the table of usual ingredients has under its name.
double read_water(Reader& in, const std::string& name) {
    if (!in.is_word("water_percent", "usual"))
        return in.number_or("water_percent", 0, 100, 0);
    const auto usual = usual_water(in.field("water_percent"), name);
    if (usual)
        return *usual;
    append(in.refusals(), usual.refusals());
    return 0;
}

Ingredient read_ingredient(Reader& in) {
    in.takes_only({"name", "percent_of_flour", "water_percent", "temperature_c"});
    Ingredient ingredient;
    ingredient.name = in.text("name");
    ingredient.percent_of_flour = in.number_or("percent_of_flour", 0, 300, 0);
    ingredient.water_percent = read_water(in, ingredient.name);
    if (const auto degrees = in.number_if_any("temperature_c", -5, 60))
        ingredient.temperature = Celsius{*degrees};
    return ingredient;
}

PlantDescription::Baked read_product(Reader& in) {
    Product p;
    p.name = in.text("name");
    p.market = in.text("market");
    p.food = in.word("food", &food_class_from_key, FoodClass::bread);
    read_sold_as(in, p);
    p.windows = read_windows(in);
    p.maturity_target = Maturity{in.number_or("maturity_target", 0, 1, 0.9)};
    p.most_lots = static_cast<int>(in.number_or("most_lots", 1, 10, 3));
    p.least_share = in.number_or("least_share", 0, 1, 0.1);
    p.one_lot_a_batch = in.yes_or_no("one_lot_a_batch", false);
    read_oxidant(in, p);
    p.water_offset = AbsorptionPoints{in.number_or("water_offset_points", -20, 20, 0)};
    p.dough_temperature = Celsius{in.number_or("dough_temperature_c", 0, 45, 26)};
    p.fermentation_minutes = static_cast<int>(in.number_or("fermentation_minutes", 0, 4320, 60));
    p.mixing_minutes = in.number_or("mixing_minutes", 0, 120, 8);
    p.batch_flour = Kilograms{in.number_or("batch_flour_kg", 1, 5000, 100)};
    p.propionate_percent = in.number_or("propionate_percent", 0, 1, 0);
    p.bread_yield = in.number_or("bread_yield", 1, 2.5, 1.45);
    read_helps(in, p);
    in.each("ingredients", [&](const json& element, const std::string& path) {
        Reader ingredient(element, path, in.refusals());
        p.ingredients.push_back(read_ingredient(ingredient));
    });
    auto second = read_second_flour(in, p);
    return {p, in.text("flour"), std::move(second)};
}

template <class Records, class NameOf>
void refuse_twins(const char* list, const Records& records, NameOf&& name_of, Refusals& refusals) {
    std::set<std::string> seen;
    for (const auto& record : records)
        if (!seen.insert(name_of(record)).second)
            refusals.push_back({list, fmt::format("\"{}\" stands there twice", name_of(record)), "Keep one"});
}

void check_flours(const PlantDescription& plant, const PlantDescription::Baked& baked, Refusals& refusals) {
    const auto must_be_known = [&](const std::string& name, const char* which) {
        const bool known = std::any_of(plant.flours.begin(), plant.flours.end(),
                                       [&](const Flour& f) { return f.name == name; });
        if (!known)
            refusals.push_back({"products " + baked.product.name,
                                fmt::format("its {} \"{}\" is not in the list of flours", which, name),
                                "Add the flour, or correct the name"});
    };
    must_be_known(baked.flour, "flour");
    if (baked.product.second_flour)
        must_be_known(baked.second_flour, "second flour");
    if (baked.product.second_flour && baked.second_flour == baked.flour)
        refusals.push_back({"products " + baked.product.name,
                            fmt::format("its second flour \"{}\" is the first one again", baked.flour),
                            "Name another flour, or leave the second one out"});
}

void check_ties(const PlantDescription& plant, Refusals& refusals) {
    const auto name = [](const auto& record) { return record.name; };
    refuse_twins("mills", plant.mills, name, refusals);
    refuse_twins("flours", plant.flours, name, refusals);
    refuse_twins("places", plant.places, name, refusals);
    refuse_twins("lines", plant.lines, name, refusals);
    refuse_twins(
        "products", plant.products, [](const auto& b) { return b.product.name; }, refusals);
    for (const auto& baked : plant.products)
        check_flours(plant, baked, refusals);
}

} // namespace

Result<PlantDescription> read_plant_file(std::string_view text) {
    const json file = json::parse(text, nullptr, false);
    if (file.is_discarded())
        return Refusal{"Plant file", "is not JSON",
                       "See the README for an example, and check the last line changed"};
    Refusals refusals;
    PlantDescription plant;
    Reader in(file, "", refusals);
    plant.plant = in.text("plant");
    in.each("mills", [&](const json& e, const std::string& path) {
        if (e.is_string() && !e.get_ref<const std::string&>().empty())
            plant.mills.push_back({{}, e.get<std::string>()});
        else
            refusals.push_back({path, "a name is expected", "Correct the plant file"});
    });
    const auto list = [&](const char* name, auto read_one, auto& into) {
        in.each(name, [&](const json& e, const std::string& path) {
            Reader one(e, path, refusals);
            into.push_back(read_one(one));
        });
    };
    list("flours", read_flour, plant.flours);
    list("places", read_place, plant.places);
    list("lines", read_line, plant.lines);
    list("products", read_product, plant.products);
    check_ties(plant, refusals);
    if (!refusals.empty())
        return refusals;
    return plant;
}

} // namespace mellowbin::exchange
