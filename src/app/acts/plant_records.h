#pragma once

#include "app/acts/act.h"
#include "core/plant_draft.h"
#include "core/plant_field.h"
#include "core/result.h"

#include <optional>
#include <set>
#include <string>

/// Mills, flours, places, lines and products.
namespace mellowbin::app {

/// A record as typed: a new one, or over what the book has.
struct KeepPlantRecord {
    PlantRef record; ///< number 0: a new one
    PlantDraft draft;
    /// As the form began. What others changed meanwhile stays where it was not typed over; what both changed
    /// is refused, and named.
    std::optional<PlantDraft> before = {};
};
/// Nothing new may name it from now on; or again, it may. Refused while runs, stock or deliveries need it.
struct RetirePlantRecord {
    PlantRef record;
    bool is_retired = true;
};
/// Takes a record off that nothing ever named.
struct RemovePlantRecord {
    PlantRef record;
};
/// What another station changed of it was read here: it is marked no more. Changes no book.
struct LookAtPlantRecord {
    PlantRef record;
};

/// Why the record may not be retired yet: runs, stock or deliveries to come need it, or a product is made of
/// the flour that is not among `retired_too`.
Refusals why_needed(const State& state, PlantRef record, const std::set<std::string>& retired_too = {});

Result<Told> carry_out(State& state, const KeepPlantRecord& act);
Result<Told> carry_out(State& state, const RetirePlantRecord& act);
Result<Told> carry_out(State& state, const RemovePlantRecord& act);
Result<Told> carry_out(State& state, const LookAtPlantRecord& act);

} // namespace mellowbin::app
