#include "ui/shell/keyboard.h"

#include <GLFW/glfw3.h>

namespace mellowbin::ui {

namespace {

std::optional<Key> by_letter(int key, int scancode, bool is_ctrl) {
    const char* name = glfwGetKeyName(key, scancode);
    if (!name || !name[0] || name[1])
        return std::nullopt;
    switch (name[0]) {
    case '+':
    case '=':
        return Key::plus;
    case '-':
        return Key::minus;
    default:
        break;
    }
    if (!is_ctrl)
        return std::nullopt; // typed text
    switch (name[0]) {
    case 'a':
        return Key::a;
    case 'c':
        return Key::c;
    case 'f':
        return Key::f;
    case 'v':
        return Key::v;
    case 'x':
        return Key::x;
    case 'y':
        return Key::y;
    case 'z':
        return Key::z;
    case '0':
        return Key::zero;
    default:
        return std::nullopt;
    }
}

std::optional<Key> by_place(int key) {
    switch (key) {
    case GLFW_KEY_TAB:
        return Key::tab;
    case GLFW_KEY_ENTER:
    case GLFW_KEY_KP_ENTER:
        return Key::enter;
    case GLFW_KEY_ESCAPE:
        return Key::escape;
    case GLFW_KEY_SPACE:
        return Key::space;
    case GLFW_KEY_BACKSPACE:
        return Key::backspace;
    case GLFW_KEY_DELETE:
        return Key::del;
    case GLFW_KEY_LEFT:
        return Key::left;
    case GLFW_KEY_RIGHT:
        return Key::right;
    case GLFW_KEY_UP:
        return Key::up;
    case GLFW_KEY_DOWN:
        return Key::down;
    case GLFW_KEY_PAGE_UP:
        return Key::page_up;
    case GLFW_KEY_PAGE_DOWN:
        return Key::page_down;
    case GLFW_KEY_HOME:
        return Key::home;
    case GLFW_KEY_END:
        return Key::end;
    case GLFW_KEY_KP_ADD:
        return Key::plus;
    case GLFW_KEY_KP_SUBTRACT:
        return Key::minus;
    default:
        return std::nullopt;
    }
}

} // namespace

std::optional<Key> key_of(int key, int scancode, int mods) {
    if (key >= GLFW_KEY_F1 && key <= GLFW_KEY_F12)
        return static_cast<Key>(static_cast<int>(Key::f1) + key - GLFW_KEY_F1);
    const bool is_ctrl = (mods & GLFW_MOD_CONTROL) != 0;
    if (is_ctrl && key >= GLFW_KEY_1 && key <= GLFW_KEY_9)
        return static_cast<Key>(static_cast<int>(Key::digit_1) + key - GLFW_KEY_1);
    if (const auto named = by_place(key))
        return named;
    return by_letter(key, scancode, is_ctrl);
}

Mods mods_of(int mods) {
    unsigned ours = 0;
    if (mods & GLFW_MOD_CONTROL)
        ours |= static_cast<unsigned>(Mods::ctrl);
    if (mods & GLFW_MOD_SHIFT)
        ours |= static_cast<unsigned>(Mods::shift);
    return static_cast<Mods>(ours);
}

} // namespace mellowbin::ui
