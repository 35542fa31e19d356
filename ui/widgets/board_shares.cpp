#include "ui/widgets/board_parts.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui::inner {

namespace {

/// How ready the lot is: a small box filled as the bands are.
void draw_key(const CardShare& share, const ImRect& box) {
    if (share.is_to_come) {
        const ImVec2 a = box.Min, b = box.Max;
        const ImU32 colour = tint(Role::accent);
        draw_dashes(a, {b.x, a.y}, colour, hair());
        draw_dashes({b.x, a.y}, b, colour, hair());
        draw_dashes(b, {a.x, b.y}, colour, hair());
        draw_dashes({a.x, b.y}, a, colour, hair());
    } else if (share.texture) {
        draw_texture(box, *share.texture, box);
    }
}

void draw_share(const CardShare& share, const ImRect& row, bool is_chosen, bool is_hovered) {
    if (is_chosen || is_hovered)
        paper().AddRectFilled(row.Min, row.Max,
                              is_chosen ? tint(Role::accent, 0.16f) : tint(Role::ink, 0.05f), hair());
    if (is_chosen)
        paper().AddRect(row.Min, row.Max, tint(Role::accent), hair(), 0, hair());
    const float key = quarters(1.25f), inset = quarters(0.6f);
    draw_key(share, {{row.Min.x + hair(), row.Min.y + inset}, {row.Min.x + hair() + key, row.Max.y - inset}});
    float right = row.Max.x;
    const float y = row.Min.y;
    if (!share.amount.empty()) {
        draw_right(right, y, share.amount, tint(Role::quiet));
        right -= measure(share.amount).x + quarters(1);
    }
    if (share.is_locked) {
        draw_lock({right - quarters(1.6f), y + quarters(0.8f)}, tint(Role::quiet));
        right -= quarters(2.6f);
    }
    const float left = row.Min.x + hair() + key + quarters(1);
    draw_clipped({left, y}, right - left, share.label, tint(Role::ink));
}

} // namespace

float share_height() { return line(); }

std::optional<std::int64_t> draw_shares(const Card& card, ImVec2 at, float width,
                                        std::optional<std::int64_t> chosen, bool hovered) {
    std::optional<std::int64_t> under;
    for (const CardShare& share : card.shares) {
        const ImRect row{at, at + ImVec2(width, share_height())};
        const bool is_hovered = hovered && row.Contains(ImGui::GetIO().MousePos);
        if (is_hovered)
            under = share.lot;
        draw_share(share, row, chosen == share.lot, is_hovered);
        at.y += share_height();
    }
    return under;
}

std::string words_of(const Card& card) {
    std::string all(card.amount);
    if (!card.remark.empty())
        all += " | " + std::string(card.remark);
    for (const CardShare& share : card.shares) {
        all += " | " + std::string(share.label);
        if (!share.amount.empty())
            all += " " + std::string(share.amount);
        if (!share.words.empty())
            all += " " + std::string(share.words);
        if (share.is_locked)
            all += " locked";
    }
    for (const CardFoot& foot : card.feet)
        all += " | " + std::string(sign(foot.role)) + " " + std::string(foot.words);
    return all;
}

void draw_lock(ImVec2 at, ImU32 colour) {
    const float w = quarters(1.6f);
    paper().AddRectFilled(at + ImVec2(0, w * 0.7f), at + ImVec2(w, w * 1.6f), colour, hair());
    paper().AddCircle(at + ImVec2(w / 2, w * 0.7f), w * 0.34f, colour, 0, 1.5f * hair());
}

} // namespace mellowbin::ui::inner
