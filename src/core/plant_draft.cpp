#include "core/plant_draft.h"

#include "core/day.h"
#include "core/draft_reader.h"
#include "core/plant_mapping.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin {
namespace {

constexpr std::size_t longest_name = 60; // bytes: more does not fit a card or a label
/// Wider than what any property can have: windows are bounds, not results.
constexpr Bounds window_bounds{0, 5000, ""};

/// 12.3 / 100 is 0.123, whatever the last bit of the division says.
double to_digits_typed(double value) { return read_decimal("", as_typed(value))->value(); }

std::string shown_word(const PlantField& field, std::string_view key) {
    for (const auto& word : field.words)
        if (word.key == key)
            return std::string(word.name);
    return std::string(key);
}

template <class Record> PlantDraft texts_of(PlantKind kind, const Record& record) {
    PlantDraft draft;
    draft.kind = kind;
    for (const auto& [field, number, words, put] : mapped_fields(&record)) {
        std::string text;
        if (number)
            text = number(record) ? as_typed(*number(record) * field.shown) : "";
        else if (words)
            text = shown_word(field, words(record));
        draft.texts[std::string(field.key)] = std::move(text);
    }
    return draft;
}

std::vector<WindowDraft> drafts_of(const Specification& windows) {
    std::vector<WindowDraft> drafts;
    for (const auto& window : windows)
        drafts.push_back({std::string(traits(window.property).name), window.low ? as_typed(*window.low) : "",
                          window.high ? as_typed(*window.high) : "", window.method});
    return drafts;
}

/// Reads the fields of one kind of record.
template <class Record> class FieldReader {
public:
    explicit FieldReader(const PlantDraft& draft) : draft_(draft) {}

    Record read() {
        for (const auto& one : mapped_fields(&record_))
            if (one.put)
                one.put(record_, value_of(one.field));
        return record_;
    }
    DraftReader& reader() { return reader_; }
    /// The text, or what holds where nobody says.
    std::string_view text_of(const PlantField& field) {
        const auto typed = trimmed(draft_.text(field.key));
        if (typed.empty() && field.is_required)
            reader_.refuse(field.label, "is empty", field.words.empty() ? "Enter it" : "Choose one");
        return typed.empty() ? field.otherwise : typed;
    }

private:
    FieldValue value_of(const PlantField& field) {
        FieldValue value;
        const auto text = text_of(field);
        if (text.empty())
            return value;
        value.is_given = true;
        switch (field.shape) {
        case FieldShape::number:
        case FieldShape::whole:
            value.number = number_in(field, text, value.is_given);
            break;
        case FieldShape::one_of:
            value.words = key_in(field, text, value.is_given);
            break;
        case FieldShape::yes_no:
            value.yes = is_yes(field, text);
            break;
        case FieldShape::words:
            if (text.size() > longest_name)
                reader_.refuse(field.label,
                               fmt::format("\"{}\" and more was read; up to {} characters are expected",
                                           excerpt(text), longest_name),
                               "Say it in fewer words");
            [[fallthrough]];
        case FieldShape::flour:
        case FieldShape::market:
            value.words = text;
        }
        return value;
    }

    double number_in(const PlantField& field, std::string_view text, bool& is_given) {
        const std::string unit(field.unit);
        const auto read = reader_.number(field.label, text,
                                         {field.low * field.shown, field.high * field.shown, unit.c_str()});
        is_given = read.has_value();
        if (read && field.shape == FieldShape::whole && *read != std::floor(*read))
            reader_.refuse(field.label, fmt::format("{:g} was read; a whole number is expected", *read),
                           "Enter it without decimals");
        return field.shown == 1 ? read.value_or(0) : to_digits_typed(read.value_or(0) / field.shown);
    }

    std::string key_in(const PlantField& field, std::string_view text, bool& is_given) {
        std::string names;
        for (const auto& word : field.words) {
            if (same_words(word.name, text) || word.key == text)
                return std::string(word.key);
            names += (names.empty() ? "" : ", ") + std::string(word.name);
        }
        reader_.refuse(field.label, fmt::format("\"{}\" is not known", excerpt(text)),
                       "Choose one of: " + names);
        is_given = false;
        return {};
    }

    bool is_yes(const PlantField& field, std::string_view text) {
        if (!same_words(text, "yes") && !same_words(text, "no"))
            reader_.refuse(field.label, fmt::format("\"{}\" was read", excerpt(text)),
                           "Choose one of: yes, no");
        return same_words(text, "yes");
    }

    const PlantDraft& draft_;
    Record record_{};
    DraftReader reader_;
};

/// "Specification 2, lowest"
std::string row_field(std::string_view list, std::size_t at, std::string_view member = {}) {
    return member.empty() ? fmt::format("{} {}", list, at + 1)
                          : fmt::format("{} {}, {}", list, at + 1, member);
}

std::optional<Property> property_named(std::string_view text) {
    for (const auto& one : all_properties())
        if (same_words(one.name, text) || one.key == text)
            return one.property;
    return {};
}

bool is_blank(const WindowDraft& row) {
    return trimmed(row.property).empty() && trimmed(row.low).empty() && trimmed(row.high).empty() &&
           trimmed(row.method).empty();
}

Specification read_windows(DraftReader& reader, std::string_view list, std::span<const WindowDraft> rows) {
    Specification windows;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const auto& row = rows[i];
        if (is_blank(row))
            continue;
        const auto property = property_named(trimmed(row.property));
        if (!property) {
            reader.refuse(row_field(list, i, "property"),
                          row.property.empty() ? "is empty"
                                               : fmt::format("\"{}\" is not known", excerpt(row.property)),
                          "Choose the property that this line is about");
            continue;
        }
        const auto before = reader.refusals.size();
        Window window{*property, reader.number(row_field(list, i, "lowest"), row.low, window_bounds),
                      reader.number(row_field(list, i, "highest"), row.high, window_bounds),
                      std::string(trimmed(row.method))};
        if (reader.refusals.size() > before)
            continue;
        if (auto accepted = accept_window(window); !accepted)
            reader.refuse(row_field(list, i), accepted.refusals().front().what,
                          accepted.refusals().front().remedy);
        const bool is_there = std::any_of(windows.begin(), windows.end(), [&](const Window& other) {
            return other.property == window.property && same_words(other.method, window.method);
        });
        if (is_there)
            reader.refuse(row_field(list, i), fmt::format("{} stands there twice", traits(*property).name),
                          "Keep one");
        windows.push_back(std::move(window));
    }
    return windows;
}

std::vector<ClimateStep> read_climate(DraftReader& reader, std::span<const ClimateStepDraft> rows) {
    std::vector<ClimateStep> steps;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (trimmed(rows[i].from).empty() && trimmed(rows[i].temperature).empty())
            continue;
        const auto from_field = row_field("Climate", i, "from");
        const auto before = reader.refusals.size();
        const auto from = reader.day(from_field, rows[i].from);
        if (!from && reader.refusals.size() == before)
            reader.refuse(from_field, "is empty", "Enter the day from which the temperature holds");
        const auto degrees = reader.required_number(row_field("Climate", i, "temperature"),
                                                    rows[i].temperature, {-40, 60, "°C"});
        if (!from)
            continue;
        if (std::any_of(steps.begin(), steps.end(), [&](const ClimateStep& s) { return s.from == *from; }))
            reader.refuse(from_field, fmt::format("{} stands there twice", iso(*from)), "Keep one");
        steps.push_back({*from, Celsius{degrees}});
    }
    std::sort(steps.begin(), steps.end(), [](const auto& a, const auto& b) { return a.from < b.from; });
    return steps;
}

template <class Record> Result<Record> or_refused(Record record, const DraftReader& reader) {
    if (!reader.refusals.empty())
        return reader.refusals;
    return record;
}

const PlantField& field_of(std::span<const MappedField<Product>> fields, std::string_view key) {
    const auto at = std::find_if(fields.begin(), fields.end(),
                                 [&](const auto& mapped) { return mapped.field.key == key; });
    promised(at != fields.end());
    return at->field;
}

/// A product's flours, by name.
void read_flours(FieldReader<Product>& fields, Product& product, const PlantDraft& draft,
                 std::span<const Flour> flours) {
    const auto table = mapped_fields(&product);
    auto& reader = fields.reader();
    const auto& first = field_of(table, "flour");
    if (const auto name = fields.text_of(first); !name.empty())
        product.flour = reader.known(first.label, name, flours);
    const auto& second = field_of(table, "second_flour.flour");
    const auto& share = field_of(table, "second_flour.share");
    const auto name = trimmed(draft.text(second.key));
    if (name.empty()) {
        if (product.second_flour || !draft.second_windows.empty())
            reader.refuse(second.label, "is empty, but its share or specification is said",
                          "Choose the second flour, or empty what is said of it");
        product.second_flour.reset();
        return;
    }
    if (!product.second_flour || product.second_flour->share <= 0 || product.second_flour->share >= 1)
        reader.refuse(share.label, "its part of all the flour is expected, above 0 and below 100 %",
                      "Enter it, or leave the second flour out");
    product.second_flour = SecondFlour{
        reader.known(second.label, name, flours), product.second_flour ? product.second_flour->share : 0,
        read_windows(reader, "Second flour's specification", draft.second_windows)};
}

void read_market(DraftReader& reader, Product& product, std::span<const Market> markets) {
    if (product.market.empty() || markets.empty())
        return;
    std::string keys;
    for (const auto& market : markets) {
        if (market.key == product.market || same_words(market.name, product.market)) {
            product.market = market.key;
            return;
        }
        keys += (keys.empty() ? "" : ", ") + market.key;
    }
    reader.refuse("Market", fmt::format("\"{}\" is not known", excerpt(product.market)),
                  "Choose one of: " + keys);
}

} // namespace

const std::string& PlantDraft::text(std::string_view key) const {
    static const std::string nothing;
    const auto at = texts.find(key);
    return at == texts.end() ? nothing : at->second;
}

PlantDraft blank_draft(PlantKind kind) {
    PlantDraft draft;
    draft.kind = kind;
    for (const auto& field : plant_fields(kind))
        draft.texts[std::string(field.key)] = field.otherwise;
    return draft;
}

PlantDraft draft_of(const Mill& mill) { return texts_of(PlantKind::mill, mill); }

PlantDraft draft_of(const Flour& flour) {
    auto draft = texts_of(PlantKind::flour, flour);
    draft.windows = drafts_of(flour.specification);
    return draft;
}

PlantDraft draft_of(const Place& place) {
    auto draft = texts_of(PlantKind::place, place);
    for (const auto& step : place.climate)
        draft.climate.push_back({iso(step.from), as_typed(step.temperature.value())});
    return draft;
}

PlantDraft draft_of(const Line& line) { return texts_of(PlantKind::line, line); }

PlantDraft draft_of(const Product& product, std::span<const Flour> flours) {
    auto draft = texts_of(PlantKind::product, product);
    const auto name = [&](FlourId id) {
        const auto at =
            std::find_if(flours.begin(), flours.end(), [&](const Flour& f) { return f.id == id; });
        return at == flours.end() ? std::string() : at->name;
    };
    draft.texts["flour"] = name(product.flour);
    draft.windows = drafts_of(product.windows);
    if (product.second_flour) {
        draft.texts["second_flour.flour"] = name(product.second_flour->flour);
        draft.second_windows = drafts_of(product.second_flour->windows);
    }
    for (const auto& i : product.ingredients)
        draft.ingredients.push_back({i.name, as_typed(i.percent_of_flour),
                                     i.water_percent > 0 ? as_typed(i.water_percent) : "",
                                     i.temperature ? as_typed(i.temperature->value()) : ""});
    return draft;
}

Result<Mill> accept_mill(const PlantDraft& draft) {
    FieldReader<Mill> fields(draft);
    const auto mill = fields.read();
    return or_refused(mill, fields.reader());
}

Result<Flour> accept_flour(const PlantDraft& draft) {
    FieldReader<Flour> fields(draft);
    auto flour = fields.read();
    flour.specification = read_windows(fields.reader(), "Specification", draft.windows);
    return or_refused(flour, fields.reader());
}

Result<Place> accept_place(const PlantDraft& draft) {
    FieldReader<Place> fields(draft);
    auto place = fields.read();
    place.climate = read_climate(fields.reader(), draft.climate);
    return or_refused(place, fields.reader());
}

Result<Line> accept_line(const PlantDraft& draft) {
    FieldReader<Line> fields(draft);
    const auto line = fields.read();
    if (fields.reader().refusals.empty() && line.coldest_water > line.tap_water)
        fields.reader().refuse("Coldest water",
                               fmt::format("{:g} °C is above the tap water's {:g} °C",
                                           line.coldest_water.value(), line.tap_water.value()),
                               "Enter what the chiller can do, or the tap's where there is none");
    return or_refused(line, fields.reader());
}

Result<Product> accept_product(const PlantDraft& draft, std::span<const Flour> flours,
                               std::span<const Market> markets) {
    FieldReader<Product> fields(draft);
    auto product = fields.read();
    auto& reader = fields.reader();
    read_flours(fields, product, draft, flours);
    read_market(reader, product, markets);
    product.windows = read_windows(reader, "Specification", draft.windows);
    if (auto ingredients = accept_ingredients(draft.ingredients, HouseUnits()))
        product.ingredients = std::move(*ingredients);
    else
        append(reader.refusals, ingredients.refusals());
    if (!reader.refusals.empty())
        return reader.refusals;
    return accept_product(std::move(product));
}

} // namespace mellowbin
