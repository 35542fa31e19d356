#include "ui/widgets/table.h"

#include "ui/widgets/chart_parts.h"
#include "ui/widgets/table_parts.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

/// Draws a cell; gives the width that its words would take.
float draw_cell(const RowWriter::Written& cell, const Column& column, float left, float width, float y,
                float pad, bool dim) {
    const Role role = dim && cell.role == Role::ink ? Role::quiet : cell.role;
    const float room = width - 2 * pad;
    const char* mark = sign(role);
    const ImVec2 key{cell.key ? quarters(3.5f) : 0, quarters(2.5f)};
    const float boxed = cell.key ? key.x + quarters(1) : 0;
    const float marked = boxed + (*mark ? measure(mark).x + quarters(1) : 0);
    const float words = marked + measure(cell.words).x;
    float x = left + pad;
    if (column.align == Align::right && words <= room)
        x = left + width - pad - words;
    if (cell.key) {
        const float top = std::round(y + (line() - key.y) / 2);
        const ImRect box{{x, top}, {x + key.x, top + key.y}};
        draw_texture(box, *cell.key, box);
    }
    if (*mark)
        draw({x + boxed, y}, mark, tint(role));
    draw_clipped({x + marked, y}, room - marked, cell.words, tint(role));
    return words;
}

void draw_cells(const Table& t, const RowWriter& row, const TableSizes& sizes, ImVec2 at, ImGuiID id) {
    const float y = std::round(at.y + (sizes.row - line()) / 2);
    const std::size_t count = std::min(row.count(), t.columns.size());
    for (std::size_t c = 0; c < count; ++c) {
        if (sizes.width[c] <= 0)
            continue;
        const float words = draw_cell(row.cells()[c], t.columns[c], at.x + sizes.left[c], sizes.width[c], y,
                                      sizes.pad, row.is_dim());
        float& widest = widest_seen(id, c);
        widest = std::max(widest, words);
    }
}

void draw_ground(const ImRect& rect, bool chosen, bool hovered) {
    if (chosen)
        paper().AddRectFilled(rect.Min, rect.Max, mix(Role::panel, Role::accent, 0.14f));
    else if (hovered)
        paper().AddRectFilled(rect.Min, rect.Max, mix(Role::panel, Role::raised, 0.55f));
    paper().AddRectFilled({rect.Min.x, rect.Max.y - hair()}, rect.Max, mix(Role::panel, Role::raised, 0.7f));
    if (chosen)
        paper().AddRectFilled(rect.Min, {rect.Min.x + quarters(0.75f), rect.Max.y}, tint(Role::accent));
}

void note_row(const Table& t, const TableSizes& sizes, const RowWriter& row, const ImRect& rect,
              const Pressable& item, bool chosen) {
    if (!is_probing())
        return;
    std::string all;
    const std::size_t count = std::min(row.count(), t.columns.size());
    for (std::size_t c = 0; c < count; ++c)
        if (sizes.width[c] > 0) {
            const auto& cell = row.cells()[c];
            all += (c ? " | " : "") + cell.words +
                   (cell.key ? " (" + std::string(word_for(*cell.key)) + ")" : "");
        }
    if (Note* made = note_item(Kind::row, count ? row.cells()[0].words : "", rect, item, chosen))
        made->value = all;
}

void draw_rows(const Table& t, const TableSizes& sizes, float width, ImGuiID id, TableState& own,
               TableEvents& events) {
    const ImVec2 origin = ImGui::GetCursorScreenPos();
    static RowWriter row; // its strings are kept from frame to frame
    const RowSpan seen = seen_rows(t.rows, sizes.row);
    const float wide = std::max(width, sizes.total);
    for (std::size_t i = seen.from; i < seen.to; ++i) {
        const std::int64_t record = t.record(i);
        row.clear();
        t.write_row(i, row);
        const ImVec2 at{origin.x, origin.y + sizes.row * static_cast<float>(i)};
        const ImRect rect{at, at + ImVec2(wide, sizes.row)};
        const Pressable item = list_item(record, "row", rect);
        if (item.pressed) {
            events.selected = events.selected || own.selected != record;
            own.selected = record;
            events.pressed = true;
            give_focus(id);
        }
        if (item.double_clicked)
            events.opened = true;
        const bool chosen = own.selected == record;
        draw_ground(rect, chosen, item.hovered);
        draw_cells(t, row, sizes, at, id);
        note_row(t, sizes, row, rect, item, chosen);
    }
    reach(origin + ImVec2(sizes.total, sizes.row * static_cast<float>(t.rows)));
}

struct ByKey {
    std::optional<std::size_t> row;
    bool head_moved = false;
};

ByKey keys(const Table& t, const TableSizes& sizes, ImGuiID id, float seen_height, TableState& own,
           TableEvents& events) {
    ByKey by_key;
    by_key.head_moved = heads_by_key(t, sizes, id, own, events);
    by_key.row = row_by_key(t.rows, t.record, own.selected, seen_height, sizes.row);
    if (by_key.row) {
        const std::int64_t record = t.record(*by_key.row);
        events.selected = own.selected != record;
        own.selected = record;
    }
    if (own.selected && take_key(Key::enter))
        events.opened = true;
    return by_key;
}

} // namespace

namespace {

/// What was typed in this frame goes on at the end of the text; Backspace takes its last letter.
void type_on(std::string& text) {
    ImGuiIO& io = ImGui::GetIO();
    for (const ImWchar c : io.InputQueueCharacters) {
        if (c < 0x20 || c == 0x7f || (c == ' ' && text.empty()))
            continue;
        char utf8[5];
        text += ImTextCharToUtf8(utf8, c);
    }
    io.InputQueueCharacters.resize(0);
    if (text.empty() || !take_key(Key::backspace))
        return;
    while (text.size() > 1 && (static_cast<unsigned char>(text.back()) & 0xc0U) == 0x80U)
        text.pop_back();
    text.pop_back();
}

} // namespace

TableEvents table(const Table& t, TableState& own) {
    TableEvents events;
    const Spot spot = open_spot(place().width, Claim::whole_row);
    push_name(t.name);
    const ImGuiID id = id_of("rows");
    const float bar = ImGui::GetStyle().ScrollbarSize;
    const TableSizes sizes = table_sizes(t, id, spot.width - bar);
    const float height =
        std::max(t.height.ems > 0 ? px(t.height) : left_height(), sizes.head + sizes.row * 3);
    const ImRect all{spot.at, spot.at + ImVec2(spot.width, height)};
    const ImRect head{all.Min, {all.Max.x, all.Min.y + sizes.head}}, body{{all.Min.x, head.Max.y}, all.Max};
    paper().AddRectFilled(all.Min, all.Max, tint(Role::panel), corner());
    const bool focused = list_stop(id, t.name, all);
    ByKey by_key;
    if (focused)
        by_key = keys(t, sizes, id, body.GetHeight(), own, events);
    if (focused && t.typed)
        type_on(*t.typed);
    if (own.show_selected)
        by_key.row = place_of(t.rows, t.record, own.selected);
    own.show_selected = false;
    draw_heads(t, head, sizes, id, focused, own, events);

    put_cursor(body.Min);
    ImGui::BeginChild("body", body.GetSize(), false,
                      ImGuiWindowFlags_NoNav | ImGuiWindowFlags_HorizontalScrollbar);
    if (t.rows == 0)
        draw_empty(t.when_empty, body);
    else
        draw_rows(t, sizes, spot.width, id, own, events);
    if (by_key.row)
        scroll_to_row(*by_key.row, sizes.row);
    if (by_key.head_moved)
        scroll_to_head(sizes, id, body.GetWidth() - bar);
    scroll_x(id) = ImGui::GetScrollX();
    ImGui::EndChild();
    list_edge(all, focused);
    note_list(t.name, all, id, focused, t.rows, "row");
    pop_name();
    close_spot(spot, spot.width, height);
    return events;
}

} // namespace mellowbin::ui
