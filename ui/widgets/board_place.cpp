#include "ui/widgets/board_parts.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui::inner {

const Placed* Placing::find(std::optional<std::int64_t> id) const {
    const auto here =
        std::find_if(cards.begin(), cards.end(), [&](const Placed& p) { return id == p.card.id; });
    return here == cards.end() ? nullptr : &*here;
}

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

Placing place_cards(const Board& board, const BoardSizes& s) {
    Placing placing;
    placing.cards.reserve(board.cards);
    const auto days = static_cast<std::size_t>(std::max(1, board.days));
    std::vector<float> filled(board.lines.size() * days, 0);
    for (std::size_t i = 0; i < board.cards; ++i) {
        const CardPlace card = board.place_card(i);
        if (card.day < 0 || card.day >= board.days || card.line < 0 ||
            card.line >= static_cast<int>(board.lines.size()))
            continue;
        float& at = filled[static_cast<std::size_t>(card.line) * days + static_cast<std::size_t>(card.day)];
        const float height = card_height(card, s), left = s.day * static_cast<float>(card.day) + s.gap;
        placing.cards.push_back(
            {card, i, {{left, at + s.gap}, {left + s.day - 2 * s.gap, at + s.gap + height}}});
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

const Placed* neighbour(const Placing& placing, std::optional<std::int64_t> from, ImVec2 way) {
    if (placing.cards.empty())
        return nullptr;
    const Placed* here = placing.find(from);
    if (!here)
        return &placing.cards.front();
    const Placed* best = nullptr;
    float best_cost = 0;
    for (const Placed& other : placing.cards) {
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

void draw_day_heads(const Board& board, const BoardSizes& s, const ImRect& head, float scroll) {
    paper().AddRectFilled(head.Min, head.Max, tint(Role::raised), corner(), ImDrawFlags_RoundCornersTop);
    ImGui::PushClipRect({head.Min.x + s.label, head.Min.y}, head.Max, true);
    for (int d = 0; d < board.days; ++d) {
        const Day day = board.first_day + Days{d};
        const bool is_today = day == board.today;
        const float left = head.Min.x + s.label + s.day * static_cast<float>(d) - scroll;
        if (left + s.day < head.Min.x || left > head.Max.x)
            continue;
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

void draw_board_ground(const Board& board, const BoardSizes& s, const Placing& placing, ImVec2 origin) {
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

void draw_line_names(const Board& board, const BoardSizes& s, const Placing& placing, const ImRect& body,
                     float scroll) {
    ImGui::PushClipRect(body.Min, {body.Min.x + s.label, body.Max.y}, true);
    for (std::size_t l = 0; l < board.lines.size(); ++l) {
        // The name stays in view as long as its line does.
        const float top = body.Min.y + placing.tops[l] - scroll,
                    below = body.Min.y + placing.tops[l + 1] - scroll;
        const float y = std::min(std::max(top, body.Min.y), below - line() - quarters(3)) + quarters(2);
        const ImVec2 at{body.Min.x + quarters(2), y};
        draw_clipped(at, s.label - quarters(3), board.lines[l], tint(Role::ink),
                     {TextSize::text, Weight::bold});
        note_words(board.lines[l], at, {s.label - quarters(2), line()});
        paper().AddRectFilled({body.Min.x, below}, {body.Min.x + s.label, below + hair()}, faint_line());
    }
    ImGui::PopClipRect();
}

} // namespace mellowbin::ui::inner
