#include "ui/widgets/chart_parts.h"

#include <cmath>

namespace mellowbin::ui {

using namespace inner;

void band_legend() {
    const float wide = px(Length{2.2f}), high = quarters(2.4f), space = quarters(1.5f);
    struct Entry {
        const char* words;
        int what;
    };
    static constexpr Entry entries[]{{"young", 0},
                                     {"usable", 1},
                                     {"ready", 2},
                                     {"past its best", 3},
                                     {"spread of the estimate, 5 to 95 %", 4},
                                     {"a run", 5}};
    const Spot spot = open_spot(place().width, Claim::whole_row);
    push_place(Place::Kind::flow, spot.at.x, spot.width);
    for (const Entry& entry : entries) {
        const Spot at = open_spot(wide + space + measure(entry.words).x + quarters(3));
        const float middle = at.at.y + line() / 2;
        const ImRect box{{at.at.x, std::round(middle - high / 2)},
                         {at.at.x + wide, std::round(middle + high / 2)}};
        if (entry.what < 4)
            draw_texture(box, static_cast<Texture>(entry.what), box);
        if (entry.what == 4)
            draw_fade({box.Min.x, box.Max.x, 0, 1}, {0, 0.25, 0.5, 0.75, 1}, middle - quarters(0.45f),
                      middle + quarters(0.45f));
        if (entry.what == 5) {
            const float x = box.GetCenter().x, r = quarters(1.1f);
            paper().AddTriangleFilled({x - r, box.Min.y}, {x + r, box.Min.y}, {x, box.Min.y + r * 1.5f},
                                      tint(Role::ink));
            paper().AddRectFilled({x - hair(), box.Min.y}, {x + hair(), box.Max.y}, tint(Role::ink));
        }
        draw({box.Max.x + space, at.at.y}, entry.words, tint(Role::quiet));
        note_words(entry.words, box.Min, measure(entry.words) + ImVec2(wide + space, 0));
        close_spot(at, wide + space + measure(entry.words).x + quarters(3), line());
    }
    const float bottom = place().bottom;
    pop_place();
    close_spot(spot, spot.width, bottom - spot.at.y);
}

} // namespace mellowbin::ui
