#include "ui/widgets/board_parts.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui::inner {

namespace {

float gauge_height() { return line(); }

void draw_gauge(const CardGauge& gauge, ImVec2 at, float width, float label) {
    const float words_left = at.x + width - quarters(3);
    draw_clipped(at, label - quarters(0.5f), gauge.label, tint(Role::quiet));
    const float middle = std::round(at.y + line() / 2), thick = quarters(0.6f);
    const ImRect track{{at.x + label, middle - thick}, {words_left - quarters(0.5f), middle + thick}};
    paper().AddRectFilled(track.Min, track.Max, tint(Role::raised), thick);
    const float filled = track.GetWidth() * static_cast<float>(std::clamp(gauge.fill, 0.0, 1.0));
    if (filled > 0)
        paper().AddRectFilled(track.Min, {track.Min.x + std::max(filled, 2 * thick), track.Max.y},
                              tint(gauge.role), thick);
    draw({words_left + quarters(0.5f), at.y}, sign(gauge.role), tint(gauge.role));
}

void draw_ground(const Card& card, const ImRect& rect, bool chosen, bool hovered) {
    paper().AddRectFilled(rect.Min, rect.Max,
                          chosen           ? mix(Role::panel, Role::accent, 0.10f)
                          : hovered        ? mix(Role::panel, Role::raised, 0.45f)
                          : card.is_frozen ? mix(Role::panel, Role::raised, 0.65f)
                                           : tint(Role::panel),
                          corner());
    if (card.is_changed)
        paper().AddRectFilled(rect.Min, {rect.Min.x + quarters(0.9f), rect.Max.y}, tint(Role::accent),
                              corner(), ImDrawFlags_RoundCornersLeft);
}

void draw_edge(const Card& card, const ImRect& rect, bool chosen) {
    const bool is_short = !card.shortage.empty();
    const ImU32 edge = is_short ? tint(Role::stop)
                       : chosen ? tint(Role::accent)
                                : mix(Role::panel, Role::quiet, card.is_frozen ? 0.9f : 0.35f);
    const float thick = (chosen || is_short ? 2 : 1) * hair();
    if (!card.is_frozen) {
        paper().AddRect(rect.Min, rect.Max, edge, corner(), 0, thick);
        return;
    }
    const ImVec2 a = rect.Min, b = rect.Max;
    draw_dashes(a, {b.x, a.y}, edge, thick);
    draw_dashes({b.x, a.y}, b, edge, thick);
    draw_dashes(b, {a.x, b.y}, edge, thick);
    draw_dashes({a.x, b.y}, a, edge, thick);
}

void draw_title(const Card& card, ImVec2 at, float room) {
    const float lock = card.is_locked ? quarters(2.5f) : 0;
    draw_clipped(at, room - lock, card.title, tint(Role::ink), {TextSize::text, Weight::bold});
    if (card.is_locked)
        draw_lock({at.x + room - quarters(1.6f), at.y + quarters(0.7f)}, tint(Role::quiet));
    draw_clipped({at.x, at.y + line()}, room, card.amount, tint(Role::quiet));
}

void draw_remark(const Card& card, ImVec2 at, float room) {
    float indent = 0;
    if (card.is_changed) {
        const float r = quarters(0.9f);
        const ImVec2 c{at.x + r, at.y + line() / 2};
        paper().AddQuadFilled({c.x - r, c.y}, {c.x, c.y - r}, {c.x + r, c.y}, {c.x, c.y + r},
                              tint(Role::accent));
        indent = 2 * r + quarters(1);
    }
    draw_clipped({at.x + indent, at.y}, room - indent, card.remark,
                 tint(card.is_changed ? Role::accent : Role::quiet));
}

void draw_gauges(const Card& card, ImVec2 at, float room) {
    float label = 0;
    for (const CardGauge& gauge : card.gauges)
        label = std::max(label, measure(gauge.label).x + quarters(1.5f));
    for (const CardGauge& gauge : card.gauges) {
        draw_gauge(gauge, at, room, std::min(label, room - quarters(6.5f)));
        at.y += gauge_height();
    }
}

void draw_shortage(const Card& card, const ImRect& rect, const BoardSizes& s, float room) {
    const ImRect strip{{rect.Min.x, rect.Max.y - line() - 2 * s.gap}, rect.Max};
    paper().AddRectFilled(strip.Min, strip.Max, tint(Role::stop), corner(), ImDrawFlags_RoundCornersBottom);
    const Words bold{TextSize::text, Weight::bold};
    std::string words = std::string(sign(Role::stop)) + " " + std::string(card.shortage);
    if (measure(words, bold).x > room)
        words = card.shortage;
    draw_clipped(strip.Min + ImVec2(s.pad, s.gap), room, words, tint(Role::panel), bold);
}

/// Draws what stands in the card; gives the lot's part under the pointer.
std::optional<std::int64_t> draw_contents(const Card& card, const ImRect& rect, const BoardSizes& s,
                                          std::optional<std::int64_t> lot) {
    const float room = rect.GetWidth() - 2 * s.pad;
    ImVec2 at = rect.Min + ImVec2(s.pad, s.pad);
    std::optional<std::int64_t> under;
    draw_title(card, at, room);
    at.y += 2 * line();
    if (!card.remark.empty()) {
        draw_remark(card, at, room);
        at.y += line();
    }
    if (!card.shares.empty()) {
        at.y += s.gap;
        // A finger needs 44 px: above and below the bar count as the bar.
        const float pad = std::max(0.0f, std::round((touch() - shares_height()) / 2));
        under = draw_shares(card, {at, at + ImVec2(room, shares_height())}, pad, lot);
        at.y += shares_height() + s.gap;
    }
    draw_gauges(card, at, room);
    if (!card.shortage.empty())
        draw_shortage(card, rect, s, room);
    return under;
}

} // namespace

float card_height(const CardPlace& card, const BoardSizes& s) {
    float height = 2 * s.pad + 2 * line();
    if (card.has_remark)
        height += line();
    if (card.has_shares)
        height += shares_height() + 2 * s.gap;
    height += gauge_height() * static_cast<float>(card.gauges);
    if (card.gauges > 0)
        height += s.gap;
    if (card.is_short)
        height += line() + 2 * s.gap;
    return std::round(height);
}

void draw_card(const CardPlace& place, const Card& card, const ImRect& rect, const BoardSizes& s,
               BoardState& own, BoardEvents& events) {
    const Pressable item = list_item(place.id, "card", rect);
    const bool chosen = own.selected == place.id;
    const bool is_in_hand =
        own.hand && own.hand->by != BoardHand::By::press && own.hand->what.card == place.id;
    draw_ground(card, rect, chosen, item.hovered);
    const auto under = draw_contents(card, rect, s, chosen ? own.lot : std::nullopt);
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

} // namespace mellowbin::ui::inner
