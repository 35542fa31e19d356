#pragma once

#include "core/plant.h"
#include "core/plant_field.h"

#include <array>
#include <cmath>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

/// Which field of a form is which of a record; the tables stand in plant_mapping.cpp and product_mapping.cpp.
namespace mellowbin {

/// What was read of a field.
struct FieldValue {
    bool is_given = false;
    std::string words; ///< of one of several words its key
    double number = 0; ///< as a plant file has it
    bool yes = false;
};

/// A field, and how it is taken from a record and put there. A flour is put there by whoever knows flours.
template <class Record> struct MappedField {
    PlantField field;
    std::optional<double> (*number)(const Record&) = nullptr;
    std::string (*words)(const Record&) = nullptr; ///< of one of several words its key
    void (*put)(Record&, const FieldValue&) = nullptr;
};

std::span<const MappedField<Mill>> mapped_fields(const Mill*);
std::span<const MappedField<Flour>> mapped_fields(const Flour*);
std::span<const MappedField<Place>> mapped_fields(const Place*);
std::span<const MappedField<Line>> mapped_fields(const Line*);
std::span<const MappedField<Product>> mapped_fields(const Product*);

namespace mapping {

template <class Record, class Field> Record record_with(Field Record::*);
template <auto field> using RecordWith = decltype(record_with(field));

inline double plain(double value) { return value; }
inline double plain(int value) { return value; }
template <class Tag> double plain(Quantity<Tag> value) { return value.value(); }

template <class T> struct IsOptional : std::false_type {};
template <class T> struct IsOptional<std::optional<T>> : std::true_type {};

template <class Field> Field from_number(double number) {
    if constexpr (std::is_same_v<Field, int>)
        return static_cast<int>(std::lround(number));
    else
        return Field{number};
}

template <auto member> std::optional<double> number_of(const RecordWith<member>& record) {
    const auto& value = record.*member;
    if constexpr (IsOptional<std::decay_t<decltype(value)>>::value)
        return value ? std::optional(plain(*value)) : std::nullopt;
    else
        return plain(value);
}

template <auto member> void put_number(RecordWith<member>& record, const FieldValue& value) {
    auto& to = record.*member;
    using Field = std::decay_t<decltype(to)>;
    if constexpr (IsOptional<Field>::value)
        to = value.is_given ? Field(from_number<typename Field::value_type>(value.number)) : Field();
    else if (value.is_given)
        to = from_number<Field>(value.number);
}

/// The number `member` of a record.
template <auto member> constexpr MappedField<RecordWith<member>> number(PlantField field) {
    if (field.shape != FieldShape::whole)
        field.shape = FieldShape::number;
    return {field, &number_of<member>, nullptr, &put_number<member>};
}

/// Words as they are typed.
template <auto member> constexpr MappedField<RecordWith<member>> words(PlantField field) {
    return {field, nullptr, [](const RecordWith<member>& record) { return record.*member; },
            [](RecordWith<member>& record, const FieldValue& value) { record.*member = value.words; }};
}

/// Yes or no.
template <auto member> constexpr MappedField<RecordWith<member>> yes_or_no(PlantField field) {
    field.shape = FieldShape::yes_no;
    return {field, nullptr,
            [](const RecordWith<member>& record) { return std::string(record.*member ? "yes" : "no"); },
            [](RecordWith<member>& record, const FieldValue& value) { record.*member = value.yes; }};
}

/// One of core's words, or none of them.
template <auto member, auto from_key> constexpr MappedField<RecordWith<member>> word(PlantField field) {
    using Record = RecordWith<member>;
    using Field = std::decay_t<decltype(std::declval<Record>().*member)>;
    field.shape = FieldShape::one_of;
    if constexpr (IsOptional<Field>::value)
        return {field, nullptr,
                [](const Record& r) { return r.*member ? std::string(key_of(*(r.*member))) : std::string(); },
                [](Record& r, const FieldValue& v) {
                    r.*member = v.is_given ? from_key(v.words) : std::nullopt;
                }};
    else
        return {field, nullptr, [](const Record& r) { return std::string(key_of(r.*member)); },
                [](Record& r, const FieldValue& v) {
                    if (const auto read = from_key(v.words))
                        r.*member = *read;
                }};
}

/// The words of an enumeration, in its order.
template <class Enum> std::vector<FieldWord> words_of(std::span<const Enum> values) {
    std::vector<FieldWord> all;
    for (const auto value : values)
        all.push_back({key_of(value), name_of(value)});
    return all;
}
template <class Enum, std::size_t n> std::vector<FieldWord> words_of(const std::array<Enum, n>& values) {
    return words_of(std::span<const Enum>(values));
}

inline PlantField name_field(std::string_view what) {
    return {.key = "name", .label = "Name", .is_required = true, .what = what};
}

/// The last field of every record.
template <auto member> MappedField<RecordWith<member>> retired() {
    return yes_or_no<member>({.key = "retired",
                              .label = "Retired",
                              .otherwise = "no",
                              .what = "Kept for what was; nothing new may name it."});
}

} // namespace mapping
} // namespace mellowbin
