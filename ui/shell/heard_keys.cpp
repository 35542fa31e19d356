#include "ui/shell/heard_keys.h"

#include "ui/shell/keyboard.h"

#include <GLFW/glfw3.h>

#include <utility>

namespace mellowbin::ui {
namespace {

std::string utf8(unsigned int c) {
    std::string bytes;
    const auto put = [&](unsigned int byte) { bytes += static_cast<char>(byte); };
    if (c < 0x80) {
        put(c);
    } else if (c < 0x800) {
        put(0xC0 | c >> 6);
        put(0x80 | (c & 0x3F));
    } else if (c < 0x10000) {
        put(0xE0 | c >> 12);
        put(0x80 | (c >> 6 & 0x3F));
        put(0x80 | (c & 0x3F));
    } else {
        put(0xF0 | c >> 18);
        put(0x80 | (c >> 12 & 0x3F));
        put(0x80 | (c >> 6 & 0x3F));
        put(0x80 | (c & 0x3F));
    }
    return bytes;
}

} // namespace

void HeardKeys::key(int key, int scancode, int action, int mods, double seconds) {
    if (action != GLFW_RELEASE)
        heard_.push_back({KeyStroke::What::key, key, scancode, mods, action == GLFW_REPEAT, {}, seconds});
}

void HeardKeys::character(unsigned int code_point, double seconds) {
    heard_.push_back({KeyStroke::What::text, 0, 0, 0, false, utf8(code_point), seconds});
}

void HeardKeys::take_in(Frame& frame, double from, double now) {
    auto heard = std::exchange(heard_, {});
    if (from < now)
        spread(heard, from);
    for (const auto& stroke : heard)
        reader_.hear(stroke);
    reader_.wait_until(now);
    looked_ = now;
    pass_on(frame);
}

void HeardKeys::before_pointer(Frame& frame, double now) {
    take_in(frame, looked_, now);
    reader_.let_go();
    pass_on(frame);
}

void HeardKeys::pass_on(Frame& frame) {
    for (const auto& stroke : reader_.take_typed()) {
        if (stroke.what == KeyStroke::What::text)
            frame.typed(stroke.text);
        else if (const auto ours = key_of(stroke.key, stroke.scancode, stroke.mods))
            frame.pressed(*ours, mods_of(stroke.mods));
    }
}

} // namespace mellowbin::ui
