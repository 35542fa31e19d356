#pragma once

#include "app/acts/notice.h"
#include "app/models/mixer.h"
#include "ui/views/mixer/view.h"

#include <vector>

/// What is pressed beside a card.
namespace mellowbin::views {

enum class MixerAct { call_quality, other_went_in, what_came, back, next, why, bowl };

/// In one row at the bottom as far as they fit beside Confirm, by weight; the others beneath the card.
struct MixerActs {
    bool has_confirm = false;
    std::vector<MixerAct> beside, beneath;
    float height = 0; ///< of the row, pixels that grow with the window
};
MixerActs mixer_acts(const MixerView& view, const app::MixerModel& model);

/// Confirm with the second person's field where one must be named, and the acts beside it.
void draw_bottom(MixerView& view, const MixerActs& acts, const app::MixerModel& model,
                 const app::Notice& notice, app::Intents& out);
void draw_act(MixerView& view, MixerAct act, const app::MixerModel& model, app::Intents& out);

/// F7 and F8, and the arrows while nothing is typed: the run before and after; F9: the bag's scan; F11, and
/// Esc where it is on: the bowl alone.
void take_keys(MixerView& view, const app::MixerModel& model, app::Intents& out);
/// The runs of today to choose from; nothing where there is only one.
void draw_choice_of_run(const app::MixerModel& model, app::Intents& out);

} // namespace mellowbin::views
