#include "ui/widgets/band_parts.h"
#include "ui/widgets/chart.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

BandLayout lay_out(const BandChart& chart, const TimeAxis& axis, const Spot& spot) {
    BandLayout l;
    l.is_columns = chart.label_lines == 1;
    l.row = std::round(line() * static_cast<float>(chart.label_lines) + quarters(l.is_columns ? 2.5f : 2));
    const float head = 2 * line() + quarters(3); // the day looked at has a line of its own above the others
    const float height = std::max(chart.height.ems > 0 ? px(chart.height) : left_height(), head + 3 * l.row);
    l.all = {spot.at, spot.at + ImVec2(spot.width, height)};
    l.head = {l.all.Min, {l.all.Max.x, l.all.Min.y + head}};
    l.body = {{l.all.Min.x, l.head.Max.y}, l.all.Max};
    const bool is_wordy = chart.label_lines != 2;
    l.label = std::min(px(Length{l.is_columns ? 24.0f
                                 : is_wordy   ? 18.0f
                                              : 14.0f}),
                       std::round(spot.width * (is_wordy ? 0.48f : 0.3f)));
    const float pad = quarters(2);
    // A lot's number and its amount stand whole, however narrow the place.
    const float amount = std::max(std::round(l.label * 0.42f), px(Length{11}));
    l.columns = {l.all.Min.x + pad, l.all.Min.x + amount, l.all.Min.x + amount + quarters(3)};
    l.scale = {l.all.Min.x + l.label, l.all.Max.x - ImGui::GetStyle().ScrollbarSize - quarters(1), axis.from,
               axis.days};
    return l;
}

void zoom(TimeAxis& axis, double factor, double around) {
    const double days = std::clamp(axis.days * factor, 7.0, 400.0);
    axis.from = around - (around - axis.from) * days / axis.days;
    axis.days = days;
}

void move_axis(TimeAxis& axis) {
    const double step = std::max(1.0, std::round(axis.days / 14));
    if (take_key(Key::left))
        axis.from -= step;
    if (take_key(Key::right))
        axis.from += step;
    const double middle = axis.from + axis.days / 2;
    if (take_key(Key::plus) || take_key(Key::plus, Mods::ctrl) || take_key(Key::plus, Mods::shift))
        zoom(axis, 0.8, middle);
    if (take_key(Key::minus) || take_key(Key::minus, Mods::ctrl))
        zoom(axis, 1.25, middle);
}

/// Today's tab on the head: dragged, or moved by Left and Right when it has the focus; Home brings it back.
void today_tab(const BandChart& chart, const BandLayout& l, TimeAxis& axis, BandEvents& events) {
    const bool moved = std::abs(axis.today - chart.real_today) > 0.5;
    const std::string words = (moved ? "as of " : "today ") + day_words(axis.today);
    const ImVec2 size = measure(words, {TextSize::text, Weight::bold}) + ImVec2(quarters(3), quarters(1.5f));
    const float x = l.scale.x(axis.today);
    if (x < l.scale.left || x > l.scale.right)
        return;
    const float left = std::clamp(x - size.x / 2, l.scale.left, l.scale.right - size.x);
    const float top = l.head.Min.y + quarters(0.5f);
    const ImRect rect{{left, top}, {left + size.x, top + size.y}};
    const Pressable item = pressable("today", rect, {.by_key = false});
    double day = axis.today;
    if (item.held && ImGui::IsMouseDragging(0, 2))
        day = std::floor(l.scale.day(std::clamp(ImGui::GetIO().MousePos.x, l.scale.left, l.scale.right - 1)));
    if (item.focused && take_key(Key::left))
        --day;
    if (item.focused && take_key(Key::right))
        ++day;
    if (item.focused && take_key(Key::home))
        day = chart.real_today;
    float& was_held = state().remembered[item.id];
    events.today_dropped = (was_held > 0 && !item.held) || (!item.held && day != axis.today);
    was_held = item.held ? 1 : 0;
    if (day != axis.today) {
        axis.today = day;
        events.today_moved = true;
    }
    if (item.hovered || item.held)
        state().cursor = Frame::Cursor::sideways;
    paper().AddRectFilled(rect.Min, rect.Max, tint(Role::accent), corner());
    paper().AddRectFilled({std::round(x) - hair(), rect.Max.y}, {std::round(x) + hair(), l.head.Max.y},
                          tint(Role::accent));
    draw(rect.Min + ImVec2(quarters(1.5f), quarters(0.75f)), words, tint(Role::panel),
         {TextSize::text, Weight::bold});
    if (item.focused && state().focus_by_key)
        focus_ring(rect, quarters(0.5f));
    if (Note* made = note(Kind::marker, "today", rect, item))
        made->value = day_words(axis.today);
}

void draw_head(const BandChart& chart, const BandLayout& l, TimeAxis& axis, BandEvents& events) {
    paper().AddRectFilled(l.head.Min, l.head.Max, tint(Role::raised), corner(), ImDrawFlags_RoundCornersTop);
    const float y = l.head.Max.y - line() - quarters(1);
    draw_day_labels(l.scale, y);
    if (l.is_columns) {
        const Words bold{TextSize::text, Weight::bold};
        draw({l.columns.label, y}, chart.label_head, tint(Role::ink), bold);
        draw_right(l.columns.amount, y, chart.amount_head, tint(Role::ink), bold);
        draw({l.columns.state, y}, chart.state_head, tint(Role::ink), bold);
    }
    today_tab(chart, l, axis, events);
}

void draw_rows(const BandChart& chart, const BandLayout& l, TimeAxis& axis, BandPointer& pointer, ImGuiID id,
               BandEvents& events) {
    const ImVec2 origin = ImGui::GetCursorScreenPos();
    const RowSpan seen = seen_rows(chart.rows, l.row);
    for (std::size_t i = seen.from; i < seen.to; ++i) {
        BandRow row;
        chart.fill_row(i, row);
        const float top = origin.y + l.row * static_cast<float>(i);
        draw_band_row(row, l, {{origin.x, top}, {l.all.Max.x, top + l.row}}, chart.record(i), axis, pointer,
                      id, events);
    }
    const float bottom = std::min(l.body.Max.y, origin.y + l.row * static_cast<float>(chart.rows));
    paper().AddRectFilled({l.scale.left - hair(), l.body.Min.y}, {l.scale.left, bottom}, faint_line());
    if (std::abs(axis.today - chart.real_today) > 0.5)
        draw_today(l.scale, chart.real_today, l.body.Min.y, bottom, hair());
    draw_today(l.scale, axis.today, l.body.Min.y, bottom, 2 * hair());
    reach(origin + ImVec2(0, l.row * static_cast<float>(chart.rows)));
}

std::optional<std::size_t> keys(const BandChart& chart, const BandLayout& l, TimeAxis& axis,
                                BandEvents& events) {
    move_axis(axis);
    const auto row = row_by_key(chart.rows, chart.record, axis.selected, l.body.GetHeight(), l.row);
    if (row) {
        events.selected = axis.selected != chart.record(*row);
        axis.selected = chart.record(*row);
    }
    if (axis.selected && take_key(Key::enter))
        events.opened = true;
    return row;
}

/// Ctrl and the wheel, about the day under the pointer. True when it did.
bool zoom_by_wheel(const BandLayout& l, TimeAxis& axis) {
    const Frame::State& s = state();
    const bool hovered = ImGui::IsMouseHoveringRect(l.all.Min, l.all.Max) && s.layer == s.top_layer;
    if (!hovered || s.wheel == 0 || !has(s.mods, Mods::ctrl))
        return false;
    zoom(axis, std::pow(0.87, static_cast<double>(s.wheel)), l.scale.day(ImGui::GetIO().MousePos.x));
    return true;
}

} // namespace

BandEvents band_chart(const BandChart& chart, TimeAxis& axis) {
    BandEvents events;
    const Spot spot = open_spot(place().width, Claim::whole_row);
    push_name(chart.name);
    const BandLayout l = lay_out(chart, axis, spot);
    const ImGuiID id = id_of("rows");
    paper().AddRectFilled(l.all.Min, l.all.Max, tint(Role::panel), corner());
    const bool focused = list_stop(id, chart.name, l.all);
    std::optional<std::size_t> go_to;
    if (focused)
        go_to = keys(chart, l, axis, events);
    if (axis.show_selected)
        go_to = place_of(chart.rows, chart.record, axis.selected);
    axis.show_selected = false;
    const bool zoomed = zoom_by_wheel(l, axis);
    draw_head(chart, l, axis, events);

    const ImVec2 mouse = ImGui::GetIO().MousePos;
    BandPointer pointer{l.body.Contains(mouse), l.scale.day(mouse.x), mouse};
    if (pointer.is_here)
        events.day_under_pointer = pointer.day;
    put_cursor(l.body.Min);
    ImGui::BeginChild("body", l.body.GetSize(), false,
                      ImGuiWindowFlags_NoNav | (zoomed ? ImGuiWindowFlags_NoScrollWithMouse : 0));
    if (chart.rows == 0)
        draw_empty(chart.when_empty, l.body);
    else
        draw_rows(chart, l, axis, pointer, id, events);
    if (go_to)
        scroll_to_row(*go_to, l.row);
    ImGui::EndChild();
    list_edge(l.all, focused);
    tip_for(!pointer.words.empty(), pointer.words);
    note_list(chart.name, l.all, id, focused, chart.rows, "row");
    pop_name();
    close_spot(spot, spot.width, l.all.GetHeight());
    return events;
}

} // namespace mellowbin::ui
