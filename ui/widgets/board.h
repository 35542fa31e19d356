#pragma once

#include "core/day.h"
#include "ui/widgets/body.h"
#include "ui/widgets/theme.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

/// Lines as rows, days as columns, each run a card with its lots as a stacked bar by mass. Cards and lots are
/// carried to where they are wanted, by the pointer or by keys.
namespace mellowbin::ui {

/// A lot's part in a run.
struct CardShare {
    std::int64_t lot;
    std::string_view label; ///< "W24-118"
    double kg;
    std::optional<double> maturity = {}; ///< 0 to 1, drawn as a line under the part
    bool is_locked = false;
    bool is_to_come = false; ///< drawn as an outline; the label says so, too
};

/// Strength, windows, law: a small bar with its word.
struct CardGauge {
    std::string_view label;
    std::string_view words; ///< "in", "0.4 below", "at limit"
    double fill;            ///< 0 to 1
    Role role;
};

/// Where a card stands and how high it is: all that is asked of the cards out of sight.
struct CardPlace {
    std::int64_t id;
    int line; ///< index into Board::lines
    int day;  ///< index from Board::first_day
    bool has_shares = false, has_remark = false, is_short = false;
    int gauges = 0;
};

/// What a card shows. The views are borrowed until the board returns.
struct Card {
    std::string_view title;       ///< product
    std::string_view amount = {}; ///< "1 200 kg"
    std::span<const CardShare> shares = {};
    std::span<const CardGauge> gauges = {};
    std::string_view remark = {};   ///< "frozen", "changed"
    std::string_view shortage = {}; ///< "short 340 kg"; the loudest thing on the board
    bool is_locked = false;
    bool is_frozen = false;  ///< a dashed edge
    bool is_changed = false; ///< a thick bar at the left and a diamond before the remark
};

/// What is carried over the board: a card, or one lot's part of it.
struct Carried {
    std::int64_t card;
    std::optional<std::int64_t> lot = {};
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
    Day first_day;
    int days = 7;
    Day today;
    std::size_t cards = 0;
    FunctionRef<CardPlace(std::size_t)> place_card;        ///< of all cards, in the order of a line's day
    FunctionRef<void(std::size_t, Card&)> fill_card;       ///< of those that are seen only
    FunctionRef<DropWords(Carried, DropPlace)> judge = {}; ///< none: nothing can be carried
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
    bool show_selected = false;                ///< set it to scroll to the selected card once
    bool takes_focus = false;                  ///< set it to give the board the focus once
    std::optional<BoardHand> hand = {};

    /// To be carried by keys or to the next tap. Escape, or resetting `hand`, leaves it where it is.
    void pick_up(Carried what);
};

struct BoardEvents {
    bool selected = false;           ///< state.selected is new
    bool opened = false;             ///< Enter or a double click
    std::optional<std::int64_t> lot; ///< a lot's part was tapped
    struct Drop {
        Carried what;
        DropPlace where;
    };
    std::optional<Drop> dropped; ///< where `judge` said it would move
};

/// One stop of the Tab ring: arrows move the selection between cards, Space goes through the lots of a card,
/// Enter opens. Cards and lots are dragged; Escape leaves them where they were.
BoardEvents board(const Board& board, BoardState& state);

} // namespace mellowbin::ui
