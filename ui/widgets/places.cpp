#include "ui/widgets/inner.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui::inner {

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

void end_line(Place& p, float gap) {
    if (p.x > p.left || p.column > 0 || p.bottom > p.top)
        p.top = p.bottom + quarters(gap);
    p.x = p.left;
    p.column = 0;
    p.box_drop = 0;
    p.bottom = p.top;
}

namespace {

constexpr float between = 2; // quarters of a line between neighbours

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
    // As if nothing were scrolled: what fills the place must not grow while it is scrolled away.
    return std::max(0.0f, bottom - ImGui::GetCursorScreenPos().y - window->Scroll.y);
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

} // namespace mellowbin::ui::inner
