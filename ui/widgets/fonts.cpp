#include "ui/widgets/fonts.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stb/stb_truetype.h>

namespace mellowbin::ui {

namespace {

constexpr const char* regular_paths[] = {
    "/usr/share/fonts/truetype/noto/NotoSans-Regular.ttf",
    "/usr/share/fonts/noto/NotoSans-Regular.ttf",
    "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
    "/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf",
    "/usr/share/fonts/truetype/freefont/FreeSans.ttf",
};
constexpr const char* bold_paths[] = {
    "/usr/share/fonts/truetype/noto/NotoSans-Bold.ttf",
    "/usr/share/fonts/noto/NotoSans-Bold.ttf",
    "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf",
    "/usr/share/fonts/truetype/liberation/LiberationSans-Bold.ttf",
};
constexpr const char* sign_paths[] = {
    "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
    "/usr/share/fonts/dejavu/DejaVuSans.ttf",
};

// Always there: Latin for the names of Europe, and the signs this program itself writes.
constexpr std::string_view signs = "–—‘’“”„…•‰−×÷≈≠≤≥±→←↑↓✓✕▲▼●○■□½¼¾₂²³°µΔ";
constexpr std::string_view figures = "0123456789.,-–−+±≤≥≈ %°CFgkLlmpt";

bool is_large(TextSize size) { return size >= TextSize::mixer_figure; }
std::size_t large_place(TextSize size) { return size == TextSize::mixer_figure ? 0 : 1; }

} // namespace

struct Fonts::File {
    std::vector<unsigned char> bytes;
    stbtt_fontinfo info{};
    float line_per_em = 1; ///< Dear ImGui counts a font by its line, people by its em

    static std::unique_ptr<File> open(const char* path) {
        std::ifstream in(path, std::ios::binary);
        if (!in)
            return nullptr;
        auto file = std::make_unique<File>();
        std::error_code none;
        file->bytes.resize(static_cast<std::size_t>(std::filesystem::file_size(path, none)));
        in.read(reinterpret_cast<char*>(file->bytes.data()),
                static_cast<std::streamsize>(file->bytes.size()));
        if (!in || !stbtt_InitFont(&file->info, file->bytes.data(), 0))
            return nullptr;
        file->line_per_em =
            stbtt_ScaleForMappingEmToPixels(&file->info, 1) / stbtt_ScaleForPixelHeight(&file->info, 1);
        return file;
    }

    template <class Paths>
    static std::unique_ptr<File> first(const Paths& paths, std::string* found = nullptr) {
        for (const char* path : paths)
            if (auto file = open(path)) {
                if (found)
                    *found = path;
                return file;
            }
        return nullptr;
    }

    bool has(char32_t c) const { return stbtt_FindGlyphIndex(&info, static_cast<int>(c)) != 0; }
};

char32_t next_code_point(std::string_view& text) {
    unsigned int c = 0;
    const auto first = static_cast<unsigned char>(text.front());
    if (first < 0x80) {
        text.remove_prefix(1);
        return first;
    }
    const int more = first >= 0xF0 ? 3 : first >= 0xE0 ? 2 : first >= 0xC0 ? 1 : 0;
    if (more == 0 || text.size() <= static_cast<std::size_t>(more)) {
        text.remove_prefix(1);
        return 0xFFFD;
    }
    c = first & (0x3Fu >> more);
    for (int i = 1; i <= more; ++i)
        c = c << 6 | (static_cast<unsigned char>(text[i]) & 0x3Fu);
    text.remove_prefix(static_cast<std::size_t>(more) + 1);
    return c;
}

Fonts::Fonts() : characters_(std::make_unique<Characters>()) {
    regular_ = File::first(regular_paths, &source_);
    bold_ = File::first(bold_paths);
    signs_ = File::first(sign_paths);
    for (std::size_t c = 0x20; c < 0x180; ++c)
        characters_->set(c);
    for (std::string_view rest = signs; !rest.empty();)
        characters_->set(next_code_point(rest));
    characters_->set(0xFFFD);
    for (auto& set : large_) {
        set = std::make_unique<Characters>();
        for (std::string_view rest = figures; !rest.empty();)
            set->set(next_code_point(rest));
    }
    slot(TextSize::text, Weight::regular).wanted = true;
    slot(TextSize::text, Weight::bold).wanted = true;
    slot(TextSize::heading, Weight::bold).wanted = true;
}

Fonts::~Fonts() = default;

Fonts::Slot& Fonts::slot(TextSize size, Weight weight) {
    return slots_[static_cast<std::size_t>(size)][static_cast<std::size_t>(weight)];
}

bool Fonts::refresh(ImFontAtlas& atlas, float scale, float grown) {
    const bool has_grown = std::abs(grown - grown_) >= 0.001f && has_grown_sizes();
    if (!stale_ && std::abs(scale - scale_) < 0.001f && !has_grown)
        return false;
    scale_ = scale;
    grown_ = grown;
    build(atlas);
    return true;
}

/// One of the sizes that grow with the window is in use.
bool Fonts::has_grown_sizes() const {
    for (std::size_t size = 0; size < text_sizes; ++size)
        if (grows_with_window(static_cast<TextSize>(size)) &&
            (slots_[size][0].wanted || slots_[size][1].wanted))
            return true;
    return false;
}

void Fonts::build(ImFontAtlas& atlas) {
    atlas.Clear();
    atlas.Flags |= ImFontAtlasFlags_NoMouseCursors;
    ranges_.clear();
    ranges_.reserve(text_sizes * 2);
    for (std::size_t size = 0; size < text_sizes; ++size)
        for (std::size_t weight = 0; weight < 2; ++weight) {
            Slot& at = slots_[size][weight];
            at.font =
                at.wanted ? add(atlas, static_cast<TextSize>(size), static_cast<Weight>(weight)) : nullptr;
        }
    atlas.Build();
    stale_ = false;
}

ImFont* Fonts::add(ImFontAtlas& atlas, TextSize size, Weight weight) {
    const float em = std::round(pixels(size) * (grows_with_window(size) ? grown_ : scale_));
    ImFontConfig config;
    if (!regular_) {
        config.SizePixels = em;
        return atlas.AddFontDefault(&config);
    }
    const Characters& wanted = is_large(size) ? *large_[large_place(size)] : *characters_;
    ImFontGlyphRangesBuilder builder;
    for (std::size_t c = 0x20; c < wanted.size(); ++c)
        if (wanted[c])
            builder.AddChar(static_cast<ImWchar>(c));
    builder.BuildRanges(&ranges_.emplace_back());

    File& face = weight == Weight::bold && bold_ ? *bold_ : *regular_;
    config.FontDataOwnedByAtlas = false;
    config.OversampleH = size <= TextSize::heading ? 2 : 1;
    config.OversampleV = 1;
    config.PixelSnapH = false;
    ImFont* font =
        atlas.AddFontFromMemoryTTF(face.bytes.data(), static_cast<int>(face.bytes.size()),
                                   std::round(em * face.line_per_em), &config, ranges_.back().Data);
    if (signs_ && signs_->bytes != face.bytes) {
        config.MergeMode = true;
        config.GlyphOffset.y = 0;
        atlas.AddFontFromMemoryTTF(signs_->bytes.data(), static_cast<int>(signs_->bytes.size()),
                                   em * signs_->line_per_em, &config, ranges_.back().Data);
    }
    return font;
}

Typeface Fonts::face(TextSize size, Weight weight) {
    if (size >= TextSize::figure && !grows_with_window(size))
        weight = Weight::regular; // large figures need no weight
    Slot& at = slot(size, weight);
    if (at.font)
        return {at.font, at.font->FontSize};
    if (!at.wanted)
        at.wanted = stale_ = true;
    ImFont* ordinary = slot(TextSize::text, Weight::regular).font;
    const float growth = grows_with_window(size) && scale_ > 0 ? grown_ / scale_ : 1;
    return {ordinary, std::round(ordinary->FontSize * growth * pixels(size) / pixels(TextSize::text))};
}

void Fonts::want(std::string_view utf8, TextSize size) {
    Characters& have = is_large(size) ? *large_[large_place(size)] : *characters_;
    for (std::string_view rest = utf8; !rest.empty();) {
        const char32_t c = next_code_point(rest);
        if (c < 0x20 || c >= have.size() || have[c])
            continue;
        have.set(c); // once, even if no font has it: it will not be asked for again
        if (can_show(c))
            stale_ = true;
    }
}

bool Fonts::can_show(char32_t c) const {
    if (c < 0x20 || c >= 0x10000)
        return false;
    return (regular_ && regular_->has(c)) || (signs_ && signs_->has(c));
}

} // namespace mellowbin::ui
