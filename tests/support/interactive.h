#pragma once

#include "ui/widgets/probe.h"

namespace mellowbin::ui {

/// Can it be pressed or typed into, so that Tab must reach it?
inline bool is_interactive(Kind kind) {
    switch (kind) {
    case Kind::field:
    case Kind::choice:
    case Kind::option:
    case Kind::tick:
    case Kind::button:
    case Kind::tab:
    case Kind::head:
    case Kind::row:
    case Kind::card:
    case Kind::marker:
        return true;
    default:
        return false;
    }
}

} // namespace mellowbin::ui
