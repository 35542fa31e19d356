#include "ui/widgets/inner.h"

#include <cfloat>

namespace mellowbin::ui::inner {

namespace {

/// The first line of the words; at least one character.
std::string_view first_line(std::string_view words, Typeface face, float width) {
    const float scale = face.size / face.font->FontSize;
    float reached = 0;
    std::size_t last_space = std::string_view::npos;
    for (std::string_view rest = words; !rest.empty();) {
        const std::size_t at = static_cast<std::size_t>(rest.data() - words.data());
        const char32_t c = next_code_point(rest);
        if (c == U'\n')
            return words.substr(0, at);
        if (c == U' ')
            last_space = at;
        reached += face.font->GetCharAdvance(static_cast<ImWchar>(c < 0x10000 ? c : 0xFFFD)) * scale;
        if (reached <= width || c == U' ' || at == 0)
            continue;
        return words.substr(0, last_space == std::string_view::npos ? at : last_space);
    }
    return words;
}

} // namespace

std::vector<std::string_view> lines_of(std::string_view words, Typeface face, float width) {
    std::vector<std::string_view> lines;
    while (!words.empty()) {
        const std::string_view line = first_line(words, face, width);
        lines.push_back(line);
        words.remove_prefix(line.size());
        if (!words.empty() && (words.front() == ' ' || words.front() == '\n'))
            words.remove_prefix(1);
    }
    return lines;
}

} // namespace mellowbin::ui::inner
