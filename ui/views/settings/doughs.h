#pragma once

#include "app/acts/notice.h"
#include "app/models/doughs.h"
#include "ui/views/common/form.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::views {

/// A product's ingredients as typed, and as they were when that began.
struct TypedIngredients {
    std::vector<IngredientDraft> rows, over;
};

/// What goes into the products' doughs beside flour and water.
struct DoughsPage {
    int product = 0;                              ///< of the model's doughs
    std::map<ProductId, TypedIngredients> drafts; ///< until they are kept
    int usual = -1;                               ///< the ready figure that is chosen
    std::optional<ProductId> sent, refused;
    Asked asked;
};

void draw(DoughsPage& page, const app::DoughsModel& model, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
