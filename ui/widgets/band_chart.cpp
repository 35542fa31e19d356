#include "ui/widgets/chart.h"
#include "ui/widgets/chart_parts.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace mellowbin::ui {

using namespace inner;

namespace {

struct Layout {
    ImRect all, head, body;
    DayScale scale;
    float label = 0, row = 0;
};

Layout lay_out(const BandChart& chart, const TimeAxis& axis, const Spot& spot) {
    Layout l;
    l.row = std::round(line() * 2 + quarters(2));
    const float head = line() + quarters(4);
    const float height = std::max(chart.height.ems > 0 ? px(chart.height) : left_height(), head + 3 * l.row);
    l.all = {spot.at, spot.at + ImVec2(spot.width, height)};
    l.head = {l.all.Min, {l.all.Max.x, l.all.Min.y + head}};
    l.body = {{l.all.Min.x, l.head.Max.y}, l.all.Max};
    l.label = std::min(px(Length{14}), std::round(spot.width * 0.3f));
    l.scale = {l.all.Min.x + l.label, l.all.Max.x - ImGui::GetStyle().ScrollbarSize - quarters(1), axis.from,
               axis.days};
    return l;
}

void zoom(TimeAxis& axis, double factor, double around) {
    const double days = std::clamp(axis.days * factor, 7.0, 400.0);
    axis.from = around - (around - axis.from) * days / axis.days;
    axis.days = days;
}

void keys(TimeAxis& axis) {
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
void today_tab(const BandChart& chart, const Layout& l, TimeAxis& axis, BandEvents& events) {
    const bool moved = std::abs(axis.today - chart.real_today) > 0.5;
    const std::string words = (moved ? "as of " : "today ") + day_words(axis.today);
    const ImVec2 size = measure(words, {TextSize::text, Weight::bold}) + ImVec2(quarters(3), quarters(1.5f));
    const float x = l.scale.x(axis.today);
    if (x < l.scale.left || x > l.scale.right)
        return;
    const float left = std::clamp(x - size.x / 2, l.scale.left, l.scale.right - size.x);
    const float top = l.head.Max.y - size.y - quarters(0.5f);
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

void draw_head(const BandChart& chart, const Layout& l, TimeAxis& axis, BandEvents& events) {
    paper().AddRectFilled(l.head.Min, l.head.Max, tint(Role::raised), corner(), ImDrawFlags_RoundCornersTop);
    draw_day_labels(l.scale, l.head.Min.y + quarters(0.5f) + std::round((l.head.GetHeight() - line()) / 2) -
                                 quarters(0.5f));
    today_tab(chart, l, axis, events);
}

struct Pointer {
    bool is_here = false;
    double day = 0;
    float x = 0, y = 0;
};

struct Under { ///< what the pointer is on, gathered while the rows are drawn
    std::string words;
};

void draw_label(const BandRow& row, const ImRect& rect, float width) {
    const float pad = quarters(2), room = width - 2 * pad;
    const bool two = !row.detail.empty();
    const float y = std::round(rect.GetCenter().y - (two ? line() : line() / 2));
    const char* mark = sign(row.role);
    const float marked = *mark ? measure(mark).x + quarters(1) : 0;
    if (*mark)
        draw({rect.Min.x + pad, y}, mark, tint(row.role));
    draw_clipped({rect.Min.x + pad + marked, y}, room - marked, row.label, tint(row.role),
                 {TextSize::text, Weight::bold});
    if (two)
        draw_clipped({rect.Min.x + pad, y + line()}, room, row.detail, tint(Role::quiet));
}

void draw_spans(const BandRow& row, const DayScale& scale, float top, float bottom) {
    const ImRect seen{{scale.left, top}, {scale.right, bottom}};
    for (const Span& span : row.spans) {
        const float from = std::round(std::clamp(scale.x(span.from), scale.left, scale.right));
        const float to = std::round(std::clamp(scale.x(span.to), scale.left, scale.right));
        if (to > from)
            draw_texture({{from, top}, {to, bottom}}, span.texture, seen);
    }
}

void draw_ticks(const BandRow& row, const DayScale& scale, float top, float bottom, const Pointer& pointer,
                bool pressed, ImGuiID id, BandEvents& events, Under& under) {
    const float r = quarters(1.1f);
    for (const BandTick& tick : row.ticks) {
        const float x = std::round(scale.x(tick.day + 0.5));
        if (x < scale.left || x > scale.right)
            continue;
        const ImRect rect{{x - r, top - r * 1.5f}, {x + r, bottom + hair()}};
        paper().AddRectFilled({x - hair(), top - r * 0.2f}, {x + hair(), bottom + quarters(0.5f)},
                              tint(tick.role));
        paper().AddTriangleFilled({x - r, top - r * 1.5f}, {x + r, top - r * 1.5f}, {x, top},
                                  tint(tick.role));
        const bool on = pointer.is_here && rect.Contains({pointer.x, pointer.y});
        if (on)
            under.words = tick.words;
        if (on && pressed)
            events.tick = tick.id;
        if (Note* made = note(Kind::marker, tick.words, rect, id))
            made->hovered = on;
    }
}

std::string row_words(const BandRow& row, double day) {
    std::string words(row.label);
    words.append(", ").append(day_words(day));
    for (const Span& span : row.spans)
        if (day >= span.from && day < span.to)
            words.append(": ").append(word_for(span.texture));
    if (!row.words.empty())
        words.append("\n").append(row.words);
    return words;
}

void draw_row(const BandRow& row, const Layout& l, const ImRect& rect, std::int64_t record, TimeAxis& axis,
              const Pointer& pointer, ImGuiID chart_id, BandEvents& events, Under& under) {
    ImGui::PushID(reinterpret_cast<const void*>(static_cast<std::intptr_t>(record)));
    const Pressable item = pressable("row", rect, {.stops = Stops::no, .by_key = false, .at_once = true});
    ImGui::PopID();
    const bool chosen = axis.selected == record;
    if (chosen)
        paper().AddRectFilled(rect.Min, rect.Max, mix(Role::panel, Role::accent, 0.12f));
    else if (item.hovered)
        paper().AddRectFilled(rect.Min, rect.Max, mix(Role::panel, Role::raised, 0.5f));
    draw_day_lines(l.scale, rect.Min.y, rect.Max.y);
    paper().AddRectFilled({rect.Min.x, rect.Max.y - hair()}, rect.Max, mix(Role::panel, Role::raised, 0.8f));
    if (chosen)
        paper().AddRectFilled(rect.Min, {rect.Min.x + quarters(0.75f), rect.Max.y}, tint(Role::accent));
    draw_label(row, rect, l.label);
    const float top = std::round(rect.Min.y + rect.GetHeight() * 0.32f),
                bottom = std::round(rect.Min.y + rect.GetHeight() * 0.68f);
    draw_spans(row, l.scale, top, bottom);
    const float strip = bottom + quarters(0.5f);
    if (row.ready_from)
        draw_fade(l.scale, *row.ready_from, strip, strip + quarters(1.2f));
    if (row.best_until)
        draw_fade(l.scale, *row.best_until, strip, strip + quarters(1.2f));
    Pointer here = pointer;
    here.is_here = item.hovered;
    draw_ticks(row, l.scale, top, bottom, here, item.pressed, item.id, events, under);
    if (item.hovered && pointer.is_here) {
        events.under_pointer = record;
        if (under.words.empty() && pointer.x >= l.scale.left)
            under.words = row_words(row, pointer.day);
    }
    if (item.pressed) {
        events.selected = events.selected || axis.selected != record;
        axis.selected = record;
        give_focus(chart_id);
    }
    if (item.double_clicked)
        events.opened = true;
    if (Note* made = note(Kind::row, row.label, rect, item)) {
        made->path = made->path.substr(0, made->path.size() - made->label.size()) + std::to_string(item.id);
        made->value = row.detail.empty() ? std::string(row.words)
                                         : std::string(row.detail) + " | " + std::string(row.words);
        made->chosen = chosen;
    }
}

void draw_rows(const BandChart& chart, const Layout& l, TimeAxis& axis, ImGuiID id, BandEvents& events,
               Under& under) {
    const ImGuiWindow* window = state().context->CurrentWindow;
    const ImVec2 origin = ImGui::GetCursorScreenPos();
    const auto from = static_cast<std::size_t>(std::max(0.0f, std::floor(window->Scroll.y / l.row)));
    const auto to = std::min(chart.rows, static_cast<std::size_t>(std::ceil(
                                             (window->Scroll.y + window->InnerRect.GetHeight()) / l.row)));
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const Pointer pointer{l.body.Contains(mouse), l.scale.day(mouse.x), mouse.x, mouse.y};
    if (pointer.is_here)
        events.day_under_pointer = pointer.day;
    for (std::size_t i = from; i < to; ++i) {
        BandRow row;
        chart.fill_row(i, row);
        const float top = origin.y + l.row * static_cast<float>(i);
        draw_row(row, l, {{origin.x, top}, {l.all.Max.x, top + l.row}}, chart.record(i), axis, pointer, id,
                 events, under);
    }
    const float bottom = std::min(l.body.Max.y, origin.y + l.row * static_cast<float>(chart.rows));
    paper().AddRectFilled({l.scale.left - hair(), l.body.Min.y}, {l.scale.left, bottom}, faint_line());
    if (std::abs(axis.today - chart.real_today) > 0.5)
        draw_today(l.scale, chart.real_today, l.body.Min.y, bottom, hair());
    draw_today(l.scale, axis.today, l.body.Min.y, bottom, 2 * hair());
    reach(origin + ImVec2(0, l.row * static_cast<float>(chart.rows)));
}

std::optional<std::size_t> row_by_key(const BandChart& chart, const TimeAxis& axis, std::size_t page) {
    if (chart.rows == 0)
        return std::nullopt;
    const auto wants = [](Key key) { return state().key == key && !state().key_used; };
    if (!wants(Key::up) && !wants(Key::down) && !wants(Key::page_up) && !wants(Key::page_down))
        return std::nullopt;
    std::size_t at = 0;
    bool found = false;
    for (; at < chart.rows && !found; ++at)
        found = axis.selected == chart.record(at);
    at = found ? at - 1 : 0;
    const std::size_t last = chart.rows - 1;
    if (take_key(Key::down))
        return found ? std::min(at + 1, last) : 0;
    if (take_key(Key::up))
        return at > 0 ? at - 1 : 0;
    if (take_key(Key::page_down))
        return std::min(at + page, last);
    take_key(Key::page_up);
    return at > page ? at - page : 0;
}

void scroll_to_row(std::size_t at, float row) {
    ImGuiWindow* window = state().context->CurrentWindow;
    const float top = row * static_cast<float>(at), high = window->InnerRect.GetHeight();
    if (top < window->Scroll.y)
        ImGui::SetScrollY(window, top);
    if (top + row > window->Scroll.y + high)
        ImGui::SetScrollY(window, top + row - high);
}

} // namespace

BandEvents band_chart(const BandChart& chart, TimeAxis& axis) {
    BandEvents events;
    const Spot spot = open_spot(place().width, Claim::whole_row);
    push_name(chart.name);
    const Layout l = lay_out(chart, axis, spot);
    const ImGuiID id = id_of("rows");
    paper().AddRectFilled(l.all.Min, l.all.Max, tint(Role::panel), corner());
    ImGui::ItemAdd(l.all, id);
    const bool focused = stop_here(id, chart.name, l.all, true);
    if (focused && state().activate == id)
        state().activate = 0;
    std::optional<std::size_t> go_to;
    if (focused) {
        state().focus_is_field = state().focus_is_notes = false;
        keys(axis);
        go_to =
            row_by_key(chart, axis, static_cast<std::size_t>(std::max(1.0f, l.body.GetHeight() / l.row - 1)));
        if (go_to) {
            events.selected = axis.selected != chart.record(*go_to);
            axis.selected = chart.record(*go_to);
        }
        if (axis.selected && take_key(Key::enter))
            events.opened = true;
    }
    const bool hovered =
        ImGui::IsMouseHoveringRect(l.all.Min, l.all.Max) && state().layer == state().top_layer;
    const bool zooms = hovered && state().wheel != 0 && has(state().mods, Mods::ctrl);
    if (zooms)
        zoom(axis, std::pow(0.87, static_cast<double>(state().wheel)),
             l.scale.day(ImGui::GetIO().MousePos.x));
    draw_head(chart, l, axis, events);

    Under under;
    put_cursor(l.body.Min);
    ImGui::BeginChild("body", l.body.GetSize(), false,
                      ImGuiWindowFlags_NoNav | (zooms ? ImGuiWindowFlags_NoScrollWithMouse : 0));
    if (chart.rows == 0) {
        draw(l.body.Min + ImVec2(quarters(4), quarters(5)), chart.when_empty, tint(Role::quiet), {},
             l.body.GetWidth() - quarters(8));
        note_words(chart.when_empty, l.body.Min, l.body.GetSize());
    } else {
        draw_rows(chart, l, axis, id, events, under);
    }
    if (go_to)
        scroll_to_row(*go_to, l.row);
    ImGui::EndChild();
    paper().AddRect(l.all.Min, l.all.Max, focused && state().focus_by_key ? tint(Role::accent) : faint_line(),
                    corner(), 0, (focused && state().focus_by_key ? 2 : 1) * hair());
    tip_for(!under.words.empty(), under.words);
    if (Note* made = note(Kind::text, chart.name, l.all, id)) {
        made->value = std::to_string(chart.rows) + (chart.rows == 1 ? " row" : " rows");
        made->focused = focused;
    }
    pop_name();
    close_spot(spot, spot.width, l.all.GetHeight());
    return events;
}

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
