#pragma once

#include "app/acts/act.h"
#include "core/ingredient.h"

#include <optional>
#include <string>
#include <vector>

/// What goes into a product's dough beside flour and water.
namespace mellowbin::app {

/// All the ingredients of a product, as typed in the units of the house, in the place of those it has.
struct ChangeIngredients {
    std::string product; ///< name
    std::vector<IngredientDraft> rows;

    /// As it was before: put back as it is here, and the rows are not read.
    struct Before {
        std::vector<Ingredient> ingredients;
        AbsorptionPoints water_offset;
        bool is_offset_assumed = true;
    };
    std::optional<Before> before = {};
};

Result<Told> carry_out(State& state, const ChangeIngredients& act);

} // namespace mellowbin::app
