#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

/// What others' programs see in a PDF: poppler's (pdftotext, pdffonts, pdftoppm) and dmtxread.
namespace mellowbin::tests {

/// A page in grey, as portable grey map (PGM), too.
struct GreyPage {
    std::size_t width = 0, height = 0;
    std::vector<std::uint8_t> grey; ///< row by row; 255 is paper
    std::string pgm;
};
/// The first page at so many dots per inch.
GreyPage page_at(const std::string& pdf, int dots_per_inch);
/// Its words, one page ended by a form feed; laid out in blanks.
std::string text_of(const std::string& pdf);
struct PdfFont {
    std::string name;
    bool is_embedded = false;
};
std::vector<PdfFont> fonts_of(const std::string& pdf);
/// The page sizes in points, as pdfinfo says them: "595.276 x 841.89".
std::vector<std::string> sizes_of(const std::string& pdf);
/// What dmtxread reads on a page in grey, the separator as it is.
std::string seen_by_dmtx(const std::string& pgm);
bool is_program_there(const char* name);

} // namespace mellowbin::tests
