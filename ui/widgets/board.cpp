#include "ui/widgets/board.h"

#include "ui/widgets/board_parts.h"

#include <algorithm>

namespace mellowbin::ui {

using namespace inner;

namespace {

Neighbour next_by_key(const Placing& placing, const BoardState& own) {
    if (take_key(Key::left))
        return neighbour(placing, own, {-1, 0});
    if (take_key(Key::right))
        return neighbour(placing, own, {1, 0});
    if (take_key(Key::up))
        return neighbour(placing, own, {0, -1});
    if (take_key(Key::down))
        return neighbour(placing, own, {0, 1});
    return {};
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
        ImGui::SetScrollY(window, std::min(rect.Min.y - gap, rect.Max.y + gap - size.y));
    state().quiet_frames = std::max(state().quiet_frames, 2);
}

/// The lot after the one chosen; after the last, none.
void next_lot(const Board& board, const Placing& placing, BoardState& own) {
    const Placed* here = placing.find(own.selected);
    if (!here)
        return;
    Card card{};
    board.fill_card(here->at, card);
    const auto is_chosen = [&](const CardShare& share) { return own.lot == share.lot; };
    const auto now = std::find_if(card.shares.begin(), card.shares.end(), is_chosen);
    const auto next = now == card.shares.end() ? card.shares.begin() : now + 1;
    own.lot = next == card.shares.end() ? std::nullopt : std::optional(next->lot);
}

void choose(const Neighbour& next, BoardState& own, BoardEvents& events) {
    const auto card = next.card ? std::optional(next.card->card.id) : std::nullopt;
    events.selected = own.selected != card;
    own.selected = card;
    own.cell = next.empty ? std::optional(next.empty->cell) : std::nullopt;
    own.lot.reset();
}

/// The day to which Enter or + would add a card.
std::optional<BoardCell> cell_to_add(const Board& board, const Placing& placing, const BoardState& own) {
    const Placed* card = placing.find(own.selected);
    const auto cell = card ? std::optional(BoardCell{card->card.line, card->card.day}) : own.cell;
    return cell && board.may_add && board.may_add(*cell) ? cell : std::nullopt;
}

/// Keys of the board itself. Gives the rectangle to bring into view.
std::optional<ImRect> keys(const Board& board, const Placing& placing, BoardState& own, BoardEvents& events) {
    const Neighbour next = next_by_key(placing, own);
    if (next.card || next.empty)
        choose(next, own, events);
    if (own.selected && take_key(Key::enter))
        events.opened = true;
    if (own.selected && take_key(Key::space))
        next_lot(board, placing, own);
    const auto cell = cell_to_add(board, placing, own);
    if (cell && (take_key(Key::plus) || (own.cell && take_key(Key::enter))))
        events.added = cell;
    if (next.card)
        return next.card->rect;
    return next.empty ? std::optional(next.empty->rect) : std::nullopt;
}

std::string title_of(const Board& board, const Placing& placing, Carried what) {
    const Placed* here = placing.find(what.card);
    if (!here)
        return {};
    Card card{};
    board.fill_card(here->at, card);
    for (const CardShare& share : card.shares)
        if (what.lot == share.lot)
            return std::string(share.label);
    return std::string(card.title);
}

/// The cards that are seen, filled one by one.
void draw_cards(const Board& board, const BoardSizes& s, const Placing& placing, ImVec2 origin,
                BoardState& own, BoardEvents& events) {
    for (const AddPlace& place : placing.adds)
        draw_add_place(board, place, origin, own, events);
    for (const Placed& placed : placing.cards) {
        ImRect rect = placed.rect;
        rect.Translate(origin);
        if (!rect.Overlaps(state().context->CurrentWindow->ClipRect))
            continue;
        Card card{};
        board.fill_card(placed.at, card);
        draw_card(placed.card, card, rect, s, own, events);
    }
}

struct Scroll {
    float &x, &y;
};

void draw_body(const Board& board, const BoardSizes& s, const Placing& placing, const ImRect& body,
               const std::optional<ImRect>& go_to, Scroll scroll, BoardState& own, BoardEvents& events) {
    put_cursor(body.Min);
    ImGui::BeginChild("body", body.GetSize(), false,
                      ImGuiWindowFlags_NoNav | ImGuiWindowFlags_HorizontalScrollbar);
    const ImVec2 origin = ImGui::GetCursorScreenPos();
    draw_board_ground(board, s, placing, origin);
    draw_cards(board, s, placing, origin, own, events);
    const bool by_keys = own.hand && own.hand->by == BoardHand::By::keys;
    const DropPlace before = by_keys ? own.hand->over : DropPlace{};
    carry_by_pointer({board, s, placing, origin, state().context->CurrentWindow->InnerRect}, own, events);
    if (placing.cards.empty())
        draw_empty(board.when_empty, body);
    reach(origin + ImVec2(s.day * static_cast<float>(board.days), placing.tops.back()));
    if (by_keys && own.hand && state().key && before.line == own.hand->over.line)
        bring_into_view(rect_of(board, s, placing, *own.hand), s.gap);
    if (go_to)
        bring_into_view(*go_to, s.gap + s.name);
    scroll.x = ImGui::GetScrollX();
    scroll.y = ImGui::GetScrollY();
    draw_line_names(board, s, placing, state().context->CurrentWindow->InnerRect, scroll.y);
    ImGui::EndChild();
}

} // namespace

BoardEvents board(const Board& board, BoardState& own) {
    BoardEvents events;
    const Spot spot = open_spot(place().width, Claim::whole_row);
    push_name(board.name);
    const ImGuiID id = id_of("cards");
    const BoardSizes s = sizes_of(board, spot.width);
    const float height =
        std::max(board.height.ems > 0 ? px(board.height) : left_height(), s.head + px(Length{8}));
    const bool is_wider = s.day * static_cast<float>(board.days) > spot.width;
    const Placing placing =
        place_cards(board, s, height - s.head - (is_wider ? ImGui::GetStyle().ScrollbarSize : 0));
    const ImRect all{spot.at, spot.at + ImVec2(spot.width, height)};
    const ImRect head{all.Min, {all.Max.x, all.Min.y + s.head}}, body{{all.Min.x, head.Max.y}, all.Max};
    paper().AddRectFilled(all.Min, all.Max, mix(Role::ground, Role::panel, 0.5f), corner());
    const bool focused = list_stop(id, board.name, all);
    if (own.hand && !placing.find(own.hand->what.card))
        own.hand.reset(); // what was carried is gone
    const bool is_carried = carry_by_keys(board, placing, focused, own, events);
    auto go_to = focused && !is_carried ? keys(board, placing, own, events) : std::nullopt;
    if (const Placed* chosen = own.show_selected ? placing.find(own.selected) : nullptr)
        go_to = chosen->rect;
    own.show_selected = false;
    float& scroll_x = state().remembered[id + 1];
    float& scroll_y = state().remembered[id + 2];
    draw_day_heads(board, s, head, scroll_x);
    draw_body(board, s, placing, body, go_to, {scroll_x, scroll_y}, own, events);
    if (own.hand)
        draw_hand(board, all, title_of(board, placing, own.hand->what), *own.hand);
    if (own.takes_focus)
        give_focus(id);
    own.takes_focus = false;
    list_edge(all, focused);
    note_list(board.name, all, id, focused, placing.cards.size(), "card");
    pop_name();
    close_spot(spot, spot.width, height);
    return events;
}

} // namespace mellowbin::ui
