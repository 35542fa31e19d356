#include "ui/views/common/day_words.h"
#include "ui/views/common/words.h"
#include "ui/views/lots/pages.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

namespace mellowbin::views {
namespace {

std::string words_of(const Pallet& pallet) {
    const auto words = sscc_in_words(pallet.sscc);
    return pallet.mass ? fmt::format("{}, {} kg", words, kilograms(to_kilograms(*pallet.mass).value()))
                       : words;
}

} // namespace

void draw_arrival(LotsView& view, const app::LotSheet& sheet) {
    if (!sheet.came_words.empty())
        ui::paragraph(sheet.came_words);
    if (sheet.pallets.empty())
        return;
    const auto count = counted(sheet.pallets.size(), "pallet", "pallets");
    if (ui::button(view.shows_pallets ? "Hide " + count : count, {.kind = ui::ButtonKind::quiet}))
        view.shows_pallets = !view.shows_pallets;
    if (view.shows_pallets)
        for (const auto& pallet : sheet.pallets)
            ui::paragraph(words_of(pallet));
}

} // namespace mellowbin::views
