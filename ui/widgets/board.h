#pragma once

#include "core/day.h"
#include "ui/widgets/body.h"
#include "ui/widgets/chart.h"
#include "ui/widgets/theme.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

/// Lines as rows, days as columns, each run a card that names its lots. What fails, and only that, stands at
/// a card's foot. Cards and lots are carried to where they are wanted, by the pointer or by keys; an empty
/// stretch of a day takes a new card.
namespace mellowbin::ui {

/// A lot's part in a run.
struct CardShare {
    std::int64_t lot;
    std::string_view label;              ///< "W24-118"
    std::string_view amount;             ///< "450", kg; empty: the run is of this lot alone
    std::optional<Texture> texture = {}; ///< how ready it is on the run's day
    std::string_view words = {};         ///< the same in words: "mature 84 %"
    bool is_locked = false;
    bool is_to_come = false; ///< its key is dashed; the label says so, too
};

/// What fails: "84 of 85 %", "short 221 kg".
struct CardFoot {
    std::string_view words;
    Role role = Role::stop; ///< or mind
};

/// Where a card stands and how high it is: all that is asked of the cards out of sight.
struct CardPlace {
    std::int64_t id;
    int line; ///< index into Board::lines
    int day;  ///< index from Board::first_day
    int shares = 0, feet = 0;
};

/// What a card shows. The views are borrowed until the board returns.
struct Card {
    std::string_view title;       ///< product
    std::string_view amount = {}; ///< "1 200 kg"
    std::string_view remark = {}; ///< "fixed", "changed", "locked": right of the amount
    std::span<const CardShare> shares = {};
    std::span<const CardFoot> feet = {};
    bool is_fixed = false;   ///< on raised ground: no plan changes it
    bool is_changed = false; ///< a thick bar at the left
};

/// What is carried over the board: a card, or one lot's part of it.
struct Carried {
    std::int64_t card;
    std::optional<std::int64_t> lot = {};
};

/// A day of a line.
struct BoardCell {
    int line = 0; ///< index into Board::lines
    int day = 0;  ///< index from Board::first_day
    friend bool operator==(const BoardCell&, const BoardCell&) = default;
};

/// Where it would come to lie.
struct DropPlace {
    int line = -1, day = -1;               ///< -1: beside the board
    int place = 1;                         ///< from 1, among the cards there other than the one carried
    std::optional<std::int64_t> onto = {}; ///< the card there: a lot's part is put on a card
};

/// What letting it go there would do, in words.
struct DropWords {
    enum class Would { move, stay, be_refused };
    Would would = Would::stay;
    std::string words;
};

struct Board {
    std::string_view name; ///< "Plan"
    std::span<const std::string_view> lines;
    std::span<const std::string_view> line_notes = {}; ///< beside their names: "7 runs, 7 480 kg flour"
    Day first_day;
    int days = 7;
    Day today;
    std::size_t cards = 0;
    FunctionRef<CardPlace(std::size_t)> place_card;        ///< of all cards, in the order of a line's day
    FunctionRef<void(std::size_t, Card&)> fill_card;       ///< of those that are seen only
    FunctionRef<DropWords(Carried, DropPlace)> judge = {}; ///< none: nothing can be carried
    FunctionRef<bool(BoardCell)> may_add = {};             ///< none: no card can be added
    std::string_view add_words = "Add a run";
    std::string_view when_empty = "No runs in these days.";
    Length height = {}; ///< zero: what is left
};

/// What is in the hand, and how it got there.
struct BoardHand {
    enum class By {
        press,   ///< pressed, not moved yet: a tap, if it is let go now
        pointer, ///< dragged: put down where the pointer lets go
        keys,    ///< picked up: arrows choose the place, Enter or a tap puts it down
    };
    Carried what;
    By by = By::press;
    DropPlace over = {};
    float from_x = 0, from_y = 0; ///< where it was pressed
};

/// The view's own part of a board.
struct BoardState {
    std::optional<std::int64_t> selected = {}; ///< card
    std::optional<std::int64_t> lot = {};      ///< the part of the selected card that was chosen
    std::optional<BoardCell> cell = {};        ///< an empty day that the arrows came to; no card is selected
    bool show_selected = false;                ///< set it to scroll to the selected card once
    bool takes_focus = false;                  ///< set it to give the board the focus once
    std::optional<BoardHand> hand = {};

    /// To be carried by keys or to the next tap. Escape, or resetting `hand`, leaves it where it is.
    void pick_up(Carried what);
};

struct BoardEvents {
    bool selected = false;           ///< state.selected is new
    bool opened = false;             ///< Enter or a double click
    std::optional<BoardCell> added;  ///< a card is wanted here: a press on the empty part of a day, or +
    std::optional<std::int64_t> lot; ///< a lot's part was tapped
    struct Drop {
        Carried what;
        DropPlace where;
    };
    std::optional<Drop> dropped; ///< where `judge` said it would move
};

/// One stop of the Tab ring: arrows move the selection between cards and empty days, Space goes through the
/// lots of a card, Enter opens a card or adds one to an empty day, + adds one beside the chosen card. Cards
/// and lots are dragged; Escape leaves them where they were.
BoardEvents board(const Board& board, BoardState& state);

} // namespace mellowbin::ui
