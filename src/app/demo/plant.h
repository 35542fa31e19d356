#pragma once

#include <string_view>

namespace mellowbin::app {

/// The plant file of the demo bakery (fixtures/demo/plant.json), built into the program.
std::string_view demo_plant();

} // namespace mellowbin::app
