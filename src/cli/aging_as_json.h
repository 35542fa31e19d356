#pragma once

#include "app/app.h"
#include "app/models/learning.h"
#include "app/models/storage.h"

#include <string>

/// What the estimates rest on, as JSON: the same keys and rules as in as_json.h.
namespace mellowbin::cli {

/// The lot that is opened in the app, whole. Some lot must be.
std::string lot_as_json(const app::App& app);
/// What came of an act: its words, the number of what it wrote under its key, and what was set aside, if
/// given.
std::string act_as_json(const std::string& words, const char* key, std::int64_t number,
                        const std::vector<std::string>* set_aside = nullptr);
std::string places_as_json(const std::vector<app::PlaceRow>& places);
std::string learned_as_json(const app::LearningModel& learning);

} // namespace mellowbin::cli
