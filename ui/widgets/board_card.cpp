#include "ui/widgets/board_parts.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui::inner {

namespace {

float gauge_height() { return line(); }
float bar_height() { return line() + quarters(0.5f); }

/// The lots of a run by mass. Neighbours differ in depth, and a name stands in each part that has room for
/// it.
std::optional<std::int64_t> draw_shares(const Card& card, const ImRect& rect, bool looked_at) {
    double total = 0;
    for (const CardShare& share : card.shares)
        total += std::max(0.0, share.kg);
    if (total <= 0)
        return std::nullopt;
    static constexpr float depth[]{0.92f, 0.30f, 0.62f, 0.16f};
    std::optional<std::int64_t> under;
    float x = rect.Min.x;
    for (std::size_t i = 0; i < card.shares.size(); ++i) {
        const float width = rect.GetWidth() * static_cast<float>(std::max(0.0, card.shares[i].kg) / total);
        const ImRect part{{std::round(x), rect.Min.y}, {std::round(x + width) - hair(), rect.Max.y}};
        const float deep = depth[i % std::size(depth)];
        paper().AddRectFilled(part.Min, part.Max, mix(Role::panel, Role::accent, deep));
        const ImVec2 words = measure(card.shares[i].label);
        if (words.x + quarters(1.5f) < part.GetWidth())
            draw(part.Min + ImVec2(quarters(0.75f), (part.GetHeight() - words.y) / 2), card.shares[i].label,
                 deep > 0.55f ? tint(Role::panel) : tint(Role::ink));
        if (looked_at && part.Contains(ImGui::GetIO().MousePos))
            under = card.shares[i].lot;
        x += width;
    }
    return under;
}

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

std::string words_of(const Card& card) {
    std::string all(card.amount);
    for (const CardShare& share : card.shares)
        all += " | " + std::string(share.label);
    for (const CardGauge& gauge : card.gauges)
        all += " | " + std::string(gauge.label) + ": " + std::string(gauge.words);
    if (!card.shortage.empty())
        all += " | " + std::string(card.shortage);
    if (card.is_locked)
        all += " | locked";
    return all;
}

void draw_lock(ImVec2 at) {
    const float w = quarters(1.6f);
    paper().AddRectFilled(at + ImVec2(0, w * 0.7f), at + ImVec2(w, w * 1.6f), tint(Role::quiet), hair());
    paper().AddCircle(at + ImVec2(w / 2, w * 0.7f), w * 0.34f, tint(Role::quiet), 0, 1.5f * hair());
}

void draw_ground(const ImRect& rect, bool chosen, bool hovered) {
    paper().AddRectFilled(rect.Min, rect.Max,
                          chosen    ? mix(Role::panel, Role::accent, 0.10f)
                          : hovered ? mix(Role::panel, Role::raised, 0.45f)
                                    : tint(Role::panel),
                          corner());
}

void draw_title(const Card& card, ImVec2 at, float room) {
    const float lock = card.is_locked ? quarters(2.5f) : 0;
    draw_clipped(at, room - lock, card.title, tint(Role::ink), {TextSize::text, Weight::bold});
    if (card.is_locked)
        draw_lock({at.x + room - quarters(1.6f), at.y + quarters(0.7f)});
    draw_clipped({at.x, at.y + line()}, room, card.amount, tint(Role::quiet));
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

} // namespace

float card_height(const Card& card, const BoardSizes& s) {
    float height = 2 * s.pad + 2 * line();
    if (!card.shares.empty())
        height += bar_height() + 2 * s.gap;
    height += gauge_height() * static_cast<float>(card.gauges.size());
    if (!card.gauges.empty())
        height += s.gap;
    if (!card.shortage.empty())
        height += line() + 2 * s.gap;
    return std::round(height);
}

void draw_card(const Card& card, const ImRect& rect, const BoardSizes& s, ImGuiID board, BoardState& own,
               BoardEvents& events) {
    const Pressable item = list_item(card.id, "card", rect);
    const bool chosen = own.selected == card.id, is_short = !card.shortage.empty();
    draw_ground(rect, chosen, item.hovered);
    const float room = rect.GetWidth() - 2 * s.pad;
    ImVec2 at = rect.Min + ImVec2(s.pad, s.pad);
    draw_title(card, at, room);
    at.y += 2 * line();
    if (!card.shares.empty()) {
        at.y += s.gap;
        const auto lot = draw_shares(card, {at, at + ImVec2(room, bar_height())}, item.hovered);
        if (lot && item.pressed)
            events.lot = lot;
        at.y += bar_height() + s.gap;
    }
    draw_gauges(card, at, room);
    if (is_short)
        draw_shortage(card, rect, s, room);
    const ImU32 edge = is_short ? tint(Role::stop)
                       : chosen ? tint(Role::accent)
                                : mix(Role::panel, Role::quiet, 0.35f);
    paper().AddRect(rect.Min, rect.Max, edge, corner(), 0, (chosen || is_short ? 2 : 1) * hair());
    if (item.pressed) {
        events.selected = events.selected || own.selected != card.id;
        own.selected = card.id;
        give_focus(board);
    }
    if (item.double_clicked)
        events.opened = true;
    tip_for(item.hovered, words_of(card));
    if (Note* made = note_item(Kind::card, card.title, rect, item, chosen))
        made->value = words_of(card);
}

} // namespace mellowbin::ui::inner
