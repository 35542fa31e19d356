#include "ui/views/mixer/cautions.h"

#include "ui/widgets/ui.h"

namespace mellowbin::views {

using namespace ui;

void draw_cautions(const app::CardModel& card) {
    if (card.cautions.empty())
        return;
    using Beside = app::CardCaution::Beside;
    panel({}, [&] {
        for (const auto beside : {Beside::oxidant, Beside::card})
            for (const auto& caution : card.cautions)
                if (caution.beside == beside)
                    paragraph(caution.words, {.size = TextSize::mixer_note});
    });
}

} // namespace mellowbin::views
