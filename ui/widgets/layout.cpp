#include "ui/widgets/layout.h"

#include "core/promised.h"
#include "ui/widgets/inner.h"
#include "ui/widgets/text.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

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

void at_right(std::string_view name, Body body) {
    float& wide = state().remembered[id_of(name)]; // of the frame before; 0: not known yet
    Place& line = place();
    promised(line.kind == Place::Kind::flow);
    const float right = line.left + line.width, apart = quarters(2);
    if (wide > 0) {
        if (line.x > line.left && line.x + wide > right)
            end_line(line, 2);
        line.x = std::max(line.x, right - wide);
    }
    const float from = line.x, top = line.top;
    push_name(name);
    body();
    pop_name();
    const float now = place().x - apart - (place().top == top ? from : place().left);
    if (std::abs(now - wide) > 0.5f)
        state().quiet_frames = std::max(state().quiet_frames, 2);
    wide = std::max(0.0f, now);
}

void keep_clear_below(Length height) { state().clear_below = px(height); }

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

void bowl(Body body) {
    ++state().bowl;
    body();
    --state().bowl;
}

Length grown_with_window(float pixels) { return {grown(pixels) / em()}; }

Length width_left() { return {place().width / em()}; }
Length height_left() { return {left_height() / em()}; }

} // namespace mellowbin::ui
