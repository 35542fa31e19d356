#include "core/property.h"
#include "support/catch.h"
#include "support/interactive.h"
#include "ui/views/screen_states.h"

#include <algorithm>
#include <map>
#include <set>

using namespace mellowbin;
using test::all_screen_states;
using test::WholeWindow;
using ui::Kind;
using ui::Note;

namespace {

/// What has a place of its own in the Tab ring; rows, heads, answers, cards and marks are reached through
/// theirs, by arrows.
bool is_a_stop(const Note& note) {
    return note.kind == Kind::field || note.kind == Kind::choice || note.kind == Kind::tick ||
           note.kind == Kind::button;
}

int top_layer(const ui::Probe& probe) {
    int top = 0;
    for (const auto& note : probe.notes())
        top = std::max(top, note.layer);
    return top;
}

/// Paths of everything that had the focus while Tab went once round.
std::set<std::string> reached_by_tab(testing::Screen& screen) {
    std::set<std::string> reached;
    std::string first;
    const auto most_presses = screen.probe().notes().size();
    for (std::size_t presses = 0; presses < most_presses; ++presses) {
        screen.press(ui::Key::tab);
        for (const auto& note : screen.probe().notes()) {
            if (!note.focused)
                continue;
            if (note.path == first)
                return reached;
            if (first.empty())
                first = note.path;
            reached.insert(note.path);
        }
    }
    return reached;
}

float overlap(float from, float to, float other_from, float other_to) {
    return std::min(to, other_to) - std::max(from, other_from);
}

/// Two things that can be pressed and lie over each other by more than a hair.
bool lie_over_each_other(const Note& a, const Note& b) {
    constexpr float hair = 2;
    return overlap(a.seen.left, a.seen.right, b.seen.left, b.seen.right) > hair &&
           overlap(a.seen.top, a.seen.bottom, b.seen.top, b.seen.bottom) > hair;
}

/// A choice holds its answers; a field its own buttons; a chart or board its rows, cards and marks.
bool may_hold_others(const Note& note) {
    return note.kind == Kind::choice || note.kind == Kind::field || note.kind == Kind::row ||
           note.kind == Kind::card || note.kind == Kind::marker || note.kind == Kind::option;
}

std::map<std::string, std::string> units_of_number_fields() {
    std::map<std::string, std::string> units{{"Weight", "kg"},
                                             {"Weight of a bag", "kg"},
                                             {"Counted", "kg"},
                                             {"Weight on the note", "kg"},
                                             {"Weighed", "kg"},
                                             {"Pallet 1: weight", "kg"},
                                             {"Flour temperature", "°C"},
                                             {"Price per tonne", "per t"},
                                             {"Dose added by the mill", "mg/kg"},
                                             {"Dose", "mg/kg"},
                                             {"Firmness", "g"}};
    for (const auto& kind : all_properties())
        units.emplace(kind.name, kind.unit);
    return units;
}

/// What may be cut at the side because it is drawn in a place that can be scrolled there: rows, heads, and
/// the board.
bool scrolls_sideways(const Note& note) {
    return note.kind == Kind::row || note.kind == Kind::head || note.kind == Kind::card ||
           note.kind == Kind::marker || note.kind == Kind::cell || note.path.starts_with("Plan/Days/");
}

template <class Check> void in_every_state(ui::FrameSetup setup, Check check) {
    for (const auto& state : all_screen_states()) {
        DYNAMIC_SECTION(state.name) {
            WholeWindow window(state.screen, setup);
            state.begin(window);
            window.screen.settle();
            check(window);
        }
    }
}

} // namespace

TEST_CASE("Everything that can be pressed has words, and a path of its own") {
    in_every_state({}, [](WholeWindow& window) {
        std::map<std::string, int> seen;
        for (const auto& note : window.screen.probe().notes()) {
            if (!ui::is_interactive(note.kind))
                continue;
            INFO(note.path);
            CHECK_FALSE(note.label.empty());
            ++seen[note.path];
        }
        for (const auto& [path, times] : seen) {
            INFO(path);
            CHECK(times == 1);
        }
    });
}

TEST_CASE("Every number typed or shown has its unit beside it") {
    const auto units = units_of_number_fields();
    in_every_state({}, [&](WholeWindow& window) {
        for (const auto& note : window.screen.probe().notes()) {
            const auto unit = units.find(note.label);
            if (note.kind != Kind::field || unit == units.end())
                continue;
            INFO(note.path);
            CHECK(note.unit == unit->second);
        }
    });
}

TEST_CASE("Tab reaches everything that can be pressed") {
    in_every_state({}, [](WholeWindow& window) {
        const int layer = top_layer(window.screen.probe());
        const auto reached = reached_by_tab(window.screen);
        for (const auto& note : window.screen.probe().notes()) {
            if (!is_a_stop(note) || !note.enabled || note.layer != layer)
                continue;
            INFO(note.path);
            CHECK(reached.contains(note.path));
        }
    });
}

TEST_CASE("Nothing to press lies over another thing, at 100 % and at 200 %") {
    for (const float text_size : {1.0F, 2.0F}) {
        in_every_state({.text_size = text_size}, [](WholeWindow& window) {
            std::vector<const Note*> things;
            for (const auto& note : window.screen.probe().notes())
                if (ui::is_interactive(note.kind) && note.visible)
                    things.push_back(&note);
            for (std::size_t i = 0; i < things.size(); ++i)
                for (std::size_t j = i + 1; j < things.size(); ++j) {
                    const auto& a = *things[i];
                    const auto& b = *things[j];
                    if (a.layer != b.layer || may_hold_others(a) || may_hold_others(b))
                        continue;
                    INFO(a.path << " and " << b.path);
                    CHECK_FALSE(lie_over_each_other(a, b));
                }
        });
    }
}

TEST_CASE("No words, button or field are cut at the side at 1280 x 720 with text at 200 %") {
    in_every_state({.width = 1280, .height = 720, .text_size = 2}, [](WholeWindow& window) {
        for (const auto& note : window.screen.probe().notes()) {
            if (!note.visible || scrolls_sideways(note))
                continue;
            INFO(note.path << " '" << note.label << "' from " << note.rect.left << " to " << note.rect.right
                           << ", seen from " << note.seen.left << " to " << note.seen.right);
            CHECK(note.seen.width() >= note.rect.width() - 1.5F);
        }
    });
}

TEST_CASE("Every character on every screen has a glyph") {
    in_every_state({}, [](WholeWindow& window) {
        for (const auto& note : window.screen.probe().notes()) {
            INFO(note.path << ": " << note.label << " " << note.value << " " << note.unit);
            CHECK(window.screen.ui().can_show(note.label));
            CHECK(window.screen.ui().can_show(note.value));
            CHECK(window.screen.ui().can_show(note.unit));
        }
    });
}
