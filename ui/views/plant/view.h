#pragma once

#include "app/acts/notice.h"
#include "app/models/overview.h"
#include "app/models/plant.h"
#include "app/models/settings.h"
#include "ui/views/common/form.h"
#include "ui/views/plant/choices.h"
#include "ui/views/plant/mill_record.h"
#include "ui/views/plant/mill_words.h"
#include "ui/views/plant/records.h"
#include "ui/widgets/table.h"

#include <array>
#include <optional>

namespace mellowbin::views {

/// A record that was retired, brought back or taken off just now.
struct PlantStanding {
    Asked asked;
    std::optional<PlantRef> about; ///< whose answer it is
    bool takes_off = false;
};

/// What the plant is made of: a list and a form of each kind, and what it chose beside them.
struct PlantView {
    enum Page { mills, flours, places, lines, products, at_the_door, laboratory, the_plant };
    int page = mills;
    std::array<ui::TableState, 5> lists; ///< by kind
    PlantForms records;                  ///< its open form is beside the list of its kind
    PlantStanding standing;
    PlantChoices choices;
    int mill_page = mill_form; ///< of the mill that is opened
    MillRecordView mill_record;
    MillWordsForm mill_words;      ///< on the certificates of the opened mill
    bool wants_focus = true;       ///< the list has the focus in the next frame
    bool was_opened = false;       ///< in the frame before
    bool leads_to_choices = false; ///< a person wants to see the choices on Settings

    static constexpr int mill_form = 0, record_of_mill = 1;

    /// On its page, with its form open.
    void show(PlantRef record);
    /// The mill's record in place of its form.
    void show_record(MillId mill);
};

void draw(PlantView& view, const app::PlantModel& model, const app::SettingsModel& settings,
          const app::Notice& notice, const app::Overview& overview, app::Intents& out);

} // namespace mellowbin::views
