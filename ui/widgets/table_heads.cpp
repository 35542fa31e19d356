#include "ui/widgets/table_parts.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui::inner {

float& widest_seen(ImGuiID id, std::size_t column) {
    return state().remembered[id + 16 + static_cast<ImGuiID>(column)];
}

float& head_at(ImGuiID id) { return state().remembered[id + 1]; }
float& scroll_x(ImGuiID id) { return state().remembered[id + 2]; }

namespace {

float natural_width(const Column& column, float pad, float seen) {
    const float head = measure(column.head, {TextSize::text, Weight::bold}).x +
                       (column.unit.empty() ? 0 : quarters(1) + measure(column.unit).x) +
                       (column.sortable ? quarters(3) : 0);
    return std::max({head, measure(column.sample).x, std::min(seen, px(Length{16}))}) + 2 * pad;
}

void sort_by(int column, TableState& state_of, TableEvents& events) {
    Sort& sort = state_of.sort;
    if (sort.column == column)
        sort.direction = sort.direction == Direction::up ? Direction::down : Direction::up;
    else
        sort = {column, Direction::up};
    events.sort_changed = true;
}

void draw_arrow(ImVec2 middle, Direction direction) {
    const float r = quarters(0.8f), way = direction == Direction::up ? -1.0f : 1.0f;
    paper().AddTriangleFilled(middle + ImVec2(0, way * r * 0.8f), middle + ImVec2(-r, -way * r * 0.6f),
                              middle + ImVec2(r, -way * r * 0.6f), tint(Role::accent));
}

void draw_head(const Column& column, const ImRect& rect, const TableSizes& sizes, const Pressable& item,
               bool is_sorted, Direction direction, bool marked) {
    if (item.hovered && column.sortable)
        paper().AddRectFilled(rect.Min, rect.Max, mix(Role::raised, Role::quiet, 0.12f));
    const Words bold{TextSize::text, Weight::bold};
    const float y = rect.Min.y + std::round((rect.GetHeight() - line()) / 2);
    const float head = measure(column.head, bold).x;
    const float unit = column.unit.empty() ? 0 : measure(column.unit).x + quarters(1);
    float x = rect.Min.x + sizes.pad;
    if (column.align == Align::right)
        x = rect.Max.x - sizes.pad - head - unit;
    draw({x, y}, column.head, tint(is_sorted ? Role::accent : Role::ink), bold);
    draw({x + head + quarters(1), y}, column.unit, tint(Role::quiet));
    const float arrow = column.align == Align::right ? x - quarters(1.5f) : x + head + unit + quarters(1.5f);
    if (is_sorted)
        draw_arrow({arrow, rect.GetCenter().y}, direction);
    if (marked)
        paper().AddRect(rect.Min, rect.Max, tint(Role::accent), 0, 0, 2 * hair());
}

} // namespace

namespace {

/// Columns give way, one after another, until the others fit.
void make_room(const Table& t, float width, TableSizes& s) {
    while (s.total > width) {
        std::size_t first = t.columns.size();
        for (std::size_t i = 0; i < t.columns.size(); ++i)
            if (s.width[i] > 0 && t.columns[i].gives_way > 0 &&
                (first == t.columns.size() || t.columns[i].gives_way > t.columns[first].gives_way))
                first = i;
        if (first == t.columns.size())
            return;
        s.total -= s.width[first];
        s.width[first] = 0;
    }
}

} // namespace

TableSizes table_sizes(const Table& t, ImGuiID id, float width) {
    TableSizes s;
    s.pad = quarters(2);
    s.head = line() + quarters(3);
    s.row = t.density == Density::touch ? touch() : std::round(line() + quarters(2));
    float shares = 0;
    for (std::size_t i = 0; i < t.columns.size(); ++i) {
        s.width.push_back(std::ceil(natural_width(t.columns[i], s.pad, widest_seen(id, i))));
        s.total += s.width.back();
    }
    make_room(t, width, s);
    for (std::size_t i = 0; i < t.columns.size(); ++i)
        shares += s.width[i] > 0 ? t.columns[i].stretch : 0;
    const float spare = std::max(0.0f, width - s.total);
    if (shares > 0)
        for (std::size_t i = 0; i < t.columns.size(); ++i)
            if (s.width[i] > 0)
                s.width[i] += std::floor(spare * t.columns[i].stretch / shares);
    s.total = 0;
    for (const float w : s.width) {
        s.left.push_back(s.total);
        s.total += w;
    }
    return s;
}

void draw_heads(const Table& t, const ImRect& rect, const TableSizes& sizes, ImGuiID id, bool focused,
                TableState& own, TableEvents& events) {
    paper().AddRectFilled(rect.Min, rect.Max, tint(Role::raised), corner(), ImDrawFlags_RoundCornersTop);
    ImGui::PushClipRect(rect.Min, rect.Max, true);
    const int marked = static_cast<int>(head_at(id)) - 1;
    for (int i = 0; i < static_cast<int>(t.columns.size()); ++i) {
        const auto at = static_cast<std::size_t>(i);
        if (sizes.width[at] <= 0)
            continue;
        const Column& column = t.columns[at];
        const float left = rect.Min.x + sizes.left[at] - scroll_x(id);
        const ImRect head{{left, rect.Min.y}, {left + sizes.width[at], rect.Max.y}};
        const Pressable item =
            pressable(column.head, head, {.enabled = column.sortable, .stops = Stops::no, .by_key = false});
        if (item.pressed)
            sort_by(i, own, events);
        const bool is_sorted = own.sort.column == i;
        draw_head(column, head, sizes, item, is_sorted, own.sort.direction,
                  focused && state().focus_by_key && marked == i);
        if (Note* made = note(Kind::head, column.head, head, item)) {
            made->unit = column.unit;
            made->value = !is_sorted ? "" : own.sort.direction == Direction::up ? "sorted up" : "sorted down";
        }
    }
    ImGui::PopClipRect();
}

namespace {

/// The next head that is shown, counted from 1; the same where there is none.
float head_beside(const TableSizes& sizes, float marked, int step) {
    const auto count = static_cast<int>(sizes.width.size());
    for (int at = static_cast<int>(marked) + step; at >= 0 && at <= count; at += step)
        if (at == 0 || sizes.width[static_cast<std::size_t>(at - 1)] > 0)
            return static_cast<float>(at);
    return marked;
}

} // namespace

bool heads_by_key(const Table& t, const TableSizes& sizes, ImGuiID id, TableState& own, TableEvents& events) {
    float& marked = head_at(id);
    const float before = marked;
    if (take_key(Key::right))
        marked = head_beside(sizes, marked, 1);
    if (take_key(Key::left))
        marked = head_beside(sizes, marked, -1);
    const int column = static_cast<int>(marked) - 1;
    if (column >= 0 && t.columns[static_cast<std::size_t>(column)].sortable && take_key(Key::space))
        sort_by(column, own, events);
    return marked != before;
}

void scroll_to_head(const TableSizes& sizes, ImGuiID id, float width) {
    const auto marked = static_cast<std::size_t>(head_at(id));
    if (marked == 0)
        return;
    const float left = sizes.left[marked - 1], right = left + sizes.width[marked - 1];
    if (left < ImGui::GetScrollX())
        ImGui::SetScrollX(left);
    if (right > ImGui::GetScrollX() + width)
        ImGui::SetScrollX(right - width);
}

} // namespace mellowbin::ui::inner
