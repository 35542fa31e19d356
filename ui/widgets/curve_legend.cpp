#include "ui/widgets/curve_parts.h"

#include <algorithm>

namespace mellowbin::ui {

using namespace inner;

namespace {

/// A sample and its words, wrapped where the place is narrow.
template <class Draw> void entry(std::string_view words, Draw draw_sample) {
    const float wide = px(Length{2.2f}), space = quarters(1.5f), apart = quarters(3);
    const float room = std::max(px(Length{4}), place().width - wide - space);
    const ImVec2 size = measure(words, {}, room);
    const Spot at = open_spot(wide + space + size.x + apart);
    const float middle = at.at.y + line() / 2, high = quarters(2.4f);
    draw_sample(
        ImRect{{at.at.x, std::round(middle - high / 2)}, {at.at.x + wide, std::round(middle + high / 2)}});
    const ImVec2 words_at = at.at + ImVec2(wide + space, 0);
    draw(words_at, words, tint(Role::quiet), {}, room);
    note_words(words, words_at, size);
    close_spot(at, wide + space + size.x + apart, std::max(size.y, line()));
}

bool has(std::span<const CurvePoint> points, Known known) {
    return std::any_of(points.begin(), points.end(), [&](const CurvePoint& p) { return p.known == known; });
}

bool has(std::span<const CurveMark> marks, MarkShape shape) {
    return std::any_of(marks.begin(), marks.end(), [&](const CurveMark& m) { return m.shape == shape; });
}

void known_entry(std::span<const CurvePoint> points, Known known, std::string_view band_words) {
    if (!has(points, known))
        return;
    std::string words(word_for(known));
    if (known == Known::estimate)
        words.append(", ").append(band_words);
    else
        words.append(": ").append(days_known(points, known));
    entry(words, [&](const ImRect& box) { draw_known(known, box); });
}

} // namespace

void curve_legend(std::span<const CurvePoint> points, std::span<const CurveMark> marks,
                  std::string_view band_words, std::string_view mark_words) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    push_place(Place::Kind::flow, spot.at.x, spot.width);
    for (const Known known : {Known::estimate, Known::measured, Known::assumed})
        known_entry(points, known, band_words);
    const auto shape_entry = [&](MarkShape shape, std::string_view words) {
        if (has(marks, shape))
            entry(words, [&](const ImRect& box) { draw_mark(box.GetCenter(), shape); });
    };
    shape_entry(MarkShape::plain, mark_words);
    shape_entry(MarkShape::asks_check, "a result that asks for a check");
    const float bottom = std::max(place().bottom, spot.at.y);
    pop_place();
    close_spot(spot, spot.width, bottom - spot.at.y);
}

} // namespace mellowbin::ui
