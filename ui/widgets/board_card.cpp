#include "ui/widgets/board_parts.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui::inner {

namespace {

constexpr Words bold{TextSize::text, Weight::bold};

float foot_height() { return line() + quarters(0.5f); }

bool is_failing(const Card& card) {
    return std::any_of(card.feet.begin(), card.feet.end(),
                       [](const CardFoot& foot) { return foot.role == Role::stop; });
}

void draw_ground(const Card& card, const ImRect& rect, bool hovered) {
    const ImU32 ground = card.is_fixed ? mix(Role::panel, Role::raised, hovered ? 0.8f : 1)
                         : hovered     ? mix(Role::panel, Role::raised, 0.45f)
                                       : tint(Role::panel);
    paper().AddRectFilled(rect.Min, rect.Max, ground, corner());
    if (card.is_changed)
        paper().AddRectFilled(rect.Min, {rect.Min.x + quarters(0.9f), rect.Max.y}, tint(Role::accent),
                              corner(), ImDrawFlags_RoundCornersLeft);
}

void draw_edge(const Card& card, const ImRect& rect, bool chosen) {
    const ImU32 edge = chosen             ? tint(Role::accent)
                       : is_failing(card) ? tint(Role::stop)
                                          : mix(Role::panel, Role::quiet, 0.25f);
    paper().AddRect(rect.Min, rect.Max, edge, corner(), 0, (chosen ? 3 : 1) * hair());
}

void draw_head(const Card& card, ImVec2 at, float room) {
    draw_clipped(at, room, card.title, tint(Role::ink), bold);
    at.y += line();
    float right = at.x + room;
    if (!card.remark.empty()) {
        const float wide = std::min(measure(card.remark).x, room - measure(card.amount).x - quarters(1));
        if (wide > quarters(4)) {
            right -= wide;
            draw_clipped({right, at.y}, wide, card.remark,
                         tint(card.is_changed ? Role::accent : Role::quiet));
        }
    }
    draw_clipped(at, right - at.x - quarters(0.5f), card.amount, tint(Role::ink));
}

/// What fails, on a ground of its role over the card's lower edge.
void draw_feet(const Card& card, const ImRect& rect, const BoardSizes& s) {
    float top = rect.Max.y - foot_height() * static_cast<float>(card.feet.size());
    for (std::size_t i = 0; i < card.feet.size(); ++i, top += foot_height()) {
        const CardFoot& foot = card.feet[i];
        const bool is_stop = foot.role == Role::stop;
        const ImRect strip{{rect.Min.x, top}, {rect.Max.x, top + foot_height()}};
        paper().AddRectFilled(
            strip.Min, strip.Max, is_stop ? tint(Role::stop) : mix(Role::panel, foot.role, 0.14f), corner(),
            i + 1 == card.feet.size() ? ImDrawFlags_RoundCornersBottom : ImDrawFlags_RoundCornersNone);
        const float room = rect.GetWidth() - 2 * s.pad;
        std::string words = std::string(sign(foot.role)) + " " + std::string(foot.words);
        if (measure(words, bold).x > room)
            words = foot.words;
        draw_clipped(strip.Min + ImVec2(s.pad, quarters(0.25f)), room, words,
                     is_stop ? tint(Role::panel) : tint(foot.role), bold);
    }
}

/// Draws what stands in the card; gives the lot under the pointer.
std::optional<std::int64_t> draw_contents(const Card& card, const ImRect& rect, const BoardSizes& s,
                                          std::optional<std::int64_t> lot, bool hovered) {
    const float room = rect.GetWidth() - 2 * s.pad;
    ImVec2 at = rect.Min + ImVec2(s.pad, quarters(1));
    draw_head(card, at, room);
    at.y += 2 * line();
    const auto under = draw_shares(card, at, room, lot, hovered);
    draw_feet(card, rect, s);
    return under;
}

} // namespace

float card_height(const CardPlace& card) {
    float height = 2 * quarters(1) + 2 * line();
    height += share_height() * static_cast<float>(card.shares);
    height += foot_height() * static_cast<float>(card.feet);
    return std::round(height);
}

void draw_card(const CardPlace& place, const Card& card, const ImRect& rect, const BoardSizes& s,
               BoardState& own, BoardEvents& events) {
    const Pressable item = list_item(place.id, "card", rect);
    const bool chosen = own.selected == place.id;
    const bool is_in_hand =
        own.hand && own.hand->by != BoardHand::By::press && own.hand->what.card == place.id;
    draw_ground(card, rect, item.hovered);
    const auto under = draw_contents(card, rect, s, chosen ? own.lot : std::nullopt, item.hovered);
    draw_edge(card, rect, chosen);
    if (is_in_hand && !own.hand->what.lot) // it is lifted: pale where it stood
        paper().AddRectFilled(rect.Min, rect.Max, tint(Role::panel, 0.6f), corner());
    if (item.pressed && (!own.hand || own.hand->by == BoardHand::By::press)) {
        const ImVec2 mouse = ImGui::GetIO().MousePos;
        own.hand = BoardHand{{place.id, under}, BoardHand::By::press, {}, mouse.x, mouse.y};
    }
    if (item.double_clicked)
        events.opened = true;
    tip_for(item.hovered && !own.hand, words_of(card));
    if (Note* made = note_item(Kind::card, card.title, rect, item, chosen))
        made->value = words_of(card);
}

void draw_add_place(const Board& board, const AddPlace& place, ImVec2 origin, const BoardState& own,
                    BoardEvents& events) {
    ImRect rect = place.rect;
    rect.Translate(origin);
    if (!rect.Overlaps(state().context->CurrentWindow->ClipRect))
        return;
    const auto line_name = board.lines[static_cast<std::size_t>(place.cell.line)];
    const std::string label = std::string(board.add_words) + ": " + std::string(line_name) + ", " +
                              short_day(board.first_day + Days{place.cell.day});
    const Pressable item =
        pressable(label, rect, {.enabled = !own.hand, .stops = Stops::no, .by_key = false});
    const bool chosen = own.cell == place.cell;
    if (item.hovered || chosen) {
        const ImRect box{rect.Min,
                         {rect.Max.x, std::min(rect.Max.y, rect.Min.y + std::max(touch(), 3 * line()))}};
        paper().AddRectFilled(box.Min, box.Max, tint(Role::raised), corner());
        if (chosen)
            paper().AddRect(box.Min, box.Max, tint(Role::accent), corner(), 0, 3 * hair());
        const ImVec2 size = measure(board.add_words, bold);
        const float room = box.GetWidth() - quarters(2);
        draw_clipped({box.GetCenter().x - std::min(size.x, room) / 2, box.GetCenter().y - size.y / 2}, room,
                     board.add_words, tint(Role::accent), bold);
    }
    if (item.pressed)
        events.added = place.cell;
    note(Kind::marker, label, rect, item);
}

} // namespace mellowbin::ui::inner
