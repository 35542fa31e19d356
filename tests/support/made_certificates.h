#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::testing {

/// A table as text, a row of heads and rows of values.
using Cells = std::vector<std::vector<std::string>>;
/// Of a comma-separated table without quoted cells.
Cells cells_of_csv(std::string_view csv);

/// The table as a spreadsheet that libxlsxwriter wrote: figures as numbers, the rest as text.
std::string xlsx_of(const Cells& cells);
/// As it comes from a spreadsheet over the clipboard.
std::string pasted_from_a_spreadsheet(const Cells& cells);
/// As it comes from a page: in columns, parted by blanks, with the heads again on each page of 20 lines.
std::string pasted_in_blanks(const Cells& cells);
/// A PDF of it, 20 lines a page and the heads on each; and the words of that, as pdftotext -tsv gives them.
std::string pdf_of(const Cells& cells);
std::string page_words_of(const Cells& cells);

/// A certificate file, tab-separated, of so many made lots with eighteen columns, not in the program's own
/// words.
std::string made_certificates(int lots);

} // namespace mellowbin::testing
