#include "ui/widgets/board_parts.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui::inner {

const Placed* Placing::find(std::optional<std::int64_t> id) const {
    const auto here =
        std::find_if(cards.begin(), cards.end(), [&](const Placed& p) { return id == p.card.id; });
    return here == cards.end() ? nullptr : &*here;
}

const AddPlace* Placing::find(std::optional<BoardCell> cell) const {
    const auto here =
        std::find_if(adds.begin(), adds.end(), [&](const AddPlace& p) { return cell == p.cell; });
    return here == adds.end() ? nullptr : &*here;
}

BoardSizes sizes_of(const Board& board, float width) {
    BoardSizes s{};
    s.pad = quarters(1.5f);
    s.gap = quarters(1);
    s.head = line() + quarters(3);
    s.name = line() + quarters(0.5f);
    const float spare =
        (width - ImGui::GetStyle().ScrollbarSize) / static_cast<float>(std::max(1, board.days));
    s.day = std::floor(std::max(px(Length{9.25f}), spare));
    return s;
}

namespace {

/// How far the cards of each line's day reach below the line's name.
using Filled = std::vector<float>;

/// Tops of the lines: as high as their fullest day, with room to press below it; what height is spare is
/// shared among them.
std::vector<float> tops_of(const Board& board, const BoardSizes& s, const Filled& filled, float height) {
    const auto days = static_cast<std::size_t>(std::max(1, board.days));
    std::vector<float> heights;
    float all = 0;
    for (std::size_t l = 0; l < board.lines.size(); ++l) {
        const auto first = filled.begin() + static_cast<std::ptrdiff_t>(l * days);
        const float fullest = *std::max_element(first, first + static_cast<std::ptrdiff_t>(days));
        const float room = board.may_add ? touch() + s.gap : s.gap;
        heights.push_back(s.name + std::max(fullest + 2 * s.gap + room, px(Length{5})));
        all += heights.back();
    }
    const float spare =
        heights.empty() ? 0 : std::max(0.0f, height - all) / static_cast<float>(heights.size());
    std::vector<float> tops{0};
    for (const float one : heights)
        tops.push_back(tops.back() + std::floor(one + spare));
    return tops;
}

void place_adds(const Board& board, const BoardSizes& s, const Filled& filled, Placing& placing) {
    const int days = std::max(1, board.days);
    for (int l = 0; l < static_cast<int>(board.lines.size()); ++l)
        for (int d = 0; d < days; ++d) {
            if (!board.may_add({l, d}))
                continue;
            const float reached = filled[static_cast<std::size_t>(l) * static_cast<std::size_t>(days) +
                                         static_cast<std::size_t>(d)];
            const float left = s.day * static_cast<float>(d) + s.gap;
            const auto line_at = static_cast<std::size_t>(l);
            placing.adds.push_back({{l, d},
                                    {{left, placing.tops[line_at] + s.name + s.gap + reached},
                                     {left + s.day - 2 * s.gap, placing.tops[line_at + 1] - s.gap}},
                                    reached <= 0});
        }
}

} // namespace

Placing place_cards(const Board& board, const BoardSizes& s, float height) {
    Placing placing;
    placing.cards.reserve(board.cards);
    const auto days = static_cast<std::size_t>(std::max(1, board.days));
    Filled filled(board.lines.size() * days, 0);
    for (std::size_t i = 0; i < board.cards; ++i) {
        const CardPlace card = board.place_card(i);
        if (card.day < 0 || card.day >= board.days || card.line < 0 ||
            card.line >= static_cast<int>(board.lines.size()))
            continue;
        float& at = filled[static_cast<std::size_t>(card.line) * days + static_cast<std::size_t>(card.day)];
        const float high = card_height(card), left = s.day * static_cast<float>(card.day) + s.gap;
        placing.cards.push_back(
            {card, i, {{left, at + s.gap}, {left + s.day - 2 * s.gap, at + s.gap + high}}});
        at += high + s.gap;
    }
    placing.tops = tops_of(board, s, filled, height);
    for (Placed& placed : placing.cards)
        placed.rect.Translate({0, placing.tops[static_cast<std::size_t>(placed.card.line)] + s.name});
    if (board.may_add)
        place_adds(board, s, filled, placing);
    return placing;
}

namespace {

/// How far away something lies in a direction; none: not in that direction.
std::optional<float> cost_of(const ImRect& from, const ImRect& to, ImVec2 way) {
    const ImVec2 step = to.GetCenter() - from.GetCenter();
    const float along = step.x * way.x + step.y * way.y,
                across = std::abs(step.x * way.y) + std::abs(step.y * way.x);
    return along <= 1 ? std::nullopt : std::optional(along + 3 * across);
}

/// The cards' upper parts are compared, so that a long card does not lie further away than a short one.
ImRect upper_part(const ImRect& rect) {
    return {rect.Min, {rect.Max.x, std::min(rect.Max.y, rect.Min.y + 3 * line())}};
}

} // namespace

Neighbour neighbour(const Placing& placing, const BoardState& from, ImVec2 way) {
    const Placed* card = placing.find(from.selected);
    const AddPlace* empty = card ? nullptr : placing.find(from.cell);
    if (!card && !empty) {
        if (!placing.cards.empty())
            return {&placing.cards.front(), nullptr};
        return {nullptr, placing.adds.empty() ? nullptr : &placing.adds.front()};
    }
    const ImRect here = upper_part(card ? card->rect : empty->rect);
    Neighbour best;
    float least = 0;
    for (const Placed& other : placing.cards)
        if (const auto cost = cost_of(here, upper_part(other.rect), way);
            cost && (!best.card || *cost < least)) {
            best.card = &other;
            least = *cost;
        }
    for (const AddPlace& other : placing.adds) {
        const auto cost = other.is_empty ? cost_of(here, upper_part(other.rect), way) : std::nullopt;
        if (cost && ((!best.card && !best.empty) || *cost < least)) {
            best = {nullptr, &other};
            least = *cost;
        }
    }
    return best;
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
        const auto cost = cost_of(here->rect, other.rect, way);
        if (cost && (!best || *cost < best_cost)) {
            best = &other;
            best_cost = *cost;
        }
    }
    return best;
}

void draw_day_heads(const Board& board, const BoardSizes& s, const ImRect& head, float scroll) {
    paper().AddRectFilled(head.Min, head.Max, tint(Role::raised), corner(), ImDrawFlags_RoundCornersTop);
    ImGui::PushClipRect(head.Min, head.Max, true);
    for (int d = 0; d < board.days; ++d) {
        const Day day = board.first_day + Days{d};
        const bool is_today = day == board.today;
        const float left = head.Min.x + s.day * static_cast<float>(d) - scroll;
        if (left + s.day < head.Min.x || left > head.Max.x)
            continue;
        std::string words = (is_today ? "Today, " : "") + short_day(day);
        if (measure(words, {TextSize::text, Weight::bold}).x > s.day - s.gap - s.pad)
            words = short_day(day);
        const ImVec2 at{left + s.gap + s.pad, head.Min.y + std::round((head.GetHeight() - line()) / 2)};
        draw(at, words, tint(is_today ? Role::accent : Role::ink), {TextSize::text, Weight::bold});
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
    ImGui::PushClipRect(body.Min, body.Max, true);
    for (std::size_t l = 0; l < board.lines.size(); ++l) {
        // The name stays in view as long as its line does.
        const float top = body.Min.y + placing.tops[l] - scroll,
                    below = body.Min.y + placing.tops[l + 1] - scroll;
        const float y = std::min(std::max(top, body.Min.y), below - s.name);
        const ImRect band{{body.Min.x, y}, {body.Max.x, y + s.name}};
        if (!band.Overlaps(body))
            continue;
        paper().AddRectFilled(band.Min, band.Max, mix(Role::ground, Role::panel, 0.5f));
        paper().AddRectFilled({band.Min.x, band.Max.y}, {band.Max.x, band.Max.y + hair()}, faint_line());
        const ImVec2 at{band.Min.x + s.gap + s.pad, y + quarters(0.25f)};
        const Words bold{TextSize::text, Weight::bold};
        const float name = std::min(measure(board.lines[l], bold).x, band.GetWidth() * 0.5f);
        draw_clipped(at, name, board.lines[l], tint(Role::ink), bold);
        note_words(board.lines[l], at, {name, line()});
        if (l >= board.line_notes.size())
            continue;
        const ImVec2 note_at{at.x + name + quarters(3), at.y};
        draw_clipped(note_at, band.Max.x - note_at.x - s.pad, board.line_notes[l], tint(Role::quiet));
        note_words(board.line_notes[l], note_at, {measure(board.line_notes[l]).x, line()});
    }
    ImGui::PopClipRect();
}

} // namespace mellowbin::ui::inner
