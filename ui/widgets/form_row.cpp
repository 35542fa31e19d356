#include "ui/widgets/form_row.h"

#include "ui/widgets/field_parts.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace mellowbin::ui {

using namespace inner;

namespace {

constexpr std::size_t kept_lines = 2;
constexpr Length least_message{8.5F};
constexpr Length least_before_more{8}; ///< of a message that something stands behind

struct Message {
    std::string words; ///< whole
    std::string shown;
    Role role = Role::quiet;
    bool is_refusal = false;
};

struct RowPlaces {
    float label = 0; ///< width; 0: it stands above
    float boxes = 0, message = 0, more = 0;
    bool is_beneath = false;      ///< the message under the boxes
    bool is_more_beneath = false; ///< what stands behind the message, under all of it
};

RowPlaces places_of(const FormRow& row, float width) {
    const float space = quarters(3), least = px(least_message);
    RowPlaces at;
    at.boxes = std::min(px(row.box_width), width);
    at.more = row.more_width.ems > 0 ? px(row.more_width) + space : 0;
    const bool has_message = row.refusals || !row.note.empty() || at.more > 0;
    at.label = px(row.label_width);
    if (!has_message) {
        at.label = at.label + at.boxes <= width ? at.label : 0;
        return at;
    }
    if (at.label + at.boxes + space + least > width)
        at.label = 0;
    at.is_beneath = at.label + at.boxes + space + least > width;
    if (at.is_beneath && px(row.label_width) + at.boxes <= width)
        at.label = px(row.label_width); // nothing is gained above
    const float room = at.is_beneath ? width - at.label : width - at.label - at.boxes - space;
    at.is_more_beneath = at.more > 0 && room - at.more < px(least_before_more);
    at.message = std::max(em(), at.is_more_beneath ? room : room - at.more);
    return at;
}

bool fits(std::string_view words, float width) {
    const Typeface face = state().fonts.face(TextSize::text, Weight::regular);
    measure(words); // asks for its characters
    return lines_of(words, face, width).size() <= kept_lines;
}

Message message_of(const FormRow& row, float width) {
    const auto field = row.field.empty() ? row.label : row.field;
    Message message{std::string(row.note), std::string(row.note), row.note_role, false};
    if (!row.refusals)
        return message;
    std::string what;
    for (const Refusal& refusal : *row.refusals) {
        if (refusal.field != field)
            continue;
        if (!message.is_refusal)
            message.words.clear();
        message.is_refusal = true;
        message.role = Role::stop;
        message.words += (message.words.empty() ? "" : "; ") + in_one_line(refusal);
        what += (what.empty() ? "" : "; ") + refusal.what;
    }
    if (message.is_refusal)
        message.shown = fits(message.words, width - quarters(4)) ? message.words : what;
    return message;
}

/// In the lines kept, the last of them ending in "…" where there is more.
void draw_message(const Message& message, const ImRect& rect) {
    if (message.shown.empty())
        return;
    const bool has_sign = *sign(message.role) != '\0';
    const float indent = has_sign ? measure(sign(message.role)).x + quarters(1) : 0;
    const float width = rect.GetWidth() - indent;
    const Typeface face = state().fonts.face(TextSize::text, Weight::regular);
    measure(message.shown);
    const auto lines = lines_of(message.shown, face, width);
    const std::size_t count = std::min(lines.size(), kept_lines);
    ImVec2 at{rect.Min.x, std::round(rect.GetCenter().y - line() * static_cast<float>(count) / 2)};
    note_words(message.words, at, {rect.GetWidth(), line() * static_cast<float>(count)},
               message.is_refusal ? Kind::refusal : Kind::text);
    if (has_sign)
        draw(at, sign(message.role), tint(message.role));
    for (std::size_t i = 0; i < count; ++i) {
        const bool is_cut = i + 1 == count && lines.size() > count;
        draw_clipped(at + ImVec2(indent, 0), width,
                     is_cut ? std::string(lines[i]) + " …" : std::string(lines[i]), tint(message.role));
        at.y += line();
    }
    const bool is_less = lines.size() > count || message.shown != message.words;
    tip_for(is_less && ImGui::IsMouseHoveringRect(rect.Min, rect.Max), message.words);
}

/// Boxes side by side; their height.
float draw_boxes(ImVec2 at, float width, Body boxes) {
    put_cursor(at);
    push_place(Place::Kind::flow, at.x, width);
    place().messages_aside = true;
    boxes();
    const float bottom = place().reached;
    pop_place();
    return std::max(bottom - at.y, touch());
}

} // namespace

Field field_in_row(std::string_view label, const Refusals& refusals, std::string_view unit,
                   std::string_view hint) {
    return {.label = label,
            .unit = unit,
            .hint = hint,
            .refusals = &refusals,
            .width = FormRow{}.box_width,
            .label_place = LabelPlace::hidden};
}

void form_row(const FormRow& row, Body boxes, Body more) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const RowPlaces places = places_of(row, spot.width);
    const Words style = ordinary();
    ImVec2 at = spot.at;
    if (places.label > 0) {
        const float middle = at.y + std::round((touch() - measure("x", style).y) / 2);
        draw_clipped({at.x, middle}, places.label - quarters(2), row.label, tint(Role::ink), style);
        at.x += places.label;
    } else {
        draw_clipped(at, spot.width, row.label, tint(Role::ink), style);
        at.y += measure("x", style).y + quarters(0.5F);
    }
    float bottom = at.y + draw_boxes(at, places.boxes, boxes);
    ImRect rest{{at.x + places.boxes + quarters(3), at.y}, {0, at.y + touch()}};
    if (places.is_beneath)
        rest = {{at.x, bottom}, {0, bottom + std::max(touch(), line() * static_cast<float>(kept_lines))}};
    rest.Max.x = rest.Min.x + places.message;
    if (places.message > 0) {
        draw_message(message_of(row, places.message), rest);
        bottom = std::max(bottom, rest.Max.y);
    }
    if (places.more > 0 && more) {
        const ImVec2 behind{rest.Max.x + quarters(3), rest.Min.y}, beneath{at.x, bottom + quarters(1)};
        const ImVec2 from = places.is_more_beneath ? beneath : behind;
        bottom = std::max(bottom, from.y + draw_boxes(from, places.more - quarters(3), more));
    }
    close_spot(spot, spot.width, bottom - spot.at.y, 1);
}

} // namespace mellowbin::ui
