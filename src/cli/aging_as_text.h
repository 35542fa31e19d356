#pragma once

#include "app/app.h"
#include "app/models/learning.h"
#include "app/models/storage.h"
#include "app/models/story.h"

#include <iosfwd>
#include <vector>

/// What the estimates rest on, as text: the same rules as in as_text.h.
namespace mellowbin::cli {

/// The lot that is opened in the app: what to do with it and why. Some lot must be.
void print_lot(std::ostream& out, const app::App& app);
/// Its maturity and storage day by day, and the course of what was measured.
void print_lot_days(std::ostream& out, const app::AgingStory& story);
void print_places(std::ostream& out, const std::vector<app::PlaceRow>& places);
void print_learned(std::ostream& out, const app::LearningModel& learning);

} // namespace mellowbin::cli
