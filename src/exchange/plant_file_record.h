#pragma once

#include "core/plant_draft.h"

#include <nlohmann/json_fwd.hpp>

#include <set>
#include <string>

/// One record of a plant file. nlohmann/json.hpp where it is written or read.
namespace mellowbin::exchange {

/// "products[2].windows[0]: what"
Refusal fault_at(std::string path, std::string what);

/// The element as a draft. What is of the wrong type, no number in its range or no word of a field is refused
/// by its path, and left empty in the draft.
PlantDraft read_plant_record(PlantKind kind, const nlohmann::json& element, const std::string& path,
                             Refusals& refusals);

/// The places at which something is refused already.
using SaidPlaces = std::set<std::string>;

/// What a draft was refused for, at its place in the file: "Specification 1, lowest" is windows[0].low. A
/// place at which something is refused already gets nothing more.
void add_by_place(PlantKind kind, const std::string& path, const Refusals& of_draft, SaidPlaces& said,
                  Refusals& refusals);

/// The record that the draft says, which can be accepted.
nlohmann::ordered_json plant_record_as_json(const PlantDraft& draft);

} // namespace mellowbin::exchange
