#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::ui {

/// What a person would call the thing on the screen.
enum class Kind {
    text,
    heading,
    figure,
    field,  ///< text, number, date or search: something that is typed into
    choice, ///< a drop-down that opens
    option, ///< one answer of a choice
    tick,
    button,
    tab,  ///< a screen's name on the rail
    head, ///< a table's column head
    row,  ///< a table's or chart's row
    cell,
    card,   ///< a run on the board
    marker, ///< a tick or line in a chart; today's line; a free day on the board
    refusal,
    dialog,
    notice,
};

const char* word_for(Kind kind);

/// In window pixels.
struct Rect {
    float left = 0, top = 0, right = 0, bottom = 0;
    float width() const { return right - left; }
    float height() const { return bottom - top; }
    bool contains(float x, float y) const { return x >= left && x < right && y >= top && y < bottom; }
};

/// One thing a person can see, in the order it was drawn.
struct Note {
    Kind kind = Kind::text;
    std::string label; ///< the words a person reads (of a field: its label)
    std::string path;  ///< places from outside in, then the label: "Intake/Lot at hand/Moisture"; unique if
                       ///< interactive
    std::string value; ///< what stands in a field, a choice or a figure; of a row its cells, joined by " | "
    std::string unit;
    Rect rect;            ///< whole, even where a scroll area cuts it
    Rect seen;            ///< the part inside its scroll areas and the window; empty if scrolled away
    std::uint32_t id = 0; ///< of the item the pointer must hover to press it; 0 for words
    int layer = 0;        ///< 0 the screen, 1 and up dialogs over it
    bool visible = true;  ///< some part of it is seen
    bool enabled = true;
    bool focused = false;
    bool chosen = false; ///< a ticked box, a selected row, the current tab or option
    bool hovered = false;
};

/// All notes of the last finished frame. Tests find things by what a person reads; screens never read it.
class Probe {
public:
    const std::vector<Note>& notes() const { return shown_; }
    /// Every word seen on the screen in drawing order, one note a line.
    std::string words() const;

    // Used by the widgets.
    void start_frame() { drawing_.clear(); }
    Note& add(Note note);
    void finish_frame() { shown_.swap(drawing_); }

private:
    std::vector<Note> drawing_;
    std::vector<Note> shown_;
};

} // namespace mellowbin::ui
