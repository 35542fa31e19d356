#pragma once

#include "app/acts/notice.h"
#include "app/models/settings.h"
#include "ui/views/common/form.h"

#include <map>
#include <string>
#include <string_view>

namespace mellowbin::views {

/// Choices of the plant as they are typed, by key, until they are kept.
struct PlantChoices {
    std::map<std::string, std::string> typed;
    std::string sent; ///< key of the one that is being answered, or was last
    Asked asked;

    void take_answer(const app::Notice& notice);
    void ask(const std::string& key, const std::string& value, const app::Notice& notice, app::Intents& out);
    void forget(const std::string& key);
};

/// The plant's choice of this key; null: the book has none.
const app::SettingRow* choice_named(const app::SettingsModel& model, std::string_view key);

// The pages beside the records.
/// The laboratory's own error of each test.
void draw_laboratory(PlantChoices& choices, const app::SettingsModel& model, const app::Notice& notice,
                     app::Intents& out);
/// Name and time zone. True when a person wants to see the other choices.
bool draw_the_plant(PlantChoices& choices, const app::SettingsModel& model, const app::Notice& notice,
                    app::Intents& out);

} // namespace mellowbin::views
