#include "exchange/plant_file.h"

#include "core/decimal.h"
#include "core/plant_draft.h"
#include "core/typed_text.h"
#include "exchange/plant_file_record.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <set>

namespace mellowbin::exchange {
namespace {

using nlohmann::json;

constexpr std::size_t most_door_checks = 12;

/// The records of one kind as drafts, with their paths.
struct FileRecords {
    std::vector<PlantDraft> drafts;
    std::vector<std::string> paths;
};

FileRecords read_records(PlantKind kind, const json& file, Refusals& refusals) {
    FileRecords records;
    const std::string key(key_of(kind));
    const auto list = file.find(key);
    if (list == file.end() || list->is_null())
        return records;
    if (!list->is_array()) {
        refusals.push_back(fault_at(key, "a list […] is expected"));
        return records;
    }
    for (std::size_t i = 0; i < list->size(); ++i) {
        records.paths.push_back(fmt::format("{}[{}]", key, i));
        records.drafts.push_back(read_plant_record(kind, (*list)[i], records.paths.back(), refusals));
    }
    return records;
}

/// Names that stand there twice, also in other letters.
void refuse_twins(PlantKind kind, const FileRecords& records, Refusals& refusals) {
    std::set<std::string> earlier;
    for (const auto& draft : records.drafts) {
        const auto& name = draft.text("name");
        if (!name.empty() && !earlier.insert(bare_words(name)).second)
            refusals.push_back(
                {std::string(key_of(kind)), fmt::format("\"{}\" stands there twice", name), "Keep one"});
    }
}

/// Takes the records that `accept` accepts; what it refuses is said by its place in the file.
template <class Record, class Accept>
std::vector<Record> accepted(const FileRecords& records, const Accept& accept, Refusals& refusals) {
    SaidPlaces said;
    for (const auto& refusal : refusals)
        said.insert(refusal.field);
    std::vector<Record> taken;
    for (std::size_t i = 0; i < records.drafts.size(); ++i) {
        if (auto record = accept(records.drafts[i]))
            taken.push_back(std::move(*record));
        else
            add_by_place(records.drafts[i].kind, records.paths[i], record.refusals(), said, refusals);
    }
    return taken;
}

/// The flours by name, so that products can name them; numbered for this file alone.
std::vector<Flour> flours_of(const FileRecords& records) {
    std::vector<Flour> flours;
    for (const auto& draft : records.drafts) {
        Flour flour;
        flour.id = FlourId{static_cast<std::int64_t>(flours.size()) + 1};
        flour.name = draft.text("name");
        flours.push_back(std::move(flour));
    }
    return flours;
}

/// The flours' numbers of this file are nobody's: they stay as names.
PlantDescription::Baked by_name(Product product, const PlantDraft& draft) {
    PlantDescription::Baked baked{std::move(product), draft.text("flour"), ""};
    baked.product.flour = {};
    if (auto& second = baked.product.second_flour) {
        baked.second_flour = draft.text("second_flour.flour");
        second->flour = {};
    }
    return baked;
}

std::vector<PlantDescription::Baked> accepted_products(const FileRecords& products, const FileRecords& flours,
                                                       Refusals& refusals) {
    const auto known = flours_of(flours);
    return accepted<PlantDescription::Baked>(
        products,
        [&](const PlantDraft& draft) -> Result<PlantDescription::Baked> {
            auto product = accept_product(draft, known, {});
            if (!product)
                return product.refusals();
            return by_name(std::move(*product), draft);
        },
        refusals);
}

std::string words_or_digits(const json& value) {
    return value.is_string() ? value.get<std::string>() : as_typed(value.get<double>());
}

std::map<std::string, std::string> read_choices(const json& file, const char* key, Refusals& refusals) {
    std::map<std::string, std::string> choices;
    const auto object = file.find(key);
    if (object == file.end() || object->is_null())
        return choices;
    if (!object->is_object()) {
        refusals.push_back(fault_at(key, "an object {…} is expected"));
        return choices;
    }
    for (const auto& [name, value] : object->items()) {
        if (value.is_string() || value.is_number())
            choices[name] = words_or_digits(value);
        else
            refusals.push_back(
                fault_at(fmt::format("{}.{}", key, excerpt(name)), "a text or a number is expected"));
    }
    return choices;
}

std::vector<std::string> read_door_checks(const json& file, Refusals& refusals) {
    std::vector<std::string> checks;
    const auto list = file.find("door_checks");
    if (list == file.end() || list->is_null())
        return checks;
    if (!list->is_array() || list->size() > most_door_checks) {
        refusals.push_back(fault_at(
            "door_checks", fmt::format("a list […] of up to {} texts is expected", most_door_checks)));
        return checks;
    }
    for (std::size_t i = 0; i < list->size(); ++i) {
        const auto& one = (*list)[i];
        if (one.is_string() && !trimmed(one.get_ref<const std::string&>()).empty())
            checks.emplace_back(trimmed(one.get_ref<const std::string&>()));
        else
            refusals.push_back(fault_at(fmt::format("door_checks[{}]", i), "a text is expected"));
    }
    return checks;
}

void refuse_strange_members(const json& file, Refusals& refusals) {
    constexpr std::array known{"plant",    "mills",    "flours",      "places",     "lines",
                               "products", "settings", "door_checks", "test_errors"};
    for (const auto& [name, value] : file.items())
        if (std::find(known.begin(), known.end(), name) == known.end())
            refusals.push_back(fault_at(excerpt(name), "is no member it takes"));
}

} // namespace

Result<PlantDescription> read_plant_file(std::string_view text) {
    const json file = json::parse(text, nullptr, false);
    if (file.is_discarded())
        return Refusal{"Plant file", "is not JSON",
                       "See the README for an example, and check the last line changed"};
    if (!file.is_object())
        return fault_at("Plant file", "an object {…} is expected");
    Refusals refusals;
    PlantDescription plant;
    refuse_strange_members(file, refusals);
    const auto name = file.find("plant");
    if (name != file.end() && name->is_string() && !trimmed(name->get_ref<const std::string&>()).empty())
        plant.plant = trimmed(name->get_ref<const std::string&>());
    else
        refusals.push_back(fault_at("plant", "a text is expected"));
    std::map<PlantKind, FileRecords> records;
    for (const auto kind : all_plant_kinds()) {
        records[kind] = read_records(kind, file, refusals);
        refuse_twins(kind, records[kind], refusals);
    }
    plant.mills = accepted<Mill>(records[PlantKind::mill], accept_mill, refusals);
    plant.flours = accepted<Flour>(records[PlantKind::flour], accept_flour, refusals);
    plant.places = accepted<Place>(records[PlantKind::place], accept_place, refusals);
    plant.lines = accepted<Line>(records[PlantKind::line], accept_line, refusals);
    plant.products = accepted_products(records[PlantKind::product], records[PlantKind::flour], refusals);
    plant.door_checks = read_door_checks(file, refusals);
    plant.test_errors = read_choices(file, "test_errors", refusals);
    plant.settings = read_choices(file, "settings", refusals);
    if (!refusals.empty())
        return refusals;
    return plant;
}

std::string write_plant_file(const PlantDescription& plant) {
    nlohmann::ordered_json file;
    file["plant"] = plant.plant;
    const auto list = [&](PlantKind kind) -> nlohmann::ordered_json& {
        auto& all = file[std::string(key_of(kind))];
        all = nlohmann::ordered_json::array();
        return all;
    };
    const auto write_all = [&](PlantKind kind, const auto& all) {
        auto& to = list(kind);
        for (const auto& one : all)
            to.push_back(plant_record_as_json(draft_of(one)));
    };
    write_all(PlantKind::mill, plant.mills);
    write_all(PlantKind::flour, plant.flours);
    write_all(PlantKind::place, plant.places);
    write_all(PlantKind::line, plant.lines);
    auto& products = list(PlantKind::product);
    for (const auto& baked : plant.products) {
        auto draft = draft_of(baked.product, {});
        draft.texts["flour"] = baked.flour;
        draft.texts["second_flour.flour"] = baked.second_flour;
        products.push_back(plant_record_as_json(draft));
    }
    if (!plant.door_checks.empty())
        file["door_checks"] = plant.door_checks;
    if (!plant.test_errors.empty())
        file["test_errors"] = plant.test_errors;
    if (!plant.settings.empty())
        file["settings"] = plant.settings;
    return file.dump(2) + "\n";
}

} // namespace mellowbin::exchange
