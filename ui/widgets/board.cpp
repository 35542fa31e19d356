#include "ui/widgets/board_parts.h"
#include "ui/widgets/chart.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

using namespace inner;

namespace {

/// A card and where it stands, known before it is drawn so that rows are as high as their fullest day.
struct Placed {
    Card card;
    ImRect rect; ///< from the board's upper left corner
};

BoardSizes sizes_of(const Board& board, float width) {
    BoardSizes s{};
    s.label = measure("Line", {TextSize::text, Weight::bold}).x;
    for (const std::string_view words : board.lines)
        s.label = std::max(s.label, measure(words, {TextSize::text, Weight::bold}).x);
    s.label = std::min(s.label + quarters(5), std::round(width * 0.25f));
    s.pad = quarters(1.5f);
    s.gap = quarters(1);
    s.head = line() + quarters(3);
    const float spare =
        (width - s.label - ImGui::GetStyle().ScrollbarSize) / static_cast<float>(std::max(1, board.days));
    s.day = std::floor(std::max(px(Length{8.75f}), spare));
    return s;
}

struct Placing {
    std::vector<Placed> cards;
    std::vector<float> tops; ///< of the lines, one more than lines
};

Placing place_cards(const Board& board, const BoardSizes& s) {
    Placing placing;
    const auto days = static_cast<std::size_t>(std::max(1, board.days));
    std::vector<float> filled(board.lines.size() * days, 0);
    for (std::size_t i = 0; i < board.cards; ++i) {
        Card card{};
        board.fill_card(i, card);
        if (card.day < 0 || card.day >= board.days || card.line < 0 ||
            card.line >= static_cast<int>(board.lines.size()))
            continue;
        float& at = filled[static_cast<std::size_t>(card.line) * days + static_cast<std::size_t>(card.day)];
        const float height = card_height(card, s), left = s.day * static_cast<float>(card.day) + s.gap;
        placing.cards.push_back(
            {card, {{left, at + s.gap}, {left + s.day - 2 * s.gap, at + s.gap + height}}});
        at += height + s.gap;
    }
    float top = 0;
    for (std::size_t l = 0; l < board.lines.size(); ++l) {
        placing.tops.push_back(top);
        const auto first = filled.begin() + static_cast<std::ptrdiff_t>(l * days);
        top += std::max(*std::max_element(first, first + static_cast<std::ptrdiff_t>(days)) + 2 * s.gap,
                        px(Length{5}));
    }
    placing.tops.push_back(top);
    for (Placed& placed : placing.cards)
        placed.rect.Translate({0, placing.tops[static_cast<std::size_t>(placed.card.line)]});
    return placing;
}

/// The next card from the selected one in a direction: nearest along it, then across.
const Placed* neighbour(const std::vector<Placed>& cards, std::optional<std::int64_t> selected, ImVec2 way) {
    if (cards.empty())
        return nullptr;
    const auto here =
        std::find_if(cards.begin(), cards.end(), [&](const Placed& p) { return selected == p.card.id; });
    if (here == cards.end())
        return &cards.front();
    const Placed* best = nullptr;
    float best_cost = 0;
    for (const Placed& other : cards) {
        const ImVec2 to = other.rect.GetCenter() - here->rect.GetCenter();
        const float along = to.x * way.x + to.y * way.y,
                    across = std::abs(to.x * way.y) + std::abs(to.y * way.x);
        if (along <= 1)
            continue;
        const float cost = along + 3 * across;
        if (!best || cost < best_cost) {
            best = &other;
            best_cost = cost;
        }
    }
    return best;
}

const Placed* card_by_key(const std::vector<Placed>& cards, std::optional<std::int64_t> selected) {
    if (take_key(Key::left))
        return neighbour(cards, selected, {-1, 0});
    if (take_key(Key::right))
        return neighbour(cards, selected, {1, 0});
    if (take_key(Key::up))
        return neighbour(cards, selected, {0, -1});
    if (take_key(Key::down))
        return neighbour(cards, selected, {0, 1});
    return nullptr;
}

void draw_days(const Board& board, const BoardSizes& s, const ImRect& head, float scroll) {
    paper().AddRectFilled(head.Min, head.Max, tint(Role::raised), corner(), ImDrawFlags_RoundCornersTop);
    ImGui::PushClipRect({head.Min.x + s.label, head.Min.y}, head.Max, true);
    for (int d = 0; d < board.days; ++d) {
        const Day day = board.first_day + Days{d};
        const bool is_today = day == board.today;
        const float left = head.Min.x + s.label + s.day * static_cast<float>(d) - scroll;
        std::string words = short_day(day) + (is_today ? " · today" : "");
        if (measure(words, {TextSize::text, Weight::bold}).x > s.day - s.gap - s.pad)
            words = short_day(day);
        const ImVec2 at{left + s.gap + s.pad, head.Min.y + std::round((head.GetHeight() - line()) / 2)};
        draw(at, words, tint(is_today ? Role::accent : Role::ink),
             {TextSize::text, is_today ? Weight::bold : Weight::regular});
        if (is_today)
            paper().AddRectFilled({left + s.gap, head.Max.y - 3 * hair()}, {left + s.day - s.gap, head.Max.y},
                                  tint(Role::accent));
        // A day half out of the scrolled head is there as far as it is seen.
        const float seen = std::clamp(head.Max.x - at.x, 0.0f, measure(words).x);
        note_words(words, at, {seen, measure(words).y});
    }
    ImGui::PopClipRect();
}

void draw_ground(const Board& board, const BoardSizes& s, const Placing& placing, ImVec2 origin) {
    for (int d = 0; d <= board.days; ++d) {
        const float x = origin.x + s.day * static_cast<float>(d);
        paper().AddRectFilled({x, origin.y}, {x + hair(), origin.y + placing.tops.back()}, faint_line());
        if (d < board.days && board.first_day + Days{d} == board.today)
            paper().AddRectFilled({x, origin.y}, {x + s.day, origin.y + placing.tops.back()},
                                  tint(Role::accent, 0.06f));
    }
    for (std::size_t l = 1; l < placing.tops.size(); ++l)
        paper().AddRectFilled(
            {origin.x, origin.y + placing.tops[l]},
            {origin.x + s.day * static_cast<float>(board.days), origin.y + placing.tops[l] + hair()},
            faint_line());
}

void draw_lines(const Board& board, const BoardSizes& s, const Placing& placing, const ImRect& body,
                float scroll) {
    ImGui::PushClipRect(body.Min, {body.Min.x + s.label, body.Max.y}, true);
    for (std::size_t l = 0; l < board.lines.size(); ++l) {
        const ImVec2 at{body.Min.x + quarters(2), body.Min.y + placing.tops[l] - scroll + quarters(2)};
        draw(at, board.lines[l], tint(Role::ink), {TextSize::text, Weight::bold}, s.label - quarters(3));
        note_words(board.lines[l], at, {s.label, line()});
        const float y = body.Min.y + placing.tops[l + 1] - scroll;
        paper().AddRectFilled({body.Min.x, y}, {body.Min.x + s.label, y + hair()}, faint_line());
    }
    ImGui::PopClipRect();
}

void bring_into_view(const ImRect& rect, float gap) {
    ImGuiWindow* window = state().context->CurrentWindow;
    const ImVec2 size = window->InnerRect.GetSize();
    if (rect.Min.x < window->Scroll.x)
        ImGui::SetScrollX(window, rect.Min.x - gap);
    if (rect.Max.x > window->Scroll.x + size.x)
        ImGui::SetScrollX(window, rect.Max.x + gap - size.x);
    if (rect.Min.y < window->Scroll.y)
        ImGui::SetScrollY(window, rect.Min.y - gap);
    if (rect.Max.y > window->Scroll.y + size.y)
        ImGui::SetScrollY(window, rect.Max.y + gap - size.y);
}

} // namespace

BoardEvents board(const Board& board, BoardState& own) {
    BoardEvents events;
    const Spot spot = open_spot(place().width, Claim::whole_row);
    push_name(board.name);
    const ImGuiID id = id_of("cards");
    const BoardSizes s = sizes_of(board, spot.width);
    const Placing placing = place_cards(board, s);
    const float height =
        std::max(board.height.ems > 0 ? px(board.height) : left_height(), s.head + px(Length{8}));
    const ImRect all{spot.at, spot.at + ImVec2(spot.width, height)};
    const ImRect head{all.Min, {all.Max.x, all.Min.y + s.head}}, body{{all.Min.x, head.Max.y}, all.Max};
    paper().AddRectFilled(all.Min, all.Max, mix(Role::ground, Role::panel, 0.5f), corner());
    const bool focused = list_stop(id, board.name, all);
    const Placed* go_to = nullptr;
    if (focused) {
        go_to = card_by_key(placing.cards, own.selected);
        if (go_to)
            events.selected = own.selected != go_to->card.id;
        if (go_to)
            own.selected = go_to->card.id;
        if (own.selected && take_key(Key::enter))
            events.opened = true;
    }
    float& scroll_x = state().remembered[id + 1];
    float& scroll_y = state().remembered[id + 2];
    draw_days(board, s, head, scroll_x);

    put_cursor({body.Min.x + s.label, body.Min.y});
    ImGui::BeginChild("body", {body.GetWidth() - s.label, body.GetHeight()}, false,
                      ImGuiWindowFlags_NoNav | ImGuiWindowFlags_HorizontalScrollbar);
    const ImVec2 origin = ImGui::GetCursorScreenPos();
    draw_ground(board, s, placing, origin);
    for (const Placed& placed : placing.cards) {
        ImRect rect = placed.rect;
        rect.Translate(origin);
        if (rect.Overlaps(state().context->CurrentWindow->ClipRect))
            draw_card(placed.card, rect, s, id, own, events);
    }
    if (placing.cards.empty())
        draw_empty(board.when_empty, {{body.Min.x + s.label, body.Min.y}, body.Max});
    reach(origin + ImVec2(s.day * static_cast<float>(board.days), placing.tops.back()));
    if (go_to)
        bring_into_view(go_to->rect, s.gap);
    scroll_x = ImGui::GetScrollX();
    scroll_y = ImGui::GetScrollY();
    ImGui::EndChild();
    draw_lines(board, s, placing, body, scroll_y);
    list_edge(all, focused);
    note_list(board.name, all, id, focused, placing.cards.size(), "card");
    pop_name();
    close_spot(spot, spot.width, height);
    return events;
}

} // namespace mellowbin::ui
