#pragma once

#include "support/catch.h"
#include "support/screen.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::test {

/// What the window leaves to a screen at 1280 x 720, beside the rail and under the line on top.
inline ui::FrameSetup beside_the_rail(float text_size) {
    return {.width = 1060, .height = 620, .text_size = text_size};
}

/// Also below what is in view.
inline bool tells(const testing::Screen& screen, std::string_view words) {
    const auto& notes = screen.probe().notes();
    return std::any_of(notes.begin(), notes.end(), [&](const auto& note) {
        return note.label.find(words) != std::string::npos || note.value.find(words) != std::string::npos;
    });
}

/// Nothing that can be pressed lies over another such thing, and no words are cut at the side.
inline void check_laid_out(const testing::Screen& screen) {
    std::vector<const ui::Note*> things;
    for (const auto& note : screen.probe().notes()) {
        INFO(note.path << " '" << note.label << "' from " << note.rect.left << " to " << note.rect.right);
        if (note.visible)
            CHECK(note.seen.width() >= note.rect.width() - 1.5F);
        if (note.kind == ui::Kind::button || note.kind == ui::Kind::field)
            things.push_back(&note);
    }
    const auto overlap = [](float from, float to, float other_from, float other_to) {
        return std::min(to, other_to) - std::max(from, other_from);
    };
    for (std::size_t i = 0; i < things.size(); ++i)
        for (std::size_t j = i + 1; j < things.size(); ++j) {
            const auto &a = *things[i], &b = *things[j];
            // A field holds its own buttons.
            if (a.layer != b.layer || (a.kind == ui::Kind::field) != (b.kind == ui::Kind::field))
                continue;
            INFO(a.path << " and " << b.path);
            const bool lies_over = overlap(a.rect.left, a.rect.right, b.rect.left, b.rect.right) > 2 &&
                                   overlap(a.rect.top, a.rect.bottom, b.rect.top, b.rect.bottom) > 2;
            CHECK_FALSE(lies_over);
        }
}

} // namespace mellowbin::test
