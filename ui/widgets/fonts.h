#pragma once

#include "ui/widgets/theme.h"

#include <imgui.h>

#include <array>
#include <bitset>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::ui {

/// A font of the atlas at the size in which it is to be drawn.
struct Typeface {
    ImFont* font = nullptr;
    float size = 0; ///< line height in pixels, as Dear ImGui counts it
};

/// The next code point of UTF-8 text; moves `text` past it. Broken bytes give U+FFFD.
char32_t next_code_point(std::string_view& text);

/// The fonts of the machine and the atlas made from them. Only sizes and characters that were asked for are
/// in it: what is missing is noted while a frame is drawn, and the atlas built anew before the next one.
class Fonts {
public:
    Fonts();
    ~Fonts();

    /// Builds the atlas if something asked for is not in it or a scale changed: that of the text, and that of
    /// the sizes that grow with the window. Between frames only. True when the picture changed.
    bool refresh(ImFontAtlas& atlas, float scale, float grown);
    /// Asks for the words' characters and gives the face to draw them with; a size that is not built yet is
    /// drawn for one frame from the ordinary one.
    Typeface face(TextSize size, Weight weight);
    void want(std::string_view utf8, TextSize size);
    bool is_waiting() const { return stale_; }
    bool can_show(char32_t c) const;
    /// Where the ordinary font was found; empty: none, and Dear ImGui's own is used.
    const std::string& source() const { return source_; }

private:
    struct File;
    struct Slot {
        ImFont* font = nullptr;
        bool wanted = false;
    };
    using Characters = std::bitset<0x10000>;

    Slot& slot(TextSize size, Weight weight);
    void build(ImFontAtlas& atlas);
    [[nodiscard]] bool has_grown_sizes() const;
    ImFont* add(ImFontAtlas& atlas, TextSize size, Weight weight);

    std::unique_ptr<File> regular_, bold_, signs_;
    std::string source_;
    std::array<std::array<Slot, 2>, text_sizes> slots_;
    std::unique_ptr<Characters> characters_;           ///< of all ordinary sizes
    std::array<std::unique_ptr<Characters>, 2> large_; ///< of the mixer's figure and water, digits at first
    std::vector<ImVector<ImWchar>> ranges_;
    float scale_ = 0, grown_ = 0;
    bool stale_ = true;
};

} // namespace mellowbin::ui
