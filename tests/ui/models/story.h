#pragma once

#include "app/models/learning.h"
#include "app/models/storage.h"
#include "app/models/story.h"

#include <vector>

/// Read-models of aging as the application would make them: one lot's story, the places with their loggers'
/// files, what the retests say. Of the same invented bakery on Wed 25 Nov 2026.
namespace mellowbin::test {

/// Of lot W26-131: two measured properties, one result far off, one set aside, a storage of which the first
/// part was measured, two runs, an alarm of each kind.
app::AgingStory a_story();
/// Of a lot of which nothing is known but its milling date.
app::AgingStory a_bare_story();

/// One with a log and one taken back, one without any.
std::vector<app::PlaceRow> some_places();
/// The retests of seven lots against the published figures, to be adopted.
app::LearningModel something_to_learn();

} // namespace mellowbin::test
