#include "ui/widgets/layout.h"

#include "ui/widgets/inner.h"
#include "ui/widgets/text.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

namespace inner {

Place& place() { return state().places.back(); }

void push_place(Place::Kind kind, float left, float width) {
    const float top = ImGui::GetCursorScreenPos().y;
    Place made;
    made.kind = kind;
    made.left = made.x = left;
    made.width = width;
    made.top = made.bottom = made.reached = top;
    state().places.push_back(made);
}

void pop_place() { state().places.pop_back(); }

void put_cursor(ImVec2 at) {
    ImGuiWindow* window = state().context->CurrentWindow;
    window->DC.CursorPos = at;
    window->DC.CurrLineSize = window->DC.PrevLineSize = {0, 0};
}

void reach(ImVec2 corner_at) {
    ImGuiWindow* window = state().context->CurrentWindow;
    window->DC.CursorMaxPos = ImMax(window->DC.CursorMaxPos, corner_at);
}

namespace {

constexpr float between = 2; // quarters of a line between neighbours

void end_line(Place& p, float gap) {
    if (p.x > p.left || p.column > 0 || p.bottom > p.top)
        p.top = p.bottom + quarters(gap);
    p.x = p.left;
    p.column = 0;
    p.box_drop = 0;
    p.bottom = p.top;
}

Spot spot_in_flow(Place& p, float natural, Claim claim, float drop) {
    const float wanted = claim == Claim::whole_row ? p.width : std::min(natural, p.width);
    if (p.x > p.left && p.x + wanted > p.left + p.width + 0.5f)
        end_line(p, between);
    p.box_drop = std::max(p.box_drop, drop);
    const float lower = drop > 0 || claim == Claim::whole_row ? 0 : p.box_drop;
    return {{p.x, p.top + lower}, std::max(1.0f, p.left + p.width - p.x)};
}

Spot spot_in_grid(Place& p, Claim claim) {
    if (claim == Claim::whole_row || p.whole_rows > 0) {
        end_line(p, between);
        return {{p.left, p.top}, p.width};
    }
    if (p.column == p.columns)
        end_line(p, between);
    const float step = p.cell + quarters(4);
    return {{std::round(p.left + step * static_cast<float>(p.column)), p.top}, p.cell};
}

} // namespace

Spot open_spot(float natural, Claim claim, float drop_to_box) {
    Place& p = place();
    Spot spot{};
    switch (p.kind) {
    case Place::Kind::stack:
        spot = {{p.left, ImGui::GetCursorScreenPos().y}, p.width};
        break;
    case Place::Kind::flow:
        spot = spot_in_flow(p, natural, claim, drop_to_box);
        break;
    case Place::Kind::grid:
        spot = spot_in_grid(p, claim);
        break;
    }
    put_cursor(spot.at);
    return spot;
}

void close_spot(const Spot& spot, float width, float height, float gap) {
    Place& p = place();
    const ImVec2 end = spot.at + ImVec2(width, height);
    reach(end);
    p.reached = std::max(p.reached, end.y);
    if (p.kind == Place::Kind::stack) {
        put_cursor({p.left, end.y + quarters(gap)});
        return;
    }
    p.bottom = std::max(p.bottom, end.y);
    if (p.kind == Place::Kind::flow) {
        p.x = end.x + quarters(2);
    } else if (p.whole_rows > 0 || (spot.width > p.cell + 1 && p.columns > 1)) {
        end_line(p, gap);
    } else {
        ++p.column;
    }
    put_cursor({p.left, p.bottom});
}

void scrolling(std::string_view name, const ImRect& rect, float pad, Body body) {
    put_cursor(rect.Min);
    const std::string id(name.empty() ? "place" : name);
    ImGui::BeginChild(id.c_str(), rect.GetSize(), false, ImGuiWindowFlags_NoNav);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    // Room for the bar only while there is one: without it there is more width, so it cannot come back by
    // itself.
    const float bar =
        state().context->CurrentWindow->ScrollbarY ? ImGui::GetStyle().ScrollbarSize + quarters(1) : 0;
    const float room = std::max(0.0f, bar - pad);
    put_cursor(at + ImVec2(pad, pad));
    push_place(Place::Kind::stack, at.x + pad, rect.GetWidth() - 2 * pad - room);
    body();
    reach({at.x, place().reached + pad});
    pop_place();
    ImGui::EndChild();
}

void begin_layer(std::string_view name, ImU32 veil) {
    Frame::State& s = state();
    const ImGuiIO& io = ImGui::GetIO();
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize(io.DisplaySize);
    const std::string id = "##layer " + std::to_string(s.layer + 1) + std::string(name);
    ImGui::Begin(id.c_str(), nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                     ImGuiWindowFlags_NoBackground | ImGuiWindowFlags_NoScrollWithMouse |
                     ImGuiWindowFlags_NoNav);
    if (veil)
        paper().AddRectFilled({0, 0}, io.DisplaySize, veil);
    ++s.layer;
    s.layers_drawn = std::max(s.layers_drawn, s.layer);
    if (s.focus.size() <= static_cast<std::size_t>(s.layer))
        s.focus.resize(static_cast<std::size_t>(s.layer) + 1, 0);
    push_place(Place::Kind::stack, 0, io.DisplaySize.x);
}

void end_layer() {
    pop_place();
    --state().layer;
    ImGui::End();
}

float left_height() {
    const ImGuiWindow* window = state().context->CurrentWindow;
    const float bottom = window->InnerRect.Max.y;
    return std::max(0.0f, bottom - ImGui::GetCursorScreenPos().y);
}

void push_name(std::string_view name) {
    state().names.emplace_back(name);
    const char* begin =
        name.data() ? name.data() : ""; // an empty view may have none, and Dear ImGui reads on
    ImGui::PushID(begin, begin + name.size());
}

void pop_name() {
    ImGui::PopID();
    state().names.pop_back();
}

} // namespace inner

using namespace inner;

namespace {

/// What stands in a card: padding all round, title on top. Returns its height.
float card_contents(std::string_view title, ImVec2 at, float width, Body body) {
    const ImVec2 pad{quarters(3), quarters(3)};
    put_cursor(at + pad);
    push_place(Place::Kind::stack, at.x + pad.x, width - 2 * pad.x);
    push_name(title);
    if (!title.empty())
        heading(title);
    if (body)
        body();
    const float bottom = place().reached;
    pop_name();
    pop_place();
    return bottom - at.y + pad.y;
}

void card(std::string_view title, Body body, ImU32 fill, ImU32 edge, float edge_width) {
    const Spot spot = open_spot(place().width);
    ImDrawListSplitter splitter;
    splitter.Split(&paper(), 2);
    splitter.SetCurrentChannel(&paper(), 1);
    const ImVec2 inset{edge_width, 0};
    const float height = card_contents(title, spot.at + inset, spot.width - edge_width, body);
    splitter.SetCurrentChannel(&paper(), 0);
    const ImRect rect{spot.at, spot.at + ImVec2(spot.width, height)};
    paper().AddRectFilled(rect.Min, rect.Max, fill, corner());
    if (edge_width > 0)
        paper().AddRectFilled(rect.Min, {rect.Min.x + edge_width, rect.Max.y}, edge, corner(),
                              ImDrawFlags_RoundCornersLeft);
    paper().AddRect(rect.Min, rect.Max, edge_width > 0 ? edge : faint_line(), corner(), 0, hair());
    splitter.Merge(&paper());
    close_spot(spot, spot.width, height, 3);
}

} // namespace

void gap(int n) {
    Place& p = place();
    if (p.kind != Place::Kind::stack) {
        end_line(p, static_cast<float>(n));
        return;
    }
    put_cursor(ImGui::GetCursorScreenPos() + ImVec2(0, quarters(static_cast<float>(n))));
}

void rule() {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const float y = std::round(spot.at.y + quarters(1));
    paper().AddRectFilled({spot.at.x, y}, {spot.at.x + spot.width, y + hair()}, faint_line());
    close_spot(spot, spot.width, quarters(2) + hair(), 1);
}

void panel(std::string_view title, Body body) { card(title, body, tint(Role::panel), 0, 0); }

void loud_panel(Role role, std::string_view title, Body body) {
    card(title, body, mix(Role::panel, role, 0.08f), tint(role), quarters(1.5f));
}

void filling_panel(std::string_view title, Body body) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const float height = std::max(left_height(), px(Length{8}));
    const ImRect rect{spot.at, spot.at + ImVec2(spot.width, height)};
    paper().AddRectFilled(rect.Min, rect.Max, tint(Role::panel), corner());
    paper().AddRect(rect.Min, rect.Max, faint_line(), corner(), 0, hair());
    push_name(title);
    scrolling(title, rect, quarters(3), [&] {
        if (!title.empty())
            heading(title);
        body();
    });
    pop_name();
    close_spot(spot, spot.width, height, 0);
}

void scroll_area(std::string_view name, Length height, Body body) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const float high = height.ems > 0 ? px(height) : std::max(left_height(), px(Length{6}));
    push_name(name);
    scrolling(name, {spot.at, spot.at + ImVec2(spot.width, high)}, 0, body);
    pop_name();
    close_spot(spot, spot.width, high);
}

void panes(std::initializer_list<Pane> panes) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    const float high = std::max(left_height(), px(Length{8}));
    const float space = quarters(3);
    float least = space * static_cast<float>(panes.size() - 1), shares = 0;
    for (const Pane& pane : panes) {
        least += px(pane.least);
        shares += pane.share;
    }
    if (least > spot.width) {
        scrolling("panes", {spot.at, spot.at + ImVec2(spot.width, high)}, 0, [&] {
            for (const Pane& pane : panes) {
                push_name(pane.name);
                pane.body();
                pop_name();
            }
        });
        close_spot(spot, spot.width, high, 0);
        return;
    }
    const float spare = spot.width - least;
    float x = spot.at.x;
    for (const Pane& pane : panes) {
        const float width = std::floor(px(pane.least) + spare * pane.share / shares);
        push_name(pane.name);
        scrolling(pane.name, {{x, spot.at.y}, {x + width, spot.at.y + high}}, 0, pane.body);
        pop_name();
        x += width + space;
    }
    close_spot(spot, spot.width, high, 0);
}

void flow(Body body) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    push_place(Place::Kind::flow, spot.at.x, spot.width);
    body();
    const float bottom = place().reached;
    pop_place();
    close_spot(spot, spot.width, bottom - spot.at.y);
}

void grid(Length least, Body body) {
    const Spot spot = open_spot(place().width, Claim::whole_row);
    push_place(Place::Kind::grid, spot.at.x, spot.width);
    Place& p = place();
    const float space = quarters(4);
    p.columns = std::max(1, static_cast<int>((spot.width + space) / (px(least) + space)));
    p.cell =
        std::floor((spot.width - space * static_cast<float>(p.columns - 1)) / static_cast<float>(p.columns));
    body();
    const float bottom = place().reached;
    pop_place();
    close_spot(spot, spot.width, bottom - spot.at.y);
}

void whole_row(Body body) {
    ++place().whole_rows;
    const std::size_t at = state().places.size() - 1;
    stack({}, body);
    --state().places[at].whole_rows;
}

void stack(Length width, Body body) {
    const Spot spot = open_spot(width.ems > 0 ? px(width) : place().width);
    const float wide = width.ems > 0 ? std::min(px(width), spot.width) : spot.width;
    push_place(Place::Kind::stack, spot.at.x, wide);
    body();
    const float bottom = place().reached;
    pop_place();
    close_spot(spot, wide, std::max(0.0f, bottom - spot.at.y));
}

void scope(std::int64_t record, Body body) {
    push_name(std::to_string(record));
    body();
    pop_name();
}

void scope(std::string_view name, Body body) {
    push_name(name);
    body();
    pop_name();
}

void form(std::string_view name, Body body) {
    push_name(name);
    state().forms.push_back(id_of("form"));
    body();
    state().forms.pop_back();
    pop_name();
}

void large(Body body) {
    ++state().large;
    body();
    --state().large;
}

Length width_left() { return {place().width / em()}; }
Length height_left() { return {left_height() / em()}; }

} // namespace mellowbin::ui
