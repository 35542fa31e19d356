#include "ui/widgets/text.h"

#include "ui/widgets/inner.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

void wrapped(std::string_view words, Words style, Role role, Kind kind, float gap) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const ImVec2 size = measure(words, style, spot.width);
    draw(spot.at, words, tint(role), style, spot.width);
    note_words(words, spot.at, size, kind);
    close_spot(spot, size.x, size.y, gap);
}

} // namespace

void text(std::string_view words, TextStyle style) {
    const Words face{style.size, style.weight};
    const ImVec2 size = measure(words, face);
    const Spot spot = open_spot(size.x);
    // In a flow, words stand on the line of the boxes beside them.
    ImVec2 at = spot.at;
    float height = size.y;
    if (place().kind == Place::Kind::flow && size.y < touch()) {
        at.y += std::round((touch() - size.y) / 2);
        height = touch();
    }
    draw(at, words, tint(style.role), face);
    note_words(words, at, size);
    close_spot(spot, size.x, height, 1);
}

void paragraph(std::string_view words, TextStyle style) {
    wrapped(words, {style.size, style.weight}, style.role, Kind::text, 1);
}

void heading(std::string_view words) {
    wrapped(words, {TextSize::heading, Weight::bold}, Role::ink, Kind::heading, 2);
}

void hint(std::string_view words) { wrapped(words, ordinary(), Role::quiet, Kind::text, 1); }

void status(Role role, std::string_view words) {
    const Words style = ordinary();
    const float room = measure("✓", style).x + quarters(1.5f);
    const Spot spot = open_spot(measure(words, style).x + room);
    const ImVec2 size = measure(words, style, std::max(1.0f, spot.width - room));
    const bool beside_boxes = place().kind == Place::Kind::flow && size.y < touch();
    const ImVec2 at = spot.at + ImVec2(0, beside_boxes ? std::round((touch() - size.y) / 2) : 0);
    draw(at, sign(role), tint(role), style);
    draw(at + ImVec2(room, 0), words, tint(role), style, std::max(1.0f, spot.width - room));
    note_words(words, at, {size.x + room, size.y});
    close_spot(spot, size.x + room, beside_boxes ? touch() : size.y, 1);
}

void badge(Role role, std::string_view words) {
    const std::string shown =
        *sign(role) ? std::string(sign(role)) + " " + std::string(words) : std::string(words);
    const Words style = ordinary();
    const ImVec2 pad{quarters(1.5f), quarters(0.5f)};
    const ImVec2 size = measure(shown, style) + pad * 2;
    const Spot spot = open_spot(size.x);
    const bool beside_boxes = place().kind == Place::Kind::flow;
    const ImVec2 at = spot.at + ImVec2(0, beside_boxes ? std::round((touch() - size.y) / 2) : 0);
    paper().AddRectFilled(at, at + size, mix(Role::panel, role, 0.12f), size.y / 2);
    draw(at + pad, shown, tint(role), style);
    note_words(words, at, size);
    close_spot(spot, size.x, beside_boxes ? touch() : size.y, 1);
}

void figure(const Figure& f) {
    const Words label = ordinary(), number{f.size, Weight::regular};
    const Words unit = f.size >= TextSize::mixer_text   ? Words{TextSize::key_figure, Weight::regular}
                       : f.size >= TextSize::key_figure ? Words{TextSize::heading, Weight::regular}
                                                        : ordinary();
    const ImVec2 number_size = measure(f.number, number), unit_size = measure(f.unit, unit);
    const float space = f.unit.empty() ? 0 : quarters(1) + number_size.y * 0.04f;
    const float natural = std::max(measure(f.label, label).x, number_size.x + space + unit_size.x);
    const Spot spot = open_spot(std::max(natural, f.note.empty() ? 0 : px(Length{12})));
    const float width = place().kind == Place::Kind::flow
                            ? std::min(spot.width, std::max(natural, px(Length{12})))
                            : spot.width;

    ImVec2 at = spot.at;
    if (!f.label.empty()) {
        const ImVec2 size = measure(f.label, label, width);
        draw(at, f.label, tint(Role::quiet), label, width);
        at.y += size.y;
    }
    draw(at, f.number, tint(f.role), number);
    // Number and unit share a base line: fonts of one family keep it at one share of their line.
    const float base = std::round((number_size.y - unit_size.y) * 0.785f);
    draw(at + ImVec2(number_size.x + space, base), f.unit, tint(Role::quiet), unit);
    if (Note* made = note(Kind::figure, f.label, {spot.at, at + ImVec2(natural, number_size.y)})) {
        made->value = f.number;
        made->unit = f.unit;
    }
    at.y += number_size.y;
    if (!f.note.empty()) {
        const ImVec2 size = measure(f.note, ordinary(), width);
        draw(at, f.note, tint(f.role == Role::model ? Role::model : Role::quiet), ordinary(), width);
        note_words(f.note, at, size);
        at.y += size.y;
    }
    const float apart = place().kind == Place::Kind::flow ? quarters(5) : 0; // figures side by side need air
    close_spot(spot, std::min(spot.width, std::max(natural, f.note.empty() ? 0.0f : width) + apart),
               at.y - spot.at.y);
}

namespace {

/// The widest words of a column in the frame before; remembered under the place's id.
struct FactColumns {
    float &label, &value, &unit;
};
FactColumns fact_columns() {
    auto& kept = state().remembered;
    const ImGuiID at = id_of("facts");
    return {kept[at], kept[at + 1], kept[at + 2]};
}

} // namespace

void fact(const Fact& f) {
    const Words style = ordinary();
    const FactColumns columns = fact_columns();
    const float space = quarters(3);
    const ImVec2 label = measure(f.label, style), value = measure(f.value, style),
                 unit = measure(f.unit, style);
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const float label_room = std::min(std::max(columns.label, label.x), spot.width * 0.5f);
    columns.label = std::max(columns.label, label.x);
    columns.unit = std::max(columns.unit, unit.x);
    if (!f.unit.empty() || value.x < spot.width * 0.3f)
        columns.value = std::max(columns.value, value.x);

    const ImVec2 label_size = measure(f.label, style, label_room);
    draw(spot.at, f.label, tint(Role::quiet), style, label_room);
    const float from = spot.at.x + label_room + space;
    const float room = std::max(em(), spot.at.x + spot.width - from);
    float height = label_size.y, end = from;
    const std::string shown =
        *sign(f.role) ? std::string(sign(f.role)) + " " + std::string(f.value) : std::string(f.value);
    if (f.unit.empty()) { // words: from the left, wrapped
        const ImVec2 size = measure(shown, style, room);
        draw({from, spot.at.y}, shown, tint(f.role), style, room);
        height = std::max(height, size.y);
        end = from + size.x;
    } else {
        const float right = from + std::max(columns.value, value.x);
        draw_right(right, spot.at.y, shown, tint(f.role), style);
        draw({right + quarters(1), spot.at.y}, f.unit, tint(Role::quiet), style);
        end = right + quarters(1) + columns.unit;
    }
    if (!f.note.empty()) {
        const float beside = spot.at.x + spot.width - end - space;
        const bool fits = measure(f.note, style).x <= beside;
        const ImVec2 at = fits ? ImVec2(end + space, spot.at.y) : ImVec2(from, spot.at.y + height);
        const float wrap = fits ? 0 : room;
        const ImVec2 size = measure(f.note, style, wrap);
        draw(at, f.note, tint(Role::quiet), style, wrap);
        height = std::max(height, at.y - spot.at.y + size.y);
    }
    if (Note* made = note(Kind::figure, f.label, {spot.at, spot.at + ImVec2(spot.width, height)})) {
        made->value = f.value;
        made->unit = f.unit;
        if (!f.note.empty())
            note_words(f.note, spot.at, {spot.width, height});
    }
    close_spot(spot, spot.width, height, 1);
}

} // namespace mellowbin::ui
