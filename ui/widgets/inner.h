#pragma once

// The widget layer's own side: everything that includes Dear ImGui. Screens never include this.

#include "ui/widgets/body.h"
#include "ui/widgets/fonts.h"
#include "ui/widgets/frame.h"
#include "ui/widgets/theme.h"

#include <imgui.h>
#ifndef IMGUI_DEFINE_MATH_OPERATORS
#define IMGUI_DEFINE_MATH_OPERATORS
#endif
#include <imgui_internal.h>

#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace mellowbin::ui {

/// Where things stand: under each other, side by side, or in columns.
struct Place {
    enum class Kind { stack, flow, grid };
    Kind kind = Kind::stack;
    float left = 0, width = 0;
    // flow and grid: the line being filled
    float x = 0, top = 0, bottom = 0;
    float reached = 0;  ///< lower edge of the lowest thing so far, without the gap after it
    float box_drop = 0; ///< flow: how far labels of this line push their boxes down
    float cell = 0;     ///< grid: width of a cell
    int column = 0, columns = 1;
    int whole_rows = 0;          ///< grid: inside whole_row()
    bool messages_aside = false; ///< refusals and notes of fields are written by the row they stand in
};

struct Event {
    enum class What { move, leave, press, release, wheel, text, key } what;
    float x = 0, y = 0;
    std::string text = {};
    Key key = Key::tab;
    Mods mods = Mods::none;
};

/// A stop of the Tab ring in the frame being drawn.
struct Stop {
    ImGuiID id;
    int layer;
};

struct Frame::State {
    FrameSetup setup;
    ImGuiContext* context = nullptr;
    Fonts fonts;
    Probe probe;
    bool font_changed = true;
    float styled_for = 0; ///< the scale that the style was made for
    float elapsed = 1.0f / 60;
    std::string clipboard;

    std::deque<Event> events;
    bool pointer_down = false;
    int quiet_frames = 0;   ///< frames still to draw after the last event, until everything has settled
    bool is_moving = false; ///< something on the screen moves by itself: draw again soon

    // The key of this frame. One item uses it.
    std::optional<Key> key;
    Mods mods = Mods::none;
    bool key_used = false;
    float wheel = 0;
    bool wheel_used = false;

    // What is typed while no field is being typed into, for the one who asked for it in the frame before.
    bool wants_caught = false, catches = false;
    int catching_layer = 0;
    std::string caught;           ///< so far
    bool was_caught = false;      ///< more came in this frame
    bool caught_is_whole = false; ///< Enter ended it in this frame

    // Focus: ours, because Dear ImGui 1.86's Tab stops at text fields only. One place for each layer of
    // dialogs.
    std::vector<ImGuiID> focus{0};
    std::vector<Stop> ring, ring_before;
    int layer = 0, layers_drawn = 0, top_layer = 0;
    ImGuiID activate =
        0;             ///< a field that Tab or a view gave the focus to: to be opened for typing when drawn
    ImGuiID bring = 0; ///< an item to scroll to when drawn
    ImGuiID focus_form = 0; ///< the form of the focused field
    bool focus_is_field = false, focus_takes_enter = false;
    bool focus_by_key = true;        ///< the ring round a button is drawn for the keyboard only
    std::vector<ImGuiID> typed_into; ///< fields that were open for typing when they were drawn last
    std::string being_typed;         ///< what the field that is open for typing held after the frame before
    bool want_first_empty = false;
    ImGuiID first_empty = 0, first_field = 0;
    std::string want_label;

    // Where we are.
    std::vector<Place> places;
    std::vector<std::string> names;
    std::vector<ImGuiID> forms{0};
    int large = 0, bowl = 0;
    float clear_below = 0; ///< pixels at the lower edge over which nothing is laid
    std::unordered_map<ImGuiID, float>
        remembered; ///< what a widget keeps by itself: widths seen, an open list
    Cursor cursor = Cursor::arrow;
    bool asks = false, asked = false; ///< a question stands over the screen: in this frame, in the one before
};

namespace inner {

inline Frame::State& state() { return Frame::current().state(); }

// --- measures
// -------------------------------------------------------------------------------------------------
/// Pixels of an em of the ordinary text.
float em();
inline float px(Length length) { return std::round(length.ems * em()); }
/// Line height of the ordinary text and quarters of it.
float line();
inline float quarters(float n) { return std::round(line() * 0.25f * n); }
/// Height of what can be touched: 44 px, in large() 64 px, at 100 %.
float touch();
/// Pixels of a pixel at 1280 x 720 and 96 dpi, for what grows with the window: the mixer's.
float growth(const FrameSetup& setup);
float grown(float pixels);
/// A hair line that stays visible at every scale.
float hair();
float corner();

// --- colour
// ---------------------------------------------------------------------------------------------------
ImU32 tint(Role role, float alpha = 1);
ImU32 mix(Role one, Role other, float share_of_other);
/// Lines between things, borders of fields.
inline ImU32 faint_line() { return mix(Role::panel, Role::ink, 0.13f); }
inline ImU32 border_line() { return mix(Role::panel, Role::quiet, 0.75f); }

// --- words
// ----------------------------------------------------------------------------------------------------
struct Words {
    TextSize size = TextSize::text;
    Weight weight = Weight::regular;
};
/// The ordinary size here: the mixer's inside large().
Words ordinary();
/// Lines of at most `width` pixels: broken at spaces only, so that "11,8" stays whole; a longer word is cut.
std::vector<std::string_view> lines_of(std::string_view words, Typeface face, float width);
ImVec2 measure(std::string_view words, Words style = {}, float wrap = 0);
void draw(ImVec2 at, std::string_view words, ImU32 colour, Words style = {}, float wrap = 0);
/// One line within a width; what does not fit ends in "…".
void draw_clipped(ImVec2 at, float width, std::string_view words, ImU32 colour, Words style = {});
void draw_right(float right, float y, std::string_view words, ImU32 colour, Words style = {});
ImDrawList& paper();

// --- places
// ---------------------------------------------------------------------------------------------------
struct Spot {
    ImVec2 at;
    float width; ///< what the place gives at most
};
enum class Claim { natural, whole_row };
/// Where the next thing stands: `natural` is the width it would like.
Spot open_spot(float natural, Claim claim = Claim::natural, float drop_to_box = 0);
/// The thing is drawn; what comes next keeps `gap` quarters of a line away.
void close_spot(const Spot& spot, float width, float height, float gap = 2);
void push_place(Place::Kind kind, float left, float width);
void pop_place();
/// In a flow or grid: the next thing begins a line, `gap` quarters below.
void end_line(Place& place, float gap);
Place& place();
float left_height();
/// Sets where Dear ImGui draws next, with no trace in its own line; and how far the place reaches, for
/// scrolling.
void put_cursor(ImVec2 at);
void reach(ImVec2 corner_at);
/// A part of the window that scrolls for itself, `pad` pixels free all round.
void scrolling(std::string_view name, const ImRect& rect, float pad, Body body);
/// Something over the screen that takes all presses: a dialog, an open drop-down. Between the two, things are
/// drawn in pixels of the whole window.
void begin_layer(std::string_view name, ImU32 veil);
void end_layer();
/// Gives the focus to an item of the layer being drawn, when it was drawn just now.
void focus_in_layer(ImGuiID id);
/// The layer was not there in the frame before.
bool layer_is_new();
void push_name(std::string_view name);
void pop_name();

// --- things that can be pressed
// ---------------------------------------------------------------------------------
struct Pressable {
    ImGuiID id = 0;
    bool hovered = false, held = false, pressed = false, double_clicked = false;
    bool focused = false, visible = false, enabled = true;
    bool just_focused = false;
};
enum class Stops { yes, no }; ///< at Tab
struct PressOptions {
    bool enabled = true;
    Stops stops = Stops::yes;
    bool by_key = true;   ///< Space and Enter press it
    bool at_once = false; ///< pressed when the pointer goes down, not when it comes up: rows
};
ImGuiID id_of(std::string_view label);
/// An item at a fixed rectangle: pointer, focus, Space and Enter.
Pressable pressable(std::string_view label, const ImRect& rect, PressOptions options = {});
/// The ring part alone, for text fields; call it right after the item was added.
bool stop_here(ImGuiID id, std::string_view label, const ImRect& rect, bool enabled);
bool has_focus(ImGuiID id);
void give_focus(ImGuiID id);
/// A field open for typing takes what the program put into its text since the frame before. Call it before
/// the field.
void take_changes(ImGuiID id, const std::string& text);
/// To the next or previous stop of the ring of the frame before.
void give_focus_beside(int step);
/// The key of this frame, if it is this one and nobody used it; then it is used.
bool take_key(Key key, Mods mods = Mods::none);
void focus_ring(const ImRect& rect, float outset);
void hand_cursor(bool hovered);

// --- the probe
// --------------------------------------------------------------------------------------------------
inline bool is_probing() { return state().setup.probing == Probing::on; }
/// Null unless probing.
Note* note(Kind kind, std::string_view label, const ImRect& rect, ImGuiID id = 0);
void note_words(std::string_view words, ImVec2 at, ImVec2 size, Kind kind = Kind::text);
/// Of a pressable: with its states.
Note* note(Kind kind, std::string_view label, const ImRect& rect, const Pressable& item);

/// Extra words beside the pointer.
void tip_for(bool hovered, std::string_view words);

} // namespace inner
} // namespace mellowbin::ui
