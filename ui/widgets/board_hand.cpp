#include "ui/widgets/board_parts.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::ui {

void BoardState::pick_up(Carried what) {
    hand = BoardHand{what, BoardHand::By::keys, {}, 0, 0};
    takes_focus = true;
}

namespace inner {
namespace {

using By = BoardHand::By;

/// The cards of a line's day but the one that is carried, from the top.
std::vector<const Placed*> others_in(const Placing& placing, int line, int day, std::int64_t carried) {
    std::vector<const Placed*> others;
    for (const Placed& placed : placing.cards)
        if (placed.card.line == line && placed.card.day == day && placed.card.id != carried)
            others.push_back(&placed);
    return others;
}

int count_in(const Placing& placing, const DropPlace& over, std::int64_t carried) {
    return static_cast<int>(others_in(placing, over.line, over.day, carried).size());
}

/// Where the card stands now.
DropPlace place_of_card(const Placing& placing, std::int64_t id) {
    const Placed* here = placing.find(id);
    if (!here)
        return {};
    DropPlace place{here->card.line, here->card.day, 1, id};
    for (const Placed* other : others_in(placing, place.line, place.day, id))
        place.place += other->rect.Min.y < here->rect.Min.y ? 1 : 0;
    return place;
}

DropPlace place_under(const Carrying& f, ImVec2 mouse, std::int64_t carried) {
    const ImVec2 at = mouse - f.origin;
    const int day = static_cast<int>(std::floor(at.x / f.sizes.day));
    if (!f.seen.Contains(mouse) || day < 0 || day >= f.board.days || at.y < 0 ||
        at.y >= f.placing.tops.back())
        return {};
    const auto& tops = f.placing.tops;
    const auto below = std::upper_bound(tops.begin(), tops.end(), at.y);
    DropPlace place{static_cast<int>(below - tops.begin()) - 1, day};
    for (const Placed* other : others_in(f.placing, place.line, day, carried))
        place.place += other->rect.GetCenter().y < at.y ? 1 : 0;
    for (const Placed& placed : f.placing.cards)
        if (placed.rect.Contains(at))
            place.onto = placed.card.id;
    return place;
}

void step_day(const Board& board, const Placing& placing, BoardHand& hand, int step) {
    hand.over.day = std::clamp(hand.over.day + step, 0, board.days - 1);
    hand.over.place = std::min(hand.over.place, count_in(placing, hand.over, hand.what.card) + 1);
}

/// Along the cards of a day, and on to the next line at its end.
void step_place(const Board& board, const Placing& placing, BoardHand& hand, int step) {
    DropPlace& over = hand.over;
    const int last = count_in(placing, over, hand.what.card) + 1;
    over.place += step;
    if (over.place < 1 && over.line > 0) {
        --over.line;
        over.place = count_in(placing, over, hand.what.card) + 1;
    } else if (over.place > last && over.line + 1 < static_cast<int>(board.lines.size())) {
        ++over.line;
        over.place = 1;
    }
    over.place = std::clamp(over.place, 1, count_in(placing, over, hand.what.card) + 1);
}

void step_card(const Placing& placing, BoardHand& hand, ImVec2 way) {
    const Placed* next = neighbour(placing, hand.over.onto, way);
    if (next)
        hand.over = place_of_card(placing, next->card.id);
}

void step(const Board& board, const Placing& placing, BoardHand& hand, int days, int places) {
    if (hand.what.lot)
        step_card(placing, hand, {static_cast<float>(days), static_cast<float>(places)});
    else if (days != 0)
        step_day(board, placing, hand, days);
    else
        step_place(board, placing, hand, places);
}

bool may_drop(const Board& board, const BoardHand& hand) {
    return board.judge(hand.what, hand.over).would == DropWords::Would::move;
}

/// Near an edge of what is seen, the board moves on under the pointer.
void scroll_at_edges(const Carrying& f, ImVec2 mouse) {
    const float edge = quarters(6), step = quarters(2);
    ImGuiWindow* window = state().context->CurrentWindow;
    ImVec2 by{0, 0};
    by.x = mouse.x < f.seen.Min.x + edge ? -step : mouse.x > f.seen.Max.x - edge ? step : 0;
    by.y = mouse.y < f.seen.Min.y + edge ? -step : mouse.y > f.seen.Max.y - edge ? step : 0;
    const ImVec2 to{std::clamp(window->Scroll.x + by.x, 0.0f, window->ScrollMax.x),
                    std::clamp(window->Scroll.y + by.y, 0.0f, window->ScrollMax.y)};
    if (to.x == window->Scroll.x && to.y == window->Scroll.y)
        return;
    ImGui::SetScrollX(window, to.x);
    ImGui::SetScrollY(window, to.y);
    state().quiet_frames = std::max(state().quiet_frames, 2);
}

void draw_target(const Carrying& f, const BoardHand& hand) {
    const auto would = f.board.judge(hand.what, hand.over).would;
    if (hand.over.line < 0 || hand.over.day < 0)
        return;
    const Role role = would == DropWords::Would::be_refused ? Role::stop : Role::accent;
    ImRect rect = rect_of(f.board, f.sizes, f.placing, hand);
    rect.Translate(f.origin);
    if (hand.what.lot) {
        if (hand.over.onto)
            paper().AddRect(rect.Min, rect.Max, tint(role), corner(), 0, 3 * hair());
        return;
    }
    const ImVec2 cell = f.origin + ImVec2(f.sizes.day * static_cast<float>(hand.over.day),
                                          f.placing.tops[static_cast<std::size_t>(hand.over.line)]);
    const ImVec2 end{cell.x + f.sizes.day,
                     f.origin.y + f.placing.tops[static_cast<std::size_t>(hand.over.line) + 1]};
    paper().AddRectFilled(cell, end, tint(role, 0.10f));
    paper().AddRect(cell, end, tint(role), 0, 0, 2 * hair());
    if (would == DropWords::Would::be_refused)
        draw_dashes(rect.Min, {rect.Max.x, rect.Min.y}, tint(role), 4 * hair());
    else
        paper().AddRectFilled(rect.Min, rect.Max, tint(role), hair());
}

void tap(const BoardHand& hand, BoardState& own, BoardEvents& events) {
    events.selected = own.selected != hand.what.card;
    own.selected = hand.what.card;
    own.cell.reset();
    own.lot = hand.what.lot;
    events.lot = hand.what.lot;
    own.takes_focus = true;
}

} // namespace

ImRect rect_of(const Board& board, const BoardSizes& s, const Placing& placing, const BoardHand& hand) {
    if (hand.what.lot) {
        const Placed* onto = placing.find(hand.over.onto);
        return onto ? onto->rect : ImRect{};
    }
    if (hand.over.line < 0 || hand.over.line >= static_cast<int>(board.lines.size()))
        return {};
    const auto others = others_in(placing, hand.over.line, hand.over.day, hand.what.card);
    const float left = s.day * static_cast<float>(hand.over.day) + s.gap;
    const float top = placing.tops[static_cast<std::size_t>(hand.over.line)] + s.name;
    const int before = hand.over.place - 2; // the card above the place
    const float y = before >= 0 && before < static_cast<int>(others.size())
                        ? others[static_cast<std::size_t>(before)]->rect.Max.y
                        : top;
    return {{left, y}, {left + s.day - 2 * s.gap, y + 4 * hair()}};
}

bool carry_by_keys(const Board& board, const Placing& placing, bool focused, BoardState& own,
                   BoardEvents& events) {
    if (!own.hand || !board.judge || state().layer != state().top_layer)
        return false;
    if (take_key(Key::escape)) {
        own.hand.reset();
        return true;
    }
    BoardHand& hand = *own.hand;
    if (hand.by != By::keys)
        return false;
    if (hand.over.line < 0)
        hand.over = place_of_card(placing, hand.what.card);
    if (!focused)
        return true;
    if (take_key(Key::left))
        step(board, placing, hand, -1, 0);
    if (take_key(Key::right))
        step(board, placing, hand, 1, 0);
    if (take_key(Key::up))
        step(board, placing, hand, 0, -1);
    if (take_key(Key::down))
        step(board, placing, hand, 0, 1);
    if ((take_key(Key::enter) || take_key(Key::space)) && may_drop(board, hand)) {
        events.dropped = BoardEvents::Drop{hand.what, hand.over};
        own.hand.reset();
    }
    return true;
}

void carry_by_pointer(const Carrying& f, BoardState& own, BoardEvents& events) {
    if (!own.hand)
        return;
    BoardHand& hand = *own.hand;
    const ImGuiIO& io = ImGui::GetIO();
    const float way = std::max(std::abs(io.MousePos.x - hand.from_x), std::abs(io.MousePos.y - hand.from_y));
    if (hand.by == By::press && f.board.judge && way > quarters(2))
        hand.by = By::pointer;
    if (hand.by == By::press) {
        if (ImGui::IsMouseDown(0))
            return;
        tap(hand, own, events);
        own.hand.reset();
        return;
    }
    const bool is_dragged = hand.by == By::pointer;
    // Picked up by key, it follows the pointer only where that moves or taps.
    const bool is_led =
        is_dragged || (f.seen.Contains(io.MousePos) &&
                       (io.MouseDelta.x != 0 || io.MouseDelta.y != 0 || ImGui::IsMouseClicked(0)));
    if (is_led)
        hand.over = place_under(f, io.MousePos, hand.what.card);
    if (is_dragged)
        scroll_at_edges(f, io.MousePos);
    draw_target(f, hand);
    const bool is_tapped = !is_dragged && ImGui::IsMouseClicked(0) && f.seen.Contains(io.MousePos);
    const bool is_let_go = is_dragged && !ImGui::IsMouseDown(0);
    if ((is_let_go || is_tapped) && may_drop(f.board, hand))
        events.dropped = BoardEvents::Drop{hand.what, hand.over};
    if (is_let_go || events.dropped)
        own.hand.reset();
}

void draw_hand(const Board& board, const ImRect& all, std::string_view title, const BoardHand& hand) {
    if (hand.by == By::press)
        return;
    const DropWords told = board.judge(hand.what, hand.over);
    const bool is_refused = told.would == DropWords::Would::be_refused;
    const Role role = is_refused ? Role::stop : Role::accent;
    std::string words = is_refused ? std::string(sign(Role::stop)) + " " + told.words : told.words;
    if (hand.by == By::keys)
        words += " Arrows choose, Enter or a tap puts it there, Escape leaves it.";
    ImDrawList& over = *ImGui::GetForegroundDrawList();
    const Typeface face = state().fonts.face(TextSize::text, Weight::bold);
    const float pad = quarters(2), width = all.GetWidth() - 2 * quarters(2);
    const Words bold{TextSize::text, Weight::bold};
    const ImVec2 size = measure(words, bold, width - 2 * pad);
    const ImVec2 at{all.Min.x + quarters(2), all.Max.y - size.y - 2 * pad - quarters(4)};
    over.AddRectFilled(at, at + ImVec2(width, size.y + 2 * pad), tint(role), corner());
    ImVec2 pen = at + ImVec2(pad, pad);
    note_words(words, pen, size);
    for (const std::string_view one : lines_of(words, face, width - 2 * pad)) {
        if (!one.empty())
            over.AddText(face.font, face.size, pen, tint(Role::panel), one.data(), one.data() + one.size());
        pen.y += face.size;
    }
    if (hand.by != By::pointer)
        return;
    const ImVec2 mouse = ImGui::GetIO().MousePos, name = measure(title, bold);
    const ImVec2 ghost = mouse + ImVec2(quarters(2), quarters(2));
    over.AddRectFilled(ghost, ghost + name + ImVec2(2 * pad, 2 * pad), tint(Role::panel, 0.92f), corner());
    over.AddRect(ghost, ghost + name + ImVec2(2 * pad, 2 * pad), tint(role), corner(), 0, 2 * hair());
    over.AddText(face.font, face.size, ghost + ImVec2(pad, pad), tint(Role::ink), title.data(),
                 title.data() + title.size());
}

} // namespace inner
} // namespace mellowbin::ui
