#include "print/text.h"

#include "core/typed_text.h"
#include "print/text_laid.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::print {
namespace {

constexpr const char* family = "Noto Sans";

/// Without hinting: a line on paper breaks where it would on any other machine with the same fonts.
Owned<PangoContext> context() {
    Owned<PangoContext> made(pango_font_map_create_context(pango_cairo_font_map_get_default()));
    pango_cairo_context_set_resolution(made.get(), 72); // its units are points then
    auto* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(made.get(), options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(made.get(), FALSE);
    return made;
}

std::string as_text(std::string_view words) {
    std::string text(words);
    std::replace_if(
        text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < ' ' || c == '\x7f'; },
        ' ');
    return text;
}

bool is_utf8(std::string_view words) {
    while (!words.empty()) {
        const auto length = character_length(words);
        if (length == 0)
            return false;
        words.remove_prefix(length);
    }
    return true;
}

PangoAlignment alignment(Side side) {
    switch (side) {
    case Side::right:
        return PANGO_ALIGN_RIGHT;
    case Side::centre:
        return PANGO_ALIGN_CENTER;
    case Side::left:
        break;
    }
    return PANGO_ALIGN_LEFT;
}

void apply(PangoLayout& layout, const Style& style, double width_mm) {
    auto* font = pango_font_description_new();
    pango_font_description_set_family(font, family);
    pango_font_description_set_size(font, static_cast<int>(style.points * PANGO_SCALE));
    pango_font_description_set_weight(font, style.is_bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(&layout, font);
    pango_font_description_free(font);
    pango_layout_set_alignment(&layout, alignment(style.side));
    pango_layout_set_wrap(&layout, PANGO_WRAP_WORD_CHAR);
    if (width_mm > 0)
        pango_layout_set_width(&layout, static_cast<int>(width_mm * points_a_mm * PANGO_SCALE));
}

/// The first character that no font has.
std::string first_unknown(PangoLayout& layout) {
    for (auto* line = pango_layout_get_lines_readonly(&layout); line; line = line->next)
        for (auto* run = static_cast<PangoLayoutLine*>(line->data)->runs; run; run = run->next) {
            const auto* glyphs = static_cast<PangoGlyphItem*>(run->data)->glyphs;
            for (int i = 0; i < glyphs->num_glyphs; ++i)
                if (const auto glyph = glyphs->glyphs[i].glyph; (glyph & PANGO_GLYPH_UNKNOWN_FLAG) != 0)
                    return fmt::format("U+{:04X}",
                                       glyph & ~static_cast<PangoGlyph>(PANGO_GLYPH_UNKNOWN_FLAG));
        }
    return "a character";
}

std::vector<Text::Laid::Line> lines_of(PangoLayout& layout) {
    std::vector<Text::Laid::Line> lines;
    auto* at = pango_layout_get_iter(&layout);
    do {
        PangoRectangle logical;
        pango_layout_iter_get_line_extents(at, nullptr, &logical);
        int top = 0, bottom = 0;
        pango_layout_iter_get_line_yrange(at, &top, &bottom);
        constexpr double scale = PANGO_SCALE;
        lines.push_back({pango_layout_iter_get_line_readonly(at), logical.x / scale, top / scale,
                         bottom / scale, pango_layout_iter_get_baseline(at) / scale});
    } while (pango_layout_iter_next_line(at));
    pango_layout_iter_free(at);
    return lines;
}

} // namespace

std::size_t Text::lines() const { return laid_->lines.size(); }

double Text::width_mm() const { return laid_->width / points_a_mm; }

double Text::height_mm(std::size_t first, std::size_t end) const {
    if (first >= end)
        return 0;
    return (laid_->lines[end - 1].bottom - laid_->lines[first].top) / points_a_mm;
}

Text Typesetter::set(std::string_view words, const Style& style, double width_mm) {
    auto laid = std::make_shared<Text::Laid>();
    laid->layout.reset(pango_layout_new(context().get()));
    apply(*laid->layout, style, width_mm);
    const bool is_text = is_utf8(words);
    if (!is_text)
        note({"Text", fmt::format("\"{}\" holds bytes that are no text", excerpt(words)), "Write it anew"});
    const auto text = is_text ? as_text(words) : std::string();
    pango_layout_set_text(laid->layout.get(), text.data(), static_cast<int>(text.size()));
    if (pango_layout_get_unknown_glyphs_count(laid->layout.get()) > 0)
        note({"Text",
              fmt::format("\"{}\" has {}, which no font on this machine can show", excerpt(words),
                          first_unknown(*laid->layout)),
              "Install a font that has it, or write it in another way"});
    laid->lines = lines_of(*laid->layout);
    PangoRectangle logical;
    pango_layout_get_extents(laid->layout.get(), nullptr, &logical);
    laid->width = static_cast<double>(logical.width) / PANGO_SCALE;
    return Text(std::move(laid));
}

void Typesetter::take_over(const Typesetter& other) {
    for (const auto& fault : other.faults_)
        note(fault);
}

void Typesetter::note(Refusal fault) {
    if (std::find(faults_.begin(), faults_.end(), fault) == faults_.end())
        faults_.push_back(std::move(fault));
}

} // namespace mellowbin::print
