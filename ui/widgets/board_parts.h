#pragma once

#include "ui/widgets/board.h"
#include "ui/widgets/chart_parts.h"
#include "ui/widgets/rows.h"

#include <vector>

namespace mellowbin::ui::inner {

/// Widths and gaps of a board.
struct BoardSizes {
    float day, head, pad, gap;
    float name; ///< height of a line's name over its days
};

/// A card and where it stands, from the board's upper left corner; known of all cards before any is drawn, so
/// that rows are as high as their fullest day.
struct Placed {
    CardPlace card;
    std::size_t at; ///< index into the board's cards
    ImRect rect;
};

/// Where a card can be added: the free part of a day.
struct AddPlace {
    BoardCell cell;
    ImRect rect;
    bool is_empty; ///< no card stands that day
};

struct Placing {
    std::vector<Placed> cards;
    std::vector<AddPlace> adds;
    std::vector<float> tops; ///< of the lines with their names, one more than lines
    const Placed* find(std::optional<std::int64_t> id) const;
    const AddPlace* find(std::optional<BoardCell> cell) const;
};

BoardSizes sizes_of(const Board& board, float width);
/// `height` is what the lines may fill: spare height is shared among them.
Placing place_cards(const Board& board, const BoardSizes& sizes, float height);
/// The next card from one in a direction: nearest along it, then across. Without one, the first.
const Placed* neighbour(const Placing& placing, std::optional<std::int64_t> from, ImVec2 way);
/// The same among cards and empty days; one of the two is not null where there is any.
struct Neighbour {
    const Placed* card = nullptr;
    const AddPlace* empty = nullptr;
};
Neighbour neighbour(const Placing& placing, const BoardState& from, ImVec2 way);

void draw_day_heads(const Board& board, const BoardSizes& sizes, const ImRect& head, float scroll);
void draw_board_ground(const Board& board, const BoardSizes& sizes, const Placing& placing, ImVec2 origin);
void draw_line_names(const Board& board, const BoardSizes& sizes, const Placing& placing, const ImRect& body,
                     float scroll);
/// The free part of a day: pressed, a card is wanted there.
void draw_add_place(const Board& board, const AddPlace& place, ImVec2 origin, const BoardState& own,
                    BoardEvents& events);

float card_height(const CardPlace& card);
/// A pressed card goes into the hand.
void draw_card(const CardPlace& place, const Card& card, const ImRect& rect, const BoardSizes& sizes,
               BoardState& own, BoardEvents& events);
/// The lots of a run, a row each. Gives the one under the pointer, where the card is under it.
std::optional<std::int64_t> draw_shares(const Card& card, ImVec2 at, float width,
                                        std::optional<std::int64_t> chosen, bool hovered);
float share_height();
std::string words_of(const Card& card);
void draw_lock(ImVec2 at, ImU32 colour);

/// One frame of carrying.
struct Carrying {
    const Board& board;
    const BoardSizes& sizes;
    const Placing& placing;
    ImVec2 origin; ///< of the board's upper left corner on the screen, scrolled
    ImRect seen;   ///< the part of it that is seen
};
/// Moves what is in the hand by keys, before the cards are drawn. True while keys belong to the hand.
bool carry_by_keys(const Board& board, const Placing& placing, bool focused, BoardState& own,
                   BoardEvents& events);
/// Moves it with the pointer and puts it down; draws where it would lie.
void carry_by_pointer(const Carrying& frame, BoardState& own, BoardEvents& events);
/// The rectangle of a place on the board, from its upper left corner.
ImRect rect_of(const Board& board, const BoardSizes& sizes, const Placing& placing, const BoardHand& hand);
/// What is carried beside the pointer, and what letting it go would do, over the lower edge of the board.
void draw_hand(const Board& board, const ImRect& all, std::string_view title, const BoardHand& hand);

} // namespace mellowbin::ui::inner
