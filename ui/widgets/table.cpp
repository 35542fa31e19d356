#include "ui/widgets/table.h"

#include "ui/widgets/inner.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

struct Sizes {
    std::vector<float> left, width; ///< of the columns, from the table's left edge
    float total = 0;
    float head = 0, row = 0, pad = 0;
};

/// The widest words of a column that were seen so far, with their sign: samples are guesses, and words are
/// not cut.
float& widest_seen(ImGuiID id, std::size_t column) {
    return state().remembered[id + 16 + static_cast<ImGuiID>(column)];
}

float natural_width(const Column& column, float pad, float seen) {
    const float head = measure(column.head, {TextSize::text, Weight::bold}).x +
                       (column.unit.empty() ? 0 : quarters(1) + measure(column.unit).x) +
                       (column.sortable ? quarters(3) : 0);
    return std::max({head, measure(column.sample).x, std::min(seen, px(Length{16}))}) + 2 * pad;
}

Sizes sizes_of(const Table& t, ImGuiID id, float width) {
    Sizes s;
    s.pad = quarters(2);
    s.head = line() + quarters(3);
    s.row = t.density == Density::touch ? touch() : std::round(line() + quarters(2));
    float shares = 0;
    for (std::size_t i = 0; i < t.columns.size(); ++i) {
        s.width.push_back(std::ceil(natural_width(t.columns[i], s.pad, widest_seen(id, i))));
        s.total += s.width.back();
        shares += t.columns[i].stretch;
    }
    const float spare = std::max(0.0f, width - s.total);
    if (shares > 0)
        for (std::size_t i = 0; i < t.columns.size(); ++i)
            s.width[i] += std::floor(spare * t.columns[i].stretch / shares);
    s.total = 0;
    for (const float w : s.width) {
        s.left.push_back(s.total);
        s.total += w;
    }
    return s;
}

/// What the table remembers by itself: the head that Left and Right chose.
float& head_at(ImGuiID id) { return state().remembered[id + 1]; }
float& scroll_x(ImGuiID id) { return state().remembered[id + 2]; }

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

void draw_head(const Column& column, const ImRect& rect, const Sizes& sizes, const Pressable& item,
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

void draw_heads(const Table& t, const ImRect& rect, const Sizes& sizes, ImGuiID id, bool focused,
                TableState& own, TableEvents& events) {
    paper().AddRectFilled(rect.Min, rect.Max, tint(Role::raised), corner(), ImDrawFlags_RoundCornersTop);
    ImGui::PushClipRect(rect.Min, rect.Max, true);
    const int marked = static_cast<int>(head_at(id)) - 1;
    for (int i = 0; i < static_cast<int>(t.columns.size()); ++i) {
        const auto at = static_cast<std::size_t>(i);
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

/// Draws a cell; gives the width that its words would take.
float draw_cell(const RowWriter::Written& cell, const Column& column, float left, float width, float y,
                float pad, bool dim) {
    const Role role = dim && cell.role == Role::ink ? Role::quiet : cell.role;
    const float room = width - 2 * pad;
    const char* mark = sign(role);
    const float marked = *mark ? measure(mark).x + quarters(1) : 0;
    const float words = marked + measure(cell.words).x;
    float x = left + pad;
    if (column.align == Align::right && words <= room)
        x = left + width - pad - words;
    if (*mark)
        draw({x, y}, mark, tint(role));
    draw_clipped({x + marked, y}, room - marked, cell.words, tint(role));
    return words;
}

std::optional<std::size_t> place_of(const Table& t, std::optional<std::int64_t> record) {
    if (!record)
        return std::nullopt;
    for (std::size_t i = 0; i < t.rows; ++i)
        if (t.record(i) == *record)
            return i;
    return std::nullopt;
}

/// The keys of a table that has the focus; the row that is selected now, if that changed.
std::optional<std::size_t> row_by_key(const Table& t, const TableState& own, std::size_t page) {
    if (t.rows == 0)
        return std::nullopt;
    const auto now = place_of(t, own.selected);
    const std::size_t at = now.value_or(0), last = t.rows - 1;
    if (take_key(Key::down))
        return now ? std::min(at + 1, last) : 0;
    if (take_key(Key::up))
        return at > 0 ? at - 1 : 0;
    if (take_key(Key::page_down))
        return std::min(at + page, last);
    if (take_key(Key::page_up))
        return at > page ? at - page : 0;
    if (take_key(Key::home))
        return 0;
    if (take_key(Key::end))
        return last;
    return std::nullopt;
}

void heads_by_key(const Table& t, ImGuiID id, TableState& own, TableEvents& events) {
    float& marked = head_at(id); // 1 is the first; 0 none
    const float count = static_cast<float>(t.columns.size());
    if (take_key(Key::right))
        marked = std::min(marked + 1, count);
    if (take_key(Key::left))
        marked = std::max(marked - 1, 0.0f);
    const int column = static_cast<int>(marked) - 1;
    if (column >= 0 && t.columns[static_cast<std::size_t>(column)].sortable && take_key(Key::space))
        sort_by(column, own, events);
}

void note_row(const Table& t, const RowWriter& writer, const ImRect& rect, const Pressable& item,
              bool chosen) {
    if (!is_probing())
        return;
    std::string all;
    const std::size_t count = std::min(writer.count(), t.columns.size());
    for (std::size_t c = 0; c < count; ++c)
        all += (c ? " | " : "") + writer.cells()[c].words;
    if (Note* made = note(Kind::row, count ? writer.cells()[0].words : "", rect, item)) {
        made->path = made->path.substr(0, made->path.size() - made->label.size()) + std::to_string(item.id);
        made->value = all;
        made->chosen = chosen;
    }
}

struct Rows {
    std::size_t from, to; ///< seen
};

Rows seen_rows(const Table& t, float row) {
    const ImGuiWindow* window = state().context->CurrentWindow;
    const float scroll = window->Scroll.y, high = window->InnerRect.GetHeight();
    const auto from = static_cast<std::size_t>(std::max(0.0f, std::floor(scroll / row)));
    const auto to = static_cast<std::size_t>(std::ceil((scroll + high) / row));
    return {std::min(from, t.rows), std::min(to, t.rows)};
}

void scroll_to_row(std::size_t at, float row) {
    ImGuiWindow* window = state().context->CurrentWindow;
    const float top = row * static_cast<float>(at), high = window->InnerRect.GetHeight();
    if (top < window->Scroll.y)
        ImGui::SetScrollY(window, top);
    if (top + row > window->Scroll.y + high)
        ImGui::SetScrollY(window, top + row - high);
    state().quiet_frames = std::max(state().quiet_frames, 2);
}

void draw_rows(const Table& t, const Sizes& sizes, float width, ImGuiID id, TableState& own,
               TableEvents& events) {
    const ImVec2 origin = ImGui::GetCursorScreenPos();
    static RowWriter writer; // its strings are kept from frame to frame
    const Rows seen = seen_rows(t, sizes.row);
    const float wide = std::max(width, sizes.total);
    for (std::size_t i = seen.from; i < seen.to; ++i) {
        const std::int64_t record = t.record(i);
        writer.clear();
        t.write_row(i, writer);
        const float top = origin.y + sizes.row * static_cast<float>(i);
        const ImRect rect{{origin.x, top}, {origin.x + wide, top + sizes.row}};
        ImGui::PushID(reinterpret_cast<const void*>(static_cast<std::intptr_t>(record)));
        const Pressable item = pressable("row", rect, {.stops = Stops::no, .by_key = false, .at_once = true});
        ImGui::PopID();
        if (item.pressed) {
            events.selected = events.selected || own.selected != record;
            own.selected = record;
            give_focus(id);
        }
        if (item.double_clicked)
            events.opened = true;
        const bool chosen = own.selected == record;
        if (chosen)
            paper().AddRectFilled(rect.Min, rect.Max, mix(Role::panel, Role::accent, 0.14f));
        else if (item.hovered)
            paper().AddRectFilled(rect.Min, rect.Max, mix(Role::panel, Role::raised, 0.55f));
        paper().AddRectFilled({rect.Min.x, rect.Max.y - hair()}, rect.Max,
                              mix(Role::panel, Role::raised, 0.7f));
        if (chosen)
            paper().AddRectFilled(rect.Min, {rect.Min.x + quarters(0.75f), rect.Max.y}, tint(Role::accent));
        const float y = std::round(top + (sizes.row - line()) / 2);
        const std::size_t count = std::min(writer.count(), t.columns.size());
        for (std::size_t c = 0; c < count; ++c) {
            const float words = draw_cell(writer.cells()[c], t.columns[c], origin.x + sizes.left[c],
                                          sizes.width[c], y, sizes.pad, writer.is_dim());
            float& widest = widest_seen(id, c);
            widest = std::max(widest, words);
        }
        note_row(t, writer, rect, item, chosen);
    }
    reach(origin + ImVec2(sizes.total, sizes.row * static_cast<float>(t.rows)));
}

void draw_empty(std::string_view words, const ImRect& body) {
    const float wrap = std::min(body.GetWidth() - quarters(8), px(Length{30}));
    const ImVec2 size = measure(words, {}, wrap);
    const ImVec2 at{body.Min.x + quarters(4), body.Min.y + quarters(5)};
    draw(at, words, tint(Role::quiet), {}, wrap);
    note_words(words, at, size);
}

} // namespace

TableEvents table(const Table& t, TableState& own) {
    TableEvents events;
    const Spot spot = open_spot(place().width, Claim::whole_row);
    push_name(t.name);
    const ImGuiID id = id_of("rows");
    const float bar = ImGui::GetStyle().ScrollbarSize;
    const Sizes sizes = sizes_of(t, id, spot.width - bar);
    const float least = sizes.head + sizes.row * 3;
    const float height = std::max(t.height.ems > 0 ? px(t.height) : left_height(), least);
    const ImRect all{spot.at, spot.at + ImVec2(spot.width, height)};
    const ImRect head{all.Min, {all.Max.x, all.Min.y + sizes.head}}, body{{all.Min.x, head.Max.y}, all.Max};
    paper().AddRectFilled(all.Min, all.Max, tint(Role::panel), corner());

    ImGui::ItemAdd(all, id);
    const bool focused = stop_here(id, t.name, all, true);
    if (focused && state().activate == id)
        state().activate = 0;
    if (focused)
        state().focus_is_field = state().focus_is_notes = false;
    std::optional<std::size_t> go_to;
    const float head_before = head_at(id);
    if (focused) {
        heads_by_key(t, id, own, events);
        const float page = std::floor(body.GetHeight() / sizes.row);
        go_to = row_by_key(t, own, static_cast<std::size_t>(std::max(1.0f, page - 1)));
        if (go_to) {
            const std::int64_t record = t.record(*go_to);
            events.selected = own.selected != record;
            own.selected = record;
        }
        if (own.selected && take_key(Key::enter))
            events.opened = true;
    }
    const bool head_moved = head_at(id) != head_before;
    if (own.show_selected) {
        go_to = place_of(t, own.selected);
        own.show_selected = false;
    }
    draw_heads(t, head, sizes, id, focused, own, events);

    put_cursor(body.Min);
    ImGui::BeginChild("body", body.GetSize(), false,
                      ImGuiWindowFlags_NoNav | ImGuiWindowFlags_HorizontalScrollbar);
    if (t.rows == 0)
        draw_empty(t.when_empty, body);
    else
        draw_rows(t, sizes, spot.width, id, own, events);
    if (go_to)
        scroll_to_row(*go_to, sizes.row);
    if (const auto marked = static_cast<std::size_t>(head_at(id)); marked > 0 && head_moved) {
        const float left = sizes.left[marked - 1], right = left + sizes.width[marked - 1],
                    wide = body.GetWidth() - bar;
        if (left < ImGui::GetScrollX())
            ImGui::SetScrollX(left);
        if (right > ImGui::GetScrollX() + wide)
            ImGui::SetScrollX(right - wide);
    }
    scroll_x(id) = ImGui::GetScrollX();
    ImGui::EndChild();
    paper().AddRect(all.Min, all.Max, focused && state().focus_by_key ? tint(Role::accent) : faint_line(),
                    corner(), 0, (focused && state().focus_by_key ? 2 : 1) * hair());
    if (Note* made = note(Kind::text, t.name, all, id)) {
        made->value = std::to_string(t.rows) + (t.rows == 1 ? " row" : " rows");
        made->focused = focused;
    }
    pop_name();
    close_spot(spot, spot.width, height);
    return events;
}

} // namespace mellowbin::ui
