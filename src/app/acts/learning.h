#pragma once

#include "app/acts/act.h"
#include "core/retest.h"

/// What the plant's retests teach.
namespace mellowbin::app {

/// Works out what the plant's retests would teach, to be looked at; changes no book.
struct CompareLearned {};
/// The plant's own rates and amplitudes, learned from its retests, hold in place of the published ones from
/// now on.
struct AdoptLearned {};
/// Back to what held before: an earlier adoption, or 0 for the published figures.
struct RestoreLearned {
    LearningId learning;
};

Result<Told> carry_out(State& state, const CompareLearned& act);
Result<Told> carry_out(State& state, const AdoptLearned& act);
Result<Told> carry_out(State& state, const RestoreLearned& act);

} // namespace mellowbin::app
