#pragma once

#include "app/acts/notice.h"
#include "app/models/plant.h"
#include "ui/views/common/form.h"
#include "ui/widgets/table.h"

#include <string>

namespace mellowbin::views {

/// What a word on a mill's certificates means, as it is typed over what the book has.
struct MillWordDraft {
    std::string means, unit, basis, method, nitrogen_factor;
};

/// The words on the opened mill's certificates: a list, and the form of one of them.
struct MillWordsForm {
    Form<std::string, MillWordDraft> form; ///< by key_of()
    ui::TableState list;
};

/// Of the mill, its kind and itself.
std::string key_of(const MillWord& word);

void draw_mill_words(MillWordsForm& words, PlantRef mill, const std::string& name,
                     const app::PlantModel& model, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
