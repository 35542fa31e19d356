#include "support/made_certificates.h"

#include "support/fixture_file.h"
#include "support/plain_pdf.h"
#include "support/temporary_folder.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>
#include <xlsxwriter.h>

namespace mellowbin::testing {
namespace {

constexpr std::size_t lines_a_page = 20;
constexpr double column_width = 220; // points
constexpr double line_height = 20;

std::optional<double> number_in(const std::string& text) {
    double number = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (fault != std::errc{} || end != text.data() + text.size())
        return {};
    return number;
}

/// The rows of each page, the heads first.
std::vector<Cells> pages_of(const Cells& cells) {
    std::vector<Cells> pages;
    for (std::size_t row = 1; row < cells.size(); ++row) {
        if ((row - 1) % lines_a_page == 0)
            pages.push_back({cells.front()});
        pages.back().push_back(cells[row]);
    }
    return pages;
}

} // namespace

Cells cells_of_csv(std::string_view csv) {
    Cells cells(1, {""});
    for (const char c : csv) {
        if (c == '\n')
            cells.push_back({""});
        else if (c == ',')
            cells.back().emplace_back();
        else if (c != '\r')
            cells.back().back() += c;
    }
    if (cells.back().size() == 1 && cells.back().front().empty())
        cells.pop_back();
    return cells;
}

std::string xlsx_of(const Cells& cells) {
    const tests::TemporaryFolder folder;
    const auto path = folder / "made.xlsx";
    lxw_workbook* workbook = workbook_new(path.c_str());
    lxw_worksheet* sheet = workbook_add_worksheet(workbook, "Certificates");
    for (std::size_t row = 0; row < cells.size(); ++row) {
        for (std::size_t column = 0; column < cells[row].size(); ++column) {
            const auto& text = cells[row][column];
            const auto at_row = static_cast<lxw_row_t>(row);
            const auto at_column = static_cast<lxw_col_t>(column);
            if (const auto number = number_in(text))
                worksheet_write_number(sheet, at_row, at_column, *number, nullptr);
            else if (!text.empty())
                worksheet_write_string(sheet, at_row, at_column, text.c_str(), nullptr);
        }
    }
    if (workbook_close(workbook) != LXW_NO_ERROR)
        throw std::runtime_error("libxlsxwriter could not write " + path.string());
    return file_bytes(path);
}

std::string pasted_from_a_spreadsheet(const Cells& cells) {
    std::string text;
    for (const auto& row : cells)
        text += fmt::format("{}\r\n", fmt::join(row, "\t"));
    return text;
}

std::string pasted_in_blanks(const Cells& cells) {
    std::vector<std::size_t> widths(cells.front().size(), 0);
    for (const auto& row : cells)
        for (std::size_t i = 0; i < row.size(); ++i)
            widths[i] = std::max(widths[i], row[i].size());
    std::string text;
    for (const auto& page : pages_of(cells)) {
        for (const auto& row : page) {
            for (std::size_t i = 0; i < row.size(); ++i)
                text += fmt::format("{:<{}}", row[i], widths[i] + 2);
            text += '\n';
        }
        text += '\f';
    }
    return text;
}

std::string pdf_of(const Cells& cells) {
    std::vector<std::vector<PrintedText>> pages;
    for (const auto& page : pages_of(cells)) {
        pages.emplace_back();
        for (std::size_t row = 0; row < page.size(); ++row)
            for (std::size_t i = 0; i < page[row].size(); ++i)
                if (!page[row][i].empty())
                    pages.back().push_back({50 + column_width * static_cast<double>(i),
                                            50 + line_height * static_cast<double>(row), page[row][i]});
    }
    return plain_pdf(pages, 100 + column_width * static_cast<double>(cells.front().size()));
}

std::string page_words_of(const Cells& cells) {
    constexpr double letter = 5;
    std::string table =
        "level\tpage_num\tpar_num\tblock_num\tline_num\tword_num\tleft\ttop\twidth\theight\tconf\ttext\n";
    const auto pages = pages_of(cells);
    for (std::size_t page = 0; page < pages.size(); ++page)
        for (std::size_t row = 0; row < pages[page].size(); ++row)
            for (std::size_t i = 0; i < pages[page][row].size(); ++i) {
                double left = 50 + column_width * static_cast<double>(i);
                std::string_view text = pages[page][row][i];
                while (!text.empty()) {
                    const auto word = text.substr(0, std::min(text.find(' '), text.size()));
                    const double width = letter * static_cast<double>(word.size());
                    table += fmt::format("5\t{}\t1\t0\t0\t0\t{}\t{}\t{}\t10\t100\t{}\n", page + 1, left,
                                         50 + line_height * static_cast<double>(row), width, word);
                    left += width + letter / 2;
                    text.remove_prefix(std::min(word.size() + 1, text.size()));
                }
            }
    return table;
}

std::string made_certificates(int lots) {
    std::string text =
        "Charge\tVermahlen am\tMHD\tNettogewicht\tFeuchtigkeit\tRohprotein (N x "
        "5,7)\tAsche\tFeuchtkleber\tGlutenindex\t"
        "Fallzahl\tSedimentationswert\tWasseraufnahme\tStabilität\tErweichung\tW\tP\tL\tAscorbinsäure\n"
        "\t\t\tkg\t%\t% i. Tr.\t% i. Tr.\t% (14 % Feuchte)\t\ts\tml\t% (14 % Feuchte)\tmin\tFE\t10-4 "
        "J\tmm\tmm\tmg/kg\n";
    for (int i = 1; i <= lots; ++i)
        text += fmt::format("M-{}\t16.11.2026\t16.11.2027\t{}\t14,{}\t13,{}\t0,5{}\t29,{}\t9{}\t3{}0\t38\t59,"
                            "{}\t9,{}\t6{}\t2{}0\t7{}\t9{}\t2{}\n",
                            i, 1'000 + i, i % 10, i % 9, i % 8, i % 7, i % 6, i % 5, i % 9, i % 8, i % 7,
                            i % 6, i % 5, i % 4, i % 3);
    return text;
}

} // namespace mellowbin::testing
