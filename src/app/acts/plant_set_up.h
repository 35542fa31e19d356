#pragma once

#include "app/acts/act.h"
#include "app/book/clock.h"
#include "db/connection.h"
#include "exchange/plant_file.h"

#include <string>

namespace mellowbin::app {

/// Puts the law as shipped into a book that lacks rows of it; rows the plant has are left alone. How many
/// were added.
int seed_law(Connection& connection, const Clock& clock);

/// A plant file, put over what the book has. The runs whose cards its products change are named.
struct SetUpPlant {
    exchange::PlantDescription plant;
};
Result<Told> carry_out(State& state, const SetUpPlant& act);

/// Writes a plant description into the book: records of a known name are overwritten, others added; nothing
/// is removed. Its markets must be known, its choices such as ChangeSetting takes ("settings.warm_flour" is
/// refused by its place in the file), its names written as the book has them. One transaction, all or
/// nothing.
Result<Done> set_up_plant(Connection& connection, const exchange::PlantDescription& plant,
                          const std::string& who, const Clock& clock);

} // namespace mellowbin::app
