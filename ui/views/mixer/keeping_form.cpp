#include "ui/views/mixer/keeping_form.h"

#include "app/acts/keeping.h"
#include "app/acts/notice.h"
#include "app/models/keeping.h"
#include "app/models/mixer.h"
#include "core/bake.h"
#include "ui/views/common/words.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

/// What is on the list of a choice, and the key that the book reads.
struct Option {
    std::string_view key, words;
};
constexpr std::array findings{Option{"none", "No mould"}, Option{"mould", "Mould seen"}};

template <std::size_t N>
void key_choice(const ui::Field& field, const std::array<Option, N>& options, std::string& key) {
    std::array<std::string_view, N> words{};
    std::transform(options.begin(), options.end(), words.begin(), [](const Option& o) { return o.words; });
    const auto* const at =
        std::find_if(options.begin(), options.end(), [&](const Option& o) { return o.key == key; });
    int chosen = at == options.end() ? -1 : static_cast<int>(at - options.begin());
    if (ui::choice(field, words, chosen))
        key = options[static_cast<std::size_t>(chosen)].key;
}

/// What was seen of a product once is likely to be logged again: the kind stays.
KeepingDraft next_after(const KeepingDraft& draft) {
    KeepingDraft next;
    next.kind = draft.kind;
    return next;
}

KeepingDraft first_draft() {
    KeepingDraft draft;
    draft.kind = key_of(KeepingKind::mould);
    return draft;
}

bool is_mould(const KeepingDraft& draft) { return draft.kind == key_of(KeepingKind::mould); }

void fields(KeepingDraft& draft, const app::MixerModel& model, const Refusals& refusals) {
    const std::array kinds{Option{key_of(KeepingKind::mould), name_of(KeepingKind::mould)},
                           Option{key_of(KeepingKind::firmness), name_of(KeepingKind::firmness)}};
    const auto row = [&](std::string_view label, ui::Body boxes, std::string_view note = {}) {
        ui::form_row(
            {.label = label, .refusals = &refusals, .note = note, .label_width = 6_em, .box_width = 20_em},
            boxes);
    };
    row("Kind", [&] { key_choice(ui::field_in_row("Kind", refusals), kinds, draft.kind); });
    row("Baked on", [&] {
        ui::date_field(ui::field_in_row("Baked on", refusals, {}, "YYYY-MM-DD"), draft.baked_on, model.today);
    });
    row("Days", [&] { ui::number_field(ui::field_in_row("Days", refusals, "after the bake"), draft.days); });
    if (is_mould(draft))
        row("Finding", [&] {
            auto both = ui::field_in_row("Finding", refusals);
            both.width = 16_em; // side by side
            key_choice(both, findings, draft.finding);
        });
    else
        row(
            "Firmness",
            [&] { ui::number_field(ui::field_in_row("Firmness", refusals, "g"), draft.firmness); },
            "by one test always");
    row("pH",
        [&] { ui::number_field(ui::field_in_row("pH", refusals, "of the crumb", "if measured"), draft.ph); });
    row("Note", [&] { ui::text_field(ui::field_in_row("Note", refusals), draft.note); });
}

/// Of both kinds only what belongs to the one that is shown: the other stays typed, and is not logged.
KeepingDraft as_shown(KeepingDraft draft, const std::string& product) {
    draft.product = product;
    (is_mould(draft) ? draft.firmness : draft.finding).clear();
    return draft;
}

} // namespace

void draw(KeepingForm& form, const app::KeepingModel& keeping, const app::MixerModel& model,
          const app::Notice& notice, app::Intents& out) {
    if (const auto logged = form.take_accepted(model.batches_logged, notice))
        form.begin_again(*logged, next_after(form.drafts[*logged]));
    auto& draft = form.begin(keeping.product, first_draft());
    ui::panel("Log what the bread did", [&] {
        ui::form("Record", [&] {
            const auto& refusals = form.refusals_of(keeping.product);
            fields(draft, model, refusals);
            const bool is_pressed = ui::button(is_mould(draft) ? "Log the finding" : "Log the firmness",
                                               {.kind = ui::ButtonKind::primary});
            ui::all_refusals(all_but(refusals, {"Kind", "Baked on", "Days",
                                                is_mould(draft) ? "Finding" : "Firmness", "pH", "Note"}));
            if (!is_pressed)
                return;
            form.ask(keeping.product, notice);
            out.emplace_back(app::LogKeeping{as_shown(draft, keeping.product_name)});
        });
    });
}

} // namespace mellowbin::views
