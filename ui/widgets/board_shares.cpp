#include "ui/widgets/board_parts.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui::inner {

namespace {

float bar_height() { return line() + quarters(1); }
float maturity_height() { return quarters(0.75f); }

double total_of(const Card& card) {
    double total = 0;
    for (const CardShare& share : card.shares)
        total += std::max(0.0, share.kg);
    return total;
}

/// Flour that is still to come is an outline; of flour in stock neighbours differ in depth.
void draw_part(const CardShare& share, const ImRect& part, std::size_t at) {
    static constexpr float depth[]{0.92f, 0.30f, 0.62f, 0.16f};
    const float deep = share.is_to_come ? 0 : depth[at % std::size(depth)];
    if (share.is_to_come) {
        const ImVec2 half{hair() / 2, hair() / 2};
        const ImVec2 a = part.Min + half, b = part.Max - half;
        draw_dashes(a, {b.x, a.y}, tint(Role::accent), 2 * hair());
        draw_dashes({b.x, a.y}, b, tint(Role::accent), 2 * hair());
        draw_dashes(b, {a.x, b.y}, tint(Role::accent), 2 * hair());
        draw_dashes({a.x, b.y}, a, tint(Role::accent), 2 * hair());
    } else {
        paper().AddRectFilled(part.Min, part.Max, mix(Role::panel, Role::accent, deep));
    }
    const ImU32 ink = deep > 0.55f ? tint(Role::panel) : tint(Role::ink);
    float room = part.GetWidth() - quarters(1.5f);
    if (share.is_locked && room > quarters(2)) {
        draw_lock({part.Max.x - quarters(2.2f), part.Min.y + quarters(1)}, ink);
        room -= quarters(2.4f);
    }
    const ImVec2 words = measure(share.label);
    const ImVec2 at_words = part.Min + ImVec2(quarters(0.75f), (part.GetHeight() - words.y) / 2);
    if (words.x <= room)
        draw(at_words, share.label, ink);
    else if (room > quarters(9))
        draw_clipped(at_words, room, share.label, ink);
}

void draw_maturity(const CardShare& share, const ImRect& part) {
    if (!share.maturity)
        return;
    const float top = part.Max.y + quarters(0.5f);
    const ImVec2 from{part.Min.x, top}, to{part.Max.x, top + maturity_height()};
    paper().AddRectFilled(from, to, mix(Role::panel, Role::quiet, 0.25f));
    const float filled = part.GetWidth() * static_cast<float>(std::clamp(*share.maturity, 0.0, 1.0));
    paper().AddRectFilled(from, {from.x + filled, to.y}, tint(Role::model));
}

} // namespace

float shares_height() { return bar_height() + quarters(0.5f) + maturity_height(); }

std::optional<std::int64_t> draw_shares(const Card& card, const ImRect& bar, float touch_pad,
                                        std::optional<std::int64_t> chosen) {
    const double total = total_of(card);
    std::optional<std::int64_t> under;
    float x = bar.Min.x;
    for (std::size_t i = 0; total > 0 && i < card.shares.size(); ++i) {
        const CardShare& share = card.shares[i];
        const float width = bar.GetWidth() * static_cast<float>(std::max(0.0, share.kg) / total);
        const ImRect part{{std::round(x), bar.Min.y},
                          {std::round(x + width) - hair(), bar.Min.y + bar_height()}};
        draw_part(share, part, i);
        draw_maturity(share, part);
        if (chosen == share.lot)
            paper().AddRect(part.Min - ImVec2(hair(), hair()), part.Max + ImVec2(hair(), hair()),
                            tint(Role::ink), 0, 0, 2 * hair());
        ImRect touched = part;
        touched.Expand({0, touch_pad});
        if (touched.Contains(ImGui::GetIO().MousePos))
            under = share.lot;
        x += width;
    }
    return under;
}

std::string words_of(const Card& card) {
    std::string all(card.amount);
    if (!card.remark.empty())
        all += " | " + std::string(card.remark);
    for (const CardShare& share : card.shares) {
        all += " | " + std::string(share.label);
        if (share.maturity)
            all += " mature " + std::to_string(std::lround(*share.maturity * 100)) + " %";
        if (share.is_locked)
            all += " locked";
    }
    for (const CardGauge& gauge : card.gauges)
        all += " | " + std::string(gauge.label) + ": " + std::string(gauge.words);
    if (!card.shortage.empty())
        all += " | " + std::string(card.shortage);
    if (card.is_locked)
        all += " | locked";
    return all;
}

void draw_lock(ImVec2 at, ImU32 colour) {
    const float w = quarters(1.6f);
    paper().AddRectFilled(at + ImVec2(0, w * 0.7f), at + ImVec2(w, w * 1.6f), colour, hair());
    paper().AddCircle(at + ImVec2(w / 2, w * 0.7f), w * 0.34f, colour, 0, 1.5f * hair());
}

} // namespace mellowbin::ui::inner
