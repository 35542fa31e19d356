#include "ui/widgets/probe.h"

namespace mellowbin::ui {

const char* word_for(Kind kind) {
    static constexpr const char* words[] = {"text", "heading", "figure",  "field",  "choice", "option",
                                            "tick", "button",  "tab",     "head",   "row",    "cell",
                                            "card", "marker",  "refusal", "dialog", "notice"};
    return words[static_cast<std::size_t>(kind)];
}

std::string Probe::words() const {
    std::string all;
    for (const Note& note : shown_) {
        if (!note.visible)
            continue;
        all += note.label;
        if (!note.value.empty())
            all += (note.label.empty() ? "" : ": ") + note.value;
        if (!note.unit.empty())
            all += " " + note.unit;
        all += '\n';
    }
    return all;
}

Note& Probe::add(Note note) {
    drawing_.push_back(std::move(note));
    return drawing_.back();
}

} // namespace mellowbin::ui
