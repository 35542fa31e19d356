#include "exchange/plant_file_record.h"

#include "core/decimal.h"
#include "core/ingredient.h"
#include "core/typed_text.h"
#include "exchange/json_value.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <charconv>
#include <set>
#include <span>

namespace mellowbin::exchange {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

/// "second_flour.share": the member inside the object; a plain key is its own member.
const json* member_at(const json& element, std::string_view key) {
    if (!element.is_object())
        return nullptr;
    const auto dot = key.find('.');
    const auto at = element.find(std::string(key.substr(0, dot)));
    if (at == element.end() || at->is_null())
        return nullptr;
    return dot == std::string_view::npos ? &*at : member_at(*at, key.substr(dot + 1));
}

/// Reads the members of one element, and says by its path what is wrong with one.
class ElementReader {
public:
    ElementReader(const json& element, std::string path, Refusals& refusals)
        : element_(element), path_(std::move(path)), refusals_(refusals) {}

    std::string words(std::string_view key, bool is_required) {
        const json* member = member_at(element_, key);
        if (!member && !is_required)
            return {};
        if (!member || !member->is_string() ||
            (is_required && trimmed(member->get_ref<const std::string&>()).empty())) {
            refuse(key, "a text is expected");
            return {};
        }
        return member->get<std::string>();
    }
    /// As it is shown: so many times what stands in the file.
    std::string number(std::string_view key, double low, double high, double shown = 1) {
        const json* member = member_at(element_, key);
        if (!member)
            return {};
        if (!member->is_number() || member->get<double>() < low || member->get<double>() > high) {
            refuse(key, fmt::format("{} was read; a number from {:g} to {:g} is expected",
                                    json_words(*member), low, high));
            return {};
        }
        return as_typed(member->get<double>() * shown);
    }
    std::string yes_or_no(std::string_view key) {
        const json* member = member_at(element_, key);
        if (!member)
            return {};
        if (!member->is_boolean()) {
            refuse(key, fmt::format("{} was read; true or false is expected", json_words(*member)));
            return {};
        }
        return member->get<bool>() ? "yes" : "no";
    }
    std::string one_of(std::string_view key, std::span<const FieldWord> words_taken, bool is_required) {
        const auto key_read = words(key, is_required);
        std::string keys;
        for (const auto& word : words_taken) {
            if (word.key == key_read)
                return key_read;
            keys += (keys.empty() ? "" : ", ") + std::string(word.key);
        }
        if (!key_read.empty())
            refuse(key, fmt::format("\"{}\" was read; one of {} is expected", excerpt(key_read), keys));
        return {};
    }
    template <class Each> void each(std::string_view key, Each&& read_one) {
        const json* list = member_at(element_, key);
        if (!list)
            return;
        if (!list->is_array())
            return refuse(key, "a list […] is expected");
        for (std::size_t i = 0; i < list->size(); ++i) {
            ElementReader in((*list)[i], fmt::format("{}.{}[{}]", path_, key, i), refusals_);
            if (in.is_object())
                read_one(in);
            else
                in.refuse("", "an object {…} is expected");
        }
    }
    /// A member of another name is a slip of the pen.
    void takes_only(const std::set<std::string, std::less<>>& names) {
        for (const auto& [name, value] : element_.items())
            if (!names.contains(name))
                refuse(excerpt(name), "is no member it takes");
    }
    [[nodiscard]] bool is_object() const { return element_.is_object(); }
    [[nodiscard]] bool is_word(std::string_view key, std::string_view word) const {
        const json* member = member_at(element_, key);
        return member && member->is_string() && member->get_ref<const std::string&>() == word;
    }
    [[nodiscard]] bool has(std::string_view key) const { return member_at(element_, key) != nullptr; }
    [[nodiscard]] const json& element() const { return element_; }
    [[nodiscard]] const std::string& path() const { return path_; }
    void refuse(std::string_view key, std::string what) {
        refusals_.push_back(
            fault_at(key.empty() ? path_ : fmt::format("{}.{}", path_, key), std::move(what)));
    }
    Refusals& refusals() { return refusals_; }

private:
    const json& element_;
    std::string path_;
    Refusals& refusals_;
};

std::string text_of(ElementReader& in, const PlantField& field) {
    switch (field.shape) {
    case FieldShape::number:
    case FieldShape::whole:
        return in.number(field.key, field.low, field.high, field.shown);
    case FieldShape::yes_no:
        return in.yes_or_no(field.key);
    case FieldShape::one_of:
        return in.one_of(field.key, field.words, field.is_required);
    case FieldShape::words:
    case FieldShape::flour:
    case FieldShape::market:
        break;
    }
    return in.words(field.key, field.is_required);
}

constexpr double widest_window = 5000;

std::vector<WindowDraft> read_windows(ElementReader& in, std::string_view key) {
    std::vector<WindowDraft> windows;
    in.each(key, [&](ElementReader& row) {
        row.takes_only({"property", "low", "high", "method"});
        WindowDraft window{row.words("property", true), row.number("low", 0, widest_window),
                           row.number("high", 0, widest_window), row.words("method", false)};
        if (!window.property.empty() && !property_from_key(window.property)) {
            row.refuse("property", fmt::format("\"{}\" is not a word it takes", excerpt(window.property)));
            window = {}; // the line stays, so that the others keep their places
        }
        windows.push_back(std::move(window));
    });
    return windows;
}

std::vector<ClimateStepDraft> read_climate(ElementReader& in) {
    std::vector<ClimateStepDraft> climate;
    in.each("climate", [&](ElementReader& row) {
        row.takes_only({"from", "temperature_c"});
        climate.push_back({row.words("from", true), row.number("temperature_c", -40, 60)});
    });
    return climate;
}

/// "usual" stands for the water that the table of usual ingredients has under its name.
std::string water_of(ElementReader& row, const std::string& name) {
    if (!row.is_word("water_percent", "usual"))
        return row.number("water_percent", 0, 100);
    if (const auto usual = usual_water(row.path() + ".water_percent", name))
        return as_typed(*usual);
    else
        append(row.refusals(), usual.refusals());
    return {};
}

std::vector<IngredientDraft> read_ingredients(ElementReader& in) {
    const auto before = in.refusals().size();
    std::vector<IngredientDraft> ingredients;
    in.each("ingredients", [&](ElementReader& row) {
        row.takes_only({"name", "percent_of_flour", "water_percent", "temperature_c"});
        const auto name = row.words("name", true);
        const auto percent = row.number("percent_of_flour", 0, 300);
        ingredients.push_back({name, percent.empty() ? "0" : percent, water_of(row, name),
                               row.number("temperature_c", -5, 60)});
    });
    if (in.refusals().size() > before)
        ingredients.clear(); // each is refused by its own place
    return ingredients;
}

std::set<std::string, std::less<>> members_of(PlantKind kind) {
    std::set<std::string, std::less<>> names;
    for (const auto& field : plant_fields(kind))
        names.emplace(field.key.substr(0, field.key.find('.')));
    for (const auto& list : plant_lists(kind))
        names.emplace(list.key.substr(0, list.key.find('.')));
    return names;
}

/// "Specification 2, lowest" as "windows[1].low"; empty where it is no row of the list.
std::string place_in(const PlantList& list, std::string_view field) {
    if (!field.starts_with(list.label) || field.size() <= list.label.size() + 1 ||
        field[list.label.size()] != ' ')
        return {};
    const auto rest = field.substr(list.label.size() + 1);
    std::size_t row = 0;
    const auto read = std::from_chars(rest.data(), rest.data() + rest.size(), row);
    if (read.ec != std::errc() || row == 0)
        return {};
    const std::string_view after(read.ptr, static_cast<std::size_t>(rest.data() + rest.size() - read.ptr));
    std::string place = fmt::format("{}[{}]", list.key, row - 1);
    for (const auto& member : list.members)
        if (after == fmt::format(", {}", member.name))
            place += fmt::format(".{}", member.key);
    return place;
}

std::string place_of(PlantKind kind, const std::string& path, const std::string& field) {
    for (const auto& one : plant_fields(kind))
        if (one.label == field)
            return fmt::format("{}.{}", path, one.key);
    for (const auto& list : plant_lists(kind))
        if (const auto place = place_in(list, field); !place.empty())
            return fmt::format("{}.{}", path, place);
    return fmt::format("{}, {}", path, field);
}

/// Where a dotted key leads in a record that is written.
ordered_json& member_in(ordered_json& record, std::string_view key) {
    const auto dot = key.find('.');
    auto& member = record[std::string(key.substr(0, dot))];
    return dot == std::string_view::npos ? member : member_in(member, key.substr(dot + 1));
}

double number_in(std::string_view text) { return read_decimal("", text).value().value(); }

ordered_json value_of(const PlantField& field, const std::string& text) {
    switch (field.shape) {
    case FieldShape::number:
        return field.shown == 1 ? number_in(text) : number_in(as_typed(number_in(text) / field.shown));
    case FieldShape::whole:
        return static_cast<std::int64_t>(number_in(text));
    case FieldShape::yes_no:
        return text == "yes";
    case FieldShape::one_of:
        for (const auto& word : field.words)
            if (word.name == text)
                return std::string(word.key);
        break;
    case FieldShape::words:
    case FieldShape::flour:
    case FieldShape::market:
        break;
    }
    return text;
}

void write_windows(ordered_json& to, std::span<const WindowDraft> windows) {
    for (const auto& window : windows) {
        ordered_json row;
        for (const auto& one : all_properties())
            if (one.name == window.property)
                row["property"] = one.key;
        if (!window.low.empty())
            row["low"] = number_in(window.low);
        if (!window.high.empty())
            row["high"] = number_in(window.high);
        if (!window.method.empty())
            row["method"] = window.method;
        to.push_back(std::move(row));
    }
}

void write_ingredients(ordered_json& to, std::span<const IngredientDraft> ingredients) {
    for (const auto& one : ingredients) {
        ordered_json row;
        row["name"] = one.name;
        row["percent_of_flour"] = number_in(one.percent);
        if (!one.water.empty())
            row["water_percent"] = number_in(one.water);
        if (!one.temperature.empty())
            row["temperature_c"] = number_in(one.temperature);
        to.push_back(std::move(row));
    }
}

} // namespace

Refusal fault_at(std::string path, std::string what) {
    return {std::move(path), std::move(what), "Correct the plant file"};
}

PlantDraft read_plant_record(PlantKind kind, const json& element, const std::string& path,
                             Refusals& refusals) {
    PlantDraft draft;
    draft.kind = kind;
    if (kind == PlantKind::mill && element.is_string()) { // its name alone
        draft.texts["name"] = element.get<std::string>();
        return draft;
    }
    ElementReader in(element, path, refusals);
    if (!in.is_object()) {
        in.refuse("", kind == PlantKind::mill ? "a name is expected" : "an object {…} is expected");
        return draft;
    }
    in.takes_only(members_of(kind));
    const json* second = member_at(element, "second_flour");
    if (kind == PlantKind::product && second && !second->is_object())
        in.refuse("second_flour", "an object {…} is expected");
    for (const auto& field : plant_fields(kind))
        draft.texts[std::string(field.key)] = text_of(in, field);
    if (kind == PlantKind::product && second && second->is_object() && !in.has("second_flour.flour"))
        in.refuse("second_flour.flour", "a text is expected");
    draft.windows = read_windows(in, "windows");
    if (kind == PlantKind::product)
        draft.second_windows = read_windows(in, "second_flour.windows");
    draft.climate = read_climate(in);
    draft.ingredients = read_ingredients(in);
    return draft;
}

void add_by_place(PlantKind kind, const std::string& path, const Refusals& of_draft, SaidPlaces& said,
                  Refusals& refusals) {
    for (const auto& refusal : of_draft) {
        const auto place = place_of(kind, path, refusal.field);
        const auto within = said.lower_bound(place + ".");
        if (said.contains(place) || (within != said.end() && within->starts_with(place + ".")))
            continue;
        said.insert(place);
        refusals.push_back({place, refusal.what, refusal.remedy});
    }
}

ordered_json plant_record_as_json(const PlantDraft& draft) {
    ordered_json record;
    for (const auto& field : plant_fields(draft.kind)) {
        const auto& text = draft.text(field.key);
        if (text != field.otherwise && !text.empty())
            member_in(record, field.key) = value_of(field, text);
    }
    if (draft.kind == PlantKind::mill && record.size() == 1)
        return record["name"];
    if (!draft.windows.empty())
        write_windows(record["windows"], draft.windows);
    if (!draft.second_windows.empty())
        write_windows(member_in(record, "second_flour.windows"), draft.second_windows);
    for (const auto& step : draft.climate)
        record["climate"].push_back({{"from", step.from}, {"temperature_c", number_in(step.temperature)}});
    if (!draft.ingredients.empty())
        write_ingredients(record["ingredients"], draft.ingredients);
    return record;
}

} // namespace mellowbin::exchange
