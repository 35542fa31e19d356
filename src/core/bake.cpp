#include "core/bake.h"

#include "core/names.h"

namespace mellowbin {
namespace {

constexpr std::array measures{
    Named<LoafMeasure>{LoafMeasure::volume, "volume", "Volume"},
    Named<LoafMeasure>{LoafMeasure::height, "height", "Height"},
};
constexpr std::array kinds{
    Named<KeepingKind>{KeepingKind::mould, "mould", "Mould"},
    Named<KeepingKind>{KeepingKind::firmness, "firmness", "Firmness"},
};

} // namespace

std::string_view key_of(LoafMeasure measure) { return row_of(measures, measure).key; }
std::string_view name_of(LoafMeasure measure) { return row_of(measures, measure).name; }
std::string_view unit_of(LoafMeasure measure) { return measure == LoafMeasure::volume ? "ml" : "mm"; }
std::optional<LoafMeasure> loaf_measure_from_key(std::string_view key) { return from_key(measures, key); }

std::string_view key_of(KeepingKind kind) { return row_of(kinds, kind).key; }
std::string_view name_of(KeepingKind kind) { return row_of(kinds, kind).name; }
std::optional<KeepingKind> keeping_kind_from_key(std::string_view key) { return from_key(kinds, key); }

} // namespace mellowbin
