#include "support/screen.h"

#include "support/interactive.h"

#include <algorithm>
#include <vector>

namespace mellowbin::testing {

using ui::Note;

namespace {

ui::FrameSetup probing(ui::FrameSetup setup) {
    setup.probing = ui::Probing::on;
    return setup;
}

bool is_named(const Note& note, std::string_view words) {
    if (note.label == words)
        return true;
    const std::string_view path = note.path;
    if (!path.ends_with(words))
        return false;
    return path.size() == words.size() || path[path.size() - words.size() - 1] == '/';
}

bool is_a_value(const Note& note) { return ui::is_interactive(note.kind) || note.kind == ui::Kind::figure; }

/// Things of a name in the highest layer that has any; those to press or with a value first, else plain
/// words.
std::vector<const Note*> named(const ui::Probe& probe, std::string_view words) {
    std::vector<const Note*> found;
    for (const bool plain : {false, true}) {
        int layer = 0;
        for (const Note& note : probe.notes())
            if (is_named(note, words) && (plain || is_a_value(note)))
                layer = std::max(layer, note.layer);
        for (const Note& note : probe.notes())
            if (is_named(note, words) && (plain || is_a_value(note)) && note.layer == layer)
                found.push_back(&note);
        if (!found.empty())
            break;
    }
    // The box of a choice and one of its open answers may read the same; the answer is what a person presses
    // then.
    if (found.size() > 1 &&
        std::any_of(found.begin(), found.end(), [](const Note* n) { return n->kind == ui::Kind::option; }))
        std::erase_if(found, [](const Note* n) { return n->kind == ui::Kind::choice; });
    return found;
}

} // namespace

Screen::Screen(std::function<void()> draw, ui::FrameSetup setup)
    : frame_(probing(setup)), draw_(std::move(draw)) {
    settle();
}

void Screen::draw_one() {
    frame_.begin();
    draw_();
    frame_.end();
}

void Screen::settle() {
    for (int drawn = 0; drawn < 3 || (frame_.wants_another() && drawn < 100); ++drawn)
        draw_one();
}

void Screen::fail(std::string_view what, std::string_view words) const {
    throw NotOnScreen("\"" + std::string(words) + "\" " + std::string(what) + ". On the screen:\n" +
                      frame_.probe().words());
}

const Note& Screen::find(std::string_view words) const {
    const auto found = named(frame_.probe(), words);
    if (found.empty())
        fail("is not there", words);
    if (found.size() > 1)
        fail("is there " + std::to_string(found.size()) + " times", words);
    return *found.front();
}

const Note& Screen::find_to_press(std::string_view words) {
    const Note& note = find(words);
    if (!note.id)
        fail("is only words, nothing to press", words);
    const auto cut = [](const Note& n) {
        return n.seen.width() < n.rect.width() - 1 || n.seen.height() < n.rect.height() - 1;
    };
    if (note.visible && !cut(note))
        return note;
    frame_.scroll_to(note.id);
    settle();
    const Note& again = find(words);
    if (!again.visible)
        fail("cannot be scrolled into view", words);
    return again;
}

void Screen::point_at(float x, float y) {
    frame_.pointer_moved(x, y);
    settle();
}

void Screen::point_at(std::string_view words) {
    const Note& note = find_to_press(words);
    const auto id = note.id;
    point_at((note.seen.left + note.seen.right) / 2, (note.seen.top + note.seen.bottom) / 2);
    if (frame_.hovered() != id)
        fail("is covered by something", words);
}

void Screen::click(std::string_view words) {
    point_at(words);
    frame_.pointer_pressed();
    frame_.pointer_released();
    settle();
}

void Screen::double_click(std::string_view words) {
    point_at(words);
    for (int i = 0; i < 2; ++i) {
        frame_.pointer_pressed();
        frame_.pointer_released();
    }
    settle();
}

void Screen::type(std::string_view field, std::string_view text) {
    if (find(field).kind != ui::Kind::field)
        fail("is no field", field);
    click(field);
    press(ui::Key::a, ui::Mods::ctrl);
    if (text.empty())
        press(ui::Key::del);
    else
        type(text);
}

void Screen::type(std::string_view text) {
    frame_.typed(text);
    settle();
}

void Screen::press(ui::Key key, ui::Mods mods) {
    frame_.pressed(key, mods);
    settle();
}

void Screen::drag(std::string_view words, float by_x, float by_y) {
    point_at(words);
    const Note& note = find(words);
    const float x = (note.seen.left + note.seen.right) / 2, y = (note.seen.top + note.seen.bottom) / 2;
    frame_.pointer_pressed();
    settle();
    for (const float part : {0.5f, 1.0f})
        point_at(x + by_x * part, y + by_y * part);
    frame_.pointer_released();
    settle();
}

void Screen::turn_wheel(std::string_view over, float lines_up, ui::Mods mods) {
    const Note& note = find(over);
    point_at((note.seen.left + note.seen.right) / 2, (note.seen.top + note.seen.bottom) / 2);
    frame_.wheel_turned(lines_up, mods);
    settle();
}

void Screen::resize(float width, float height) {
    frame_.resize(width, height);
    settle();
}

void Screen::text_size(float size) {
    frame_.set_text_size(size);
    settle();
}

bool Screen::says(std::string_view words) const {
    return std::any_of(probe().notes().begin(), probe().notes().end(), [&](const Note& note) {
        return note.visible &&
               (note.label.find(words) != std::string::npos || note.value.find(words) != std::string::npos);
    });
}

bool Screen::offers(std::string_view words) const {
    return std::any_of(probe().notes().begin(), probe().notes().end(), [&](const Note& note) {
        return ui::is_interactive(note.kind) && is_named(note, words);
    });
}

std::string Screen::words() const { return probe().words(); }
std::string Screen::value_of(std::string_view words) const { return find(words).value; }
bool Screen::is_enabled(std::string_view words) const { return find(words).enabled; }
bool Screen::is_chosen(std::string_view words) const { return find(words).chosen; }
bool Screen::is_focused(std::string_view words) const { return find(words).focused; }

std::string Screen::focused() const {
    for (const Note& note : probe().notes())
        if (note.focused)
            return note.label;
    return "";
}

} // namespace mellowbin::testing
