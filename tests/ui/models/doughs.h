#pragma once

#include "app/models/keeping.h"
#include "app/models/ladders.h"
#include "app/models/levers.h"

#include <vector>

/// Read-models of what helps a dough, as the application would make them: the levers of a run, how a
/// product's bread keeps, a lot's loaves. Of the same invented bakery on Wed 25 Nov 2026.
namespace mellowbin::test {

/// Of Pan bread's run: 0.24 short; a lever of each standing, two mixes.
app::LeversModel some_levers();
/// Of Bun's run: the law of its market leaves nothing that reaches.
app::LeversModel levers_out_of_reach();

/// Of Pan bread: limits of each standing, a warning, four records of which one is withdrawn, firmness of
/// three days.
app::KeepingModel pan_bread_keeping();
/// Of Bun: nothing was ever said or logged.
app::KeepingModel bare_keeping();

/// Of lot W26-131: five loaves with ascorbic acid, of which one is withdrawn, and one loaf by its height.
std::vector<app::LadderModel> two_ladders();

} // namespace mellowbin::test
