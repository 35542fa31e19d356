#include "app/acts/plant_described.h"

#include "app/book/book.h"
#include "app/book/settings.h"

namespace mellowbin::app {
namespace {

exchange::PlantDescription::Baked by_name(const Book& book, Product product) {
    const auto name_of = [&](FlourId& id) {
        const Flour* flour = book.flour(id);
        id = {};
        return flour ? flour->name : std::string();
    };
    exchange::PlantDescription::Baked baked;
    product.id = {};
    baked.flour = name_of(product.flour);
    if (product.second_flour)
        baked.second_flour = name_of(product.second_flour->flour);
    baked.product = std::move(product);
    return baked;
}

/// The numbers are this book's alone.
template <class Record> std::vector<Record> without_numbers(std::vector<Record> records) {
    for (auto& record : records)
        record.id = {};
    return records;
}

} // namespace

bool has_own_member(std::string_view key) {
    return key == "plant" || key == "door_checks" || key.starts_with(test_error_key_begins);
}

exchange::PlantDescription described(const Book& book) {
    const Choices choices(book.settings);
    exchange::PlantDescription plant;
    plant.plant = choices.words("plant");
    plant.mills = without_numbers(book.mills);
    plant.flours = without_numbers(book.flours);
    plant.places = without_numbers(book.places);
    plant.lines = without_numbers(book.lines);
    for (const auto& product : book.products)
        plant.products.push_back(by_name(book, product));
    plant.door_checks = choices.lines("door_checks");
    for (const auto& [key, value, unit, who, since] : book.settings) {
        const auto* traits = setting_traits(key);
        if (!traits || value == traits->otherwise)
            continue; // of a newer version, or taken back
        if (key.starts_with(test_error_key_begins))
            plant.test_errors[key.substr(test_error_key_begins.size())] = value;
        else if (!has_own_member(key))
            plant.settings[key] = value;
    }
    return plant;
}

} // namespace mellowbin::app
