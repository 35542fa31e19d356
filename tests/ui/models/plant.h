#pragma once

#include "app/models/plant.h"

/// What the plant of the tests' invented bakery is made of, as the application would list it.
namespace mellowbin::test {

/// Two mills that hold and one retired, three flours, two places, a line, and two products: pan bread has all
/// that a product can have.
app::PlantModel a_plant();

} // namespace mellowbin::test
