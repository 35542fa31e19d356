#pragma once

#include "app/acts/intent.h"
#include "app/acts/notice.h"
#include "app/models/setting_up.h"
#include "core/day.h"
#include "core/lot.h"
#include "ui/views/common/form.h"

#include <array>
#include <deque>
#include <optional>
#include <string>

/// The assistant: from an empty book to a first mixer's card, a question at a time. Which one is next, the
/// book says; here is only what is typed and not kept yet.
namespace mellowbin::views {

/// A record of the plant as typed: a new one, or one of the book that is looked at again.
struct SetUpForm {
    PlantRef record;
    PlantDraft draft, before; ///< as it is, as it began
    [[nodiscard]] bool is_touched() const { return draft != before; }
};

struct PlantNameForm {
    std::string name, zone, name_before, zone_before;
    [[nodiscard]] bool is_touched() const { return name != name_before || zone != zone_before; }
};

struct FirstLotForm {
    LotDraft draft;
    std::string basis; ///< of all its figures
    bool is_begun = false;
    [[nodiscard]] bool is_touched() const { return !draft.code.empty() || !draft.mass_kg.empty(); }
};

struct FirstRunForm {
    std::string product, line, day, batches;
    bool wants_flour = false; ///< it was added here just now
};

struct AssistantView {
    bool is_open = false;
    app::SetUpStep step{};     ///< that is shown
    bool is_looked_at = false; ///< a person went back to it
    bool wants_focus = true;
    std::array<SetUpForm, 5> records; ///< by kind
    PlantNameForm plant;
    FirstLotForm lot;
    FirstRunForm run;
    std::string reason; ///< why a lot on hold is released

    std::deque<app::Intent> to_ask; ///< after the one that is being answered
    Asked asked;
    app::SetUpStep asked_of{}; ///< whose answer is awaited, and whose the refusals are

    void open();
    /// At a start: opens where the plant itself is not whole yet. For a first lot and run a line on the
    /// screens that wait for them is enough.
    void begin(const app::SettingUpModel& model);
    [[nodiscard]] const Refusals& refusals_of(app::SetUpStep of) const;
    [[nodiscard]] bool is_touched(app::SetUpStep of) const;
    [[nodiscard]] SetUpForm& form_of(PlantKind kind) { return records[static_cast<std::size_t>(kind)]; }
    void ask(app::Intent intent) { to_ask.push_back(std::move(intent)); }
};

void draw(AssistantView& view, const app::SettingUpModel& model, Day today, const app::Notice& notice,
          app::Intents& out);

/// One line over a screen, as long as something is to be set up: what is next, and the way to it.
void draw_offer(AssistantView& view, const app::SettingUpModel& model);

} // namespace mellowbin::views
