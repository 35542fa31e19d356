#pragma once

#include "app/acts/batches.h"
#include "app/acts/notice.h"
#include "app/models/card.h"
#include "ui/views/common/form.h"

#include <compare>
#include <string>

namespace mellowbin::views {

/// A batch of a run, as the card shows it.
struct ShownBatch {
    RunId run;
    int batch = 0;
    friend auto operator<=>(const ShownBatch&, const ShownBatch&) = default;
};
ShownBatch shown_batch(const app::CardModel& card);

/// What went into the batch, where it was not what the card says. The draft is the batch's: no figure slips
/// into the batch after.
using GivenForm = Form<ShownBatch, app::BatchDraft>;

/// Something was typed for this batch besides who checked the oxidant.
bool has_typed(const GivenForm& form, const app::CardModel& card);

/// What was typed for batches of this run that another station logged meanwhile: it stays to be read until it
/// is thrown away.
void draw_left_behind(GivenForm& form, const app::CardModel& card);

enum class WentIn { as_told, as_typed };

/// Whether a second person must be named before the batch can be confirmed.
bool asks_check(const GivenForm& form, const app::CardModel& card, WentIn what);
/// Why the batch cannot be confirmed yet, in words; empty: it can.
std::string why_blocked(const GivenForm& form, const app::CardModel& card, WentIn what);
/// Sends what went in, with the number of the batch that the card shows.
void confirm(GivenForm& form, const app::CardModel& card, WentIn what, const app::Notice& notice,
             app::Intents& out);

/// The form over the whole page: a field for each lot, water, its temperature, ice and oxidant, each with
/// what the card says as its hint. Escape closes it.
void draw(GivenForm& form, const app::CardModel& card, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
