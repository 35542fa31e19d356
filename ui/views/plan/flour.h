#pragma once

#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "app/models/plan.h"
#include "ui/views/common/form.h"
#include "ui/views/plan/question.h"

#include <optional>
#include <string>

/// Flour that is to be ordered, that is still to come, and that is spoken for.
namespace mellowbin::views {

/// A delivery to come, as typed.
struct ExpectForm {
    bool is_open = false;
    std::string mill, flour, kg, arrives, milled, order;
    Asked asked;
};

/// Flour of a lot to be kept for a product, or back from every plan; as typed.
struct ReserveForm {
    bool is_open = false;
    std::string lot, kg, reason;
    int product = 0; ///< 0: nobody's; else index into the model's products, from 1
    Asked asked;
};

struct FlourPage {
    ExpectForm expect;
    ReserveForm reserve;
};

/// What to order and when; deliveries to come; reservations. What ends one is asked in `question`.
void draw(FlourPage& page, std::optional<PlanQuestion>& question, const app::PlanModel& model,
          const app::LotsModel& lots, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
