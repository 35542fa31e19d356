#pragma once

#include <string>
#include <vector>

namespace mellowbin::testing {

/// A word or more on a page, its left lower corner in points from the page's left upper one.
struct PrintedText {
    double left = 0, down = 0;
    std::string text; ///< Windows-1252
};
/// A PDF with these texts, a vector a page, in one size of a plain letter; pages are as wide as needed.
std::string plain_pdf(const std::vector<std::vector<PrintedText>>& pages, double width = 595,
                      double size = 9);

/// A PDF whose page has a line drawn and no text.
std::string pdf_without_text();

} // namespace mellowbin::testing
